/** One click on the part: the point of it that is caught there goes onto the spindle axis. */
import { TOLERANCE } from '../../../src-core/geometry/tolerance.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import { setupPlacement } from '../../../src-core/mounting/mount.ts'
import { placePoint, unplacePoint } from '../../../src-core/mounting/place.ts'
import type { Setup } from '../../../src-core/job/schema.ts'
import { drawTargets, snapDraw, type Snapped } from '../draw/snapping.ts'
import { setCentre } from '../edits/mounting.ts'
import type { PointerInput, Tool, ToolPort } from '../port.ts'
import { freeStep, roundTo } from '../snap.ts'

export class PickTool implements Tool {
  readonly name = 'pick'
  readonly cursor = 'crosshair'
  readonly #port: ToolPort
  /** Called when the point is taken or the tool put away. */
  readonly #done: () => void

  constructor(port: ToolPort, done: () => void) {
    this.#port = port
    this.#done = done
  }

  down(input: PointerInput): void {
    this.move(input)
  }
  move(input: PointerInput): void {
    const caught = this.#caught(input)
    const at = caught && placePoint(this.#placement(), caught.point)
    if (!caught || !at) return this.#port.guide(null)
    const { length } = this.#port
    const figures = `${length(caught.point.x)}, ${length(caught.point.y)}`
    this.#port.guide({
      at,
      from: { x: 0, y: 0 },
      text: [caught.text, figures].filter((t) => t !== '').join('  '),
      snapped: caught.text !== '',
    })
  }
  up(input: PointerInput): void {
    const caught = this.#caught(input)
    const { setupId, job } = this.#port
    if (caught) {
      this.#port.begin('Put a point on the axis')
      this.#port.replace(setCentre(job, setupId, this.#centre(caught.point)))
      this.#port.commit()
    }
    this.cancel()
  }
  cancel(): void {
    this.#port.guide(null)
    this.#done()
  }

  /** The bore that has its middle there, else the plain point. */
  #centre({ x, y }: Point): Setup['centre'] {
    const bore = this.#port.job.part.bores.find((b) => Math.hypot(b.x - x, b.y - y) < TOLERANCE.coincident)
    return bore ? { bore: bore.id } : { x: roundTo(x, 1e-4), y: roundTo(y, 1e-4) }
  }
  #placement() {
    const { job, setupId } = this.#port
    return setupPlacement(job.part, job.setups.find((s) => s.id === setupId) ?? job.setups[0]!)
  }
  #caught(input: PointerInput): Snapped | null {
    const { job, mounted } = this.#port
    if (!mounted) return null
    return snapDraw(unplacePoint(this.#placement(), input.world), drawTargets(job.part), {
      pxPerMm: input.pxPerMm,
      step: freeStep(input.pxPerMm, job.displayUnits),
      touch: input.touch,
      free: input.alt,
      from: null,
    })
  }
}
