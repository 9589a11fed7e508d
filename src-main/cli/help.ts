import type { Command } from './command.ts'
import { table, wrap } from './table.ts'

const CALL = 'npm run --silent evenswing --'

export function generalHelp(commands: Readonly<Record<string, Command>>): string {
  const lines = [
    'Evenswing plans an off-centre faceplate set-up on a lathe.',
    '',
    `Usage: ${CALL} COMMAND ...`,
    '',
    ...table(
      Object.values(commands).map((c) => [c.usage, c.summary]),
      ['left', 'left'],
    ),
    '',
    ...wrap(
      'COMMAND --help says more about one. Lengths in files are mm, masses kg, angles degrees counter-clockwise, speeds rpm.',
      100,
      '',
      '',
    ),
    ...wrap(
      'Exit code 0: done; 1: the verdict is "stop" or "not judged"; 2: bad usage or bad input, with one line that says why.',
      100,
      '',
      '',
    ),
  ]
  return `${lines.join('\n')}\n`
}

export function commandHelp(command: Command): string {
  const options = table([...command.help, ['--help', 'this text']], ['left', 'left'])
  return `Usage: ${CALL} ${command.usage}\n\n  ${command.summary}\n\n${options.join('\n')}\n`
}
