/** The command line's outermost part; scripts/evenswing.mjs calls it. */
import type { CliIo } from './command.ts'
import { oneLine } from './failure.ts'
import { run } from './run.ts'

/** npm runs a script in the program's folder and says in INIT_CWD where the user stood. */
function standingIn(): string {
  const script = process.env['npm_lifecycle_event']
  const from = process.env['INIT_CWD']
  return from && (script === 'evenswing' || script === 'demo') ? from : process.cwd()
}

/** Runs the words the program was called with. `root` is the program's folder. */
export async function main(root: string): Promise<void> {
  // A reader that has seen enough (`| head`) closes the pipe; that is no fault of ours.
  for (const stream of [process.stdout, process.stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') process.exitCode = 2
    })
  }
  const io: CliIo = {
    out: (text) => void process.stdout.write(text),
    note: (line) => void process.stderr.write(`evenswing: ${oneLine(line)}\n`),
    cwd: standingIn(),
    root,
  }
  process.exitCode = await run(process.argv.slice(2), io)
}
