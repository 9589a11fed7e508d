/** The painter's own process: an SVG comes in, a picture or the reason why there is none goes out. */
import { messageOf } from '../services/hostError.ts'
import type { Painted } from './painter.ts'
import { paintSheet } from './writePng.ts'

function painted(svg: unknown): Painted {
  try {
    return { png: paintSheet(String(svg)) }
  } catch (error) {
    return error instanceof RangeError ? { refused: error.message } : { failed: messageOf(error) }
  }
}

// Electron gives a port, Node a channel.
const port = process.parentPort as Electron.ParentPort | undefined
if (port) port.on('message', ({ data }: { data: unknown }) => port.postMessage(painted(data)))
else process.on('message', (svg) => process.send?.(painted(svg)))
