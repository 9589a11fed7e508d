/**
 * Pictures of sheets, painted in a process of their own: a fault of the machine code ends that process and no other,
 * and what it held in memory goes with it. One process a picture, one at a time.
 */
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { HostError } from '../services/hostError.ts'
import { inTurn } from '../services/turns.ts'

/** PNG bytes of a sheet as `writeSvg` writes it; throws a `HostError` where there is no picture. */
export type PaintPicture = (svg: string) => Promise<Uint8Array>

/** What comes back for an SVG; `refused` is the reason why there is no picture. */
export type Painted =
  { readonly png: Uint8Array } | { readonly refused: string } | { readonly failed: string }

export interface PainterProcess {
  paint(svg: string): void
  onanswer: (painted: Painted) => void
  /** Called when it ended, whoever ended it. */
  onend: () => void
  kill(): void
}

/** ms: a sheet takes about one second. */
const PATIENCE = 60_000

export function createPainter(start: () => PainterProcess, patience = PATIENCE): PaintPicture {
  return async (svg) => {
    const painted = await inTurn('painter', () => paintOnce(start(), svg, patience))
    if ('png' in painted) return painted.png
    if ('refused' in painted)
      throw new HostError('request.refused', `The picture was not made: ${painted.refused}`)
    throw new HostError('request.failed', `The picture was not made: ${painted.failed}`)
  }
}

function paintOnce(process: PainterProcess, svg: string, patience: number): Promise<Painted> {
  return new Promise((done) => {
    const end = (painted: Painted) => {
      clearTimeout(limit)
      process.onanswer = process.onend = () => undefined
      process.kill()
      done(painted)
    }
    const limit = setTimeout(() => end({ failed: 'painting took too long' }), patience)
    process.onanswer = end
    process.onend = () => end({ failed: 'the painter stopped' })
    process.paint(svg)
  })
}

/** The painter's program: built, it lies beside this one; in the sources it is run as it is. */
export function painterProgram(): string {
  const built = fileURLToPath(new URL('./painter.js', import.meta.url))
  return existsSync(built) ? built : fileURLToPath(new URL('./painterProgram.ts', import.meta.url))
}
