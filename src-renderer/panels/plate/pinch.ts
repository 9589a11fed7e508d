/** Two fingers: zoom and move the picture. */
import type { Point } from '../../../src-core/geometry/types.ts'

type Apply = (at: Point, factor: number, dx: number, dy: number) => void
type Finger = Pick<PointerEvent, 'pointerId' | 'clientX' | 'clientY'>

export class Pinch {
  readonly #apply: Apply
  readonly #fingers = new Map<number, Point>()
  #corner: Point = { x: 0, y: 0 }
  /** From the second finger down until the last is up; single moves in between belong to it. */
  #active = false

  constructor(apply: Apply) {
    this.#apply = apply
  }

  /** True once there are two fingers: what one finger had begun is off. */
  down(event: Finger, corner: Point): boolean {
    this.#corner = corner
    this.#fingers.set(event.pointerId, { x: event.clientX, y: event.clientY })
    if (this.#fingers.size === 2) this.#active = true
    return this.#active
  }

  move(event: Finger): boolean {
    const before = this.#fingers.get(event.pointerId)
    if (!before) return false
    const after = { x: event.clientX, y: event.clientY }
    this.#fingers.set(event.pointerId, after)
    if (!this.#active) return false
    const other = [...this.#fingers].find(([id]) => id !== event.pointerId)?.[1]
    if (!other) return true
    const spread = Math.hypot(after.x - other.x, after.y - other.y)
    const was = Math.hypot(before.x - other.x, before.y - other.y)
    const middle = {
      x: (after.x + other.x) / 2 - this.#corner.x,
      y: (after.y + other.y) / 2 - this.#corner.y,
    }
    this.#apply(middle, was > 0 ? spread / was : 1, (after.x - before.x) / 2, (after.y - before.y) / 2)
    return true
  }

  /** True where the finger belonged to a pinch. */
  up(event: Finger): boolean {
    this.#fingers.delete(event.pointerId)
    const was = this.#active
    if (this.#fingers.size === 0) this.#active = false
    return was
  }
}
