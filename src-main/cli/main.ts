/** Entry of the command line: `npm run --silent evenswing -- COMMAND ...`. */
import { fileURLToPath } from 'node:url'
import type { CliIo } from './command.ts'
import { oneLine } from './failure.ts'
import { run } from './run.ts'

/** npm runs a script in the program's folder and says in INIT_CWD where the user stood. */
function standingIn(): string {
  const script = process.env['npm_lifecycle_event']
  const from = process.env['INIT_CWD']
  return from && (script === 'evenswing' || script === 'demo') ? from : process.cwd()
}

/** A reader that has seen enough (`| head`) closes the pipe; that is no fault of ours. */
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') process.exitCode = 2
  })
}

const io: CliIo = {
  out: (text) => void process.stdout.write(text),
  note: (line) => void process.stderr.write(`evenswing: ${oneLine(line)}\n`),
  cwd: standingIn(),
  root: fileURLToPath(new URL('../..', import.meta.url)),
}

process.exitCode = await run(process.argv.slice(2), io)
