/** The painter as a process of Electron's. */
import { utilityProcess } from 'electron'
import { painterProgram, type Painted, type PainterProcess } from '../png/painter.ts'

export function startPainter(): PainterProcess {
  const child = utilityProcess.fork(painterProgram(), [], {
    serviceName: 'Evenswing painter',
    stdio: 'ignore',
  })
  const painter: PainterProcess = {
    paint: (svg) => child.postMessage(svg),
    onanswer: () => undefined,
    onend: () => undefined,
    kill: () => void child.kill(),
  }
  child.on('message', (painted: Painted) => painter.onanswer(painted))
  child.once('exit', () => painter.onend())
  return painter
}
