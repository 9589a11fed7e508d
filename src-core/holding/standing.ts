/** Whether a foot stands on what is under it. */
import type { Polygons } from '../geometry/polygonBox.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import { ContactHull, insetOf } from './contact.ts'

/** mm by which a load's middle lies within what carries it, at the least. Own choice. */
const STEADY = 1

/** Whether a load in the middle of an area does not tip a foot off what it stands on. */
export function standsOn(on: Polygons, load: Polygons): boolean {
  const middle = middleOf(load)
  const hull = new ContactHull(on.flat())
  return middle !== null && hull.hasArea && hull.edges.every((e) => insetOf(e, middle) >= STEADY)
}

/** Centre of area of what `combine` returns: outlines one way round, holes the other; null where there is none. */
export function middleOf(polygons: Polygons): Point | null {
  let [area, x, y] = [0, 0, 0]
  for (const ring of polygons) {
    let a = ring[ring.length - 1]!
    for (const b of ring) {
      const cross = a.x * b.y - b.x * a.y
      area += cross
      x += (a.x + b.x) * cross
      y += (a.y + b.y) * cross
      a = b
    }
  }
  return Math.abs(area) < TOLERANCE.clashArea ? null : { x: x / (3 * area), y: y / (3 * area) }
}
