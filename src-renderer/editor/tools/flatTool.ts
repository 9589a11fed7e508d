/** One click on the part: the flat there is laid on the shelf that the part is seated on. */
import { nearestOnEdge } from '../../../src-core/geometry/nearest.ts'
import { makeEdge } from '../../../src-core/geometry/edges.ts'
import { flatsOf, type Flat } from '../../../src-core/mounting/flats.ts'
import { findSetup, setupPlacement } from '../../../src-core/mounting/mount.ts'
import { placePoint } from '../../../src-core/mounting/place.ts'
import { layFlat } from '../edits/shelves.ts'
import type { PointerInput, Tool, ToolPort } from '../port.ts'
import { REACH, reach } from '../reach.ts'

export class FlatTool implements Tool {
  readonly name = 'flat'
  readonly #port: ToolPort
  /** Called when a flat is taken or the tool put away. */
  readonly #done: () => void
  #over = false

  constructor(port: ToolPort, done: () => void) {
    this.#port = port
    this.#done = done
  }

  get cursor(): string {
    return this.#over ? 'pointer' : 'crosshair'
  }
  down(input: PointerInput): void {
    this.move(input)
  }
  move(input: PointerInput): void {
    const found = this.#near(input)
    this.#over = found !== null
    if (!found) return this.#port.guide(null)
    const { flat, at } = found
    const text = `${flat.bodies.join(', ')}, ${this.#port.length(flat.length)} long`
    this.#port.guide({ at, text, snapped: true })
  }
  up(input: PointerInput): void {
    const found = this.#near(input)
    if (!found) return
    const { job, setupId } = this.#port
    this.#port.begin('Flat on the shelf')
    this.#port.replace(layFlat(job, setupId, found.flat))
    this.#port.commit()
    this.cancel()
  }
  cancel(): void {
    this.#port.guide(null)
    this.#done()
  }

  #near({ world, pxPerMm, touch }: PointerInput): { flat: Flat; at: { x: number; y: number } } | null {
    const { job, setupId } = this.#port
    const placement = setupPlacement(job.part, findSetup(job, setupId))
    const within = (2 * reach(REACH.snap, touch)) / pxPerMm
    let best: { flat: Flat; at: { x: number; y: number } } | null = null
    let least = within
    for (const flat of flatsOf(job.part)) {
      const [a, b] = flat.ends
      const at = nearestOnEdge(makeEdge(placePoint(placement, a), placePoint(placement, b), 0), world)
      const off = Math.hypot(at.x - world.x, at.y - world.y)
      if (off <= least) [best, least] = [{ flat, at }, off]
    }
    return best
  }
}
