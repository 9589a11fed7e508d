/** The painter as a process of Node's. */
import { fork } from 'node:child_process'
import { painterProgram, type Painted, type PainterProcess } from '../png/painter.ts'

export function startPainter(program = painterProgram()): PainterProcess {
  const execArgv = program.endsWith('.ts') ? ['--import', import.meta.resolve('tsx')] : []
  const child = fork(program, {
    serialization: 'advanced',
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    execArgv,
  })
  const painter: PainterProcess = {
    paint: (svg) => void child.send(svg, () => undefined),
    onanswer: () => undefined,
    onend: () => undefined,
    kill: () => void child.kill(),
  }
  child.on('message', (painted: Painted) => painter.onanswer(painted))
  child.once('error', () => painter.onend())
  child.once('exit', () => painter.onend())
  return painter
}
