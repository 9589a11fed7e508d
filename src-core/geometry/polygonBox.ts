/** Boxes with sides along the axes, and whether points and polygons come into one. */
import { keptOf } from './kept.ts'
import { TOLERANCE } from './tolerance.ts'
import type { Point } from './types.ts'

export type Polygons = readonly (readonly Point[])[]

export interface Box {
  readonly x0: number
  readonly y0: number
  readonly x1: number
  readonly y1: number
}

/** The least box about outlines; from ∞ to −∞ about none. */
export function boxOf(polygons: Polygons): Box {
  const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity }
  for (const ring of polygons) {
    for (const { x, y } of ring) {
      box.x0 = Math.min(box.x0, x)
      box.y0 = Math.min(box.y0, y)
      box.x1 = Math.max(box.x1, x)
      box.y1 = Math.max(box.y1, y)
    }
  }
  return box
}

/** The least box that holds all of some boxes. */
export function boxAround(boxes: readonly Box[]): Box {
  const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity }
  for (const b of boxes) {
    box.x0 = Math.min(box.x0, b.x0)
    box.y0 = Math.min(box.y0, b.y0)
    box.x1 = Math.max(box.x1, b.x1)
    box.y1 = Math.max(box.y1, b.y1)
  }
  return box
}

/** Whether a point lies in a box or on its edge. */
export const inBox = ({ x0, y0, x1, y1 }: Box, p: Point): boolean =>
  p.x >= x0 && p.x <= x1 && p.y >= y0 && p.y <= y1

/** Whether not even the edges of two boxes touch. */
export const apart = (a: Box, b: Box): boolean => a.x0 > b.x1 || b.x0 > a.x1 || a.y0 > b.y1 || b.y0 > a.y1

/** Round a circle. */
export const discBox = ({ x, y }: Point, diameter: number): Box => ({
  x0: x - diameter / 2,
  y0: y - diameter / 2,
  x1: x + diameter / 2,
  y1: y + diameter / 2,
})

/** Wider by so many mm to each side. */
export const widened = ({ x0, y0, x1, y1 }: Box, by: number): Box => ({
  x0: x0 - by,
  y0: y0 - by,
  x1: x1 + by,
  y1: y1 + by,
})

/** Whether they have an area in common: edges that touch do not count. */
export const boxesMeet = (a: Box, b: Box): boolean => a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1

/**
 * Whether the area that rings enclose (even-odd) comes into a box or to its edge. Of polygons that do not, nothing is
 * left within the box whatever is cut from or joined to them, and the polygon library need not be asked.
 */
export function reaches(polygons: Polygons, box: Box): boolean {
  return meets(polygons, box) !== 'outside'
}

/** Whether a box lies wholly within what rings enclose (even-odd), clear of their edges. */
export const covers = (polygons: Polygons, box: Box): boolean => meets(polygons, box) === 'inside'

/** How a box lies to what rings enclose; 'edge' where one of their edges may come into it. */
function meets(polygons: Polygons, { x0, y0, x1, y1 }: Box): 'inside' | 'outside' | 'edge' {
  const left = x0 - TOLERANCE.polygonRounding
  const right = x1 + TOLERANCE.polygonRounding
  const low = y0 - TOLERANCE.polygonRounding
  const high = y1 + TOLERANCE.polygonRounding
  const cx = (x0 + x1) / 2
  const cy = (y0 + y1) / 2
  let inside = false
  for (const ring of polygons) {
    for (const s of stretchesOf(ring)) {
      let a = ring[s.from === 0 ? ring.length - 1 : s.from - 1]!
      if (s.x1 < left || s.y1 < low || s.y0 > high) continue
      if (s.x0 > right) {
        // Wholly to the right: it crosses the line from the middle as often as its ends do, but for even times.
        if (a.y > cy !== ring[s.to - 1]!.y > cy) inside = !inside
        continue
      }
      for (let i = s.from; i < s.to; i++) {
        const b = ring[i]!
        const above = a.y > cy
        if (above !== b.y > cy && cx < a.x + ((b.x - a.x) * (cy - a.y)) / (b.y - a.y)) inside = !inside
        const apart =
          (a.x < left && b.x < left) ||
          (a.x > right && b.x > right) ||
          (a.y < low && b.y < low) ||
          (a.y > high && b.y > high)
        if (!apart && lineMeets(a, b, left, right, low, high)) return 'edge'
        a = b
      }
    }
  }
  return inside ? 'inside' : 'outside'
}

/** Rings with fewer vertices are handed on as they are: nothing is gained. */
const WORTH_CUTTING = 48
/** mm beyond the box in which something is asked, so that no edge of a cut lies on an edge of what is asked. */
const BESIDE = 1

/** What of polygons can matter within a box: most of a long outline lies far from a strap's toe. */
export const nearBox = (polygons: Polygons, box: Box): Polygons => cutToBox(polygons, widened(box, BESIDE))

/**
 * Rings cut down to a box, for what is only asked within it: there they enclose (even-odd) what they enclosed. What
 * lay outside runs along the box's sides (I. E. Sutherland and G. W. Hodgman, "Reentrant polygon clipping",
 * Communications of the ACM 17(1), 1974): a way around a point inside stays one.
 */
export function cutToBox(polygons: Polygons, box: Box): Polygons {
  const { x0, y0, x1, y1 } = box
  return polygons.flatMap((ring) => {
    if (ring.length < WORTH_CUTTING) return [ring]
    let cut = cutToSide(skipOutside(ring, box), 'x', x0, 1)
    cut = cutToSide(cut, 'x', x1, -1)
    cut = cutToSide(cut, 'y', y0, 1)
    cut = cutToSide(cut, 'y', y1, -1)
    return cut.length < 3 ? [] : [cut]
  })
}

/** Vertices to a stretch of a ring that is looked at as one. */
const STRETCH = 32

/** The edges that end at the vertices `from` to before `to`, and their box. */
interface Stretch extends Box {
  readonly from: number
  readonly to: number
}

/** Kept per ring, which is immutable, as several pads ask of one; a short one is done faster than looked up. */
function stretchesOf(ring: readonly Point[]): readonly Stretch[] {
  if (ring.length === 0) return []
  if (ring.length <= STRETCH) return [stretchOf(ring, 0, ring.length)]
  return keptStretches(ring)
}

const keptStretches = keptOf((ring: readonly Point[]): readonly Stretch[] =>
  Array.from({ length: Math.ceil(ring.length / STRETCH) }, (_, i) =>
    stretchOf(ring, i * STRETCH, Math.min(ring.length, (i + 1) * STRETCH)),
  ),
)

function stretchOf(ring: readonly Point[], from: number, to: number): Stretch {
  const before = ring[from === 0 ? ring.length - 1 : from - 1]!
  let [x0, y0, x1, y1] = [before.x, before.y, before.x, before.y]
  for (let i = from; i < to; i++) {
    const { x, y } = ring[i]!
    if (x < x0) x0 = x
    if (x > x1) x1 = x
    if (y < y0) y0 = y
    if (y > y1) y1 = y
  }
  return { from, to, x0, y0, x1, y1 }
}

/** Of a stretch that lies wholly beyond one side of a box, only the ends: between them nothing comes into it. */
function skipOutside(ring: readonly Point[], { x0, y0, x1, y1 }: Box): readonly Point[] {
  const out: Point[] = []
  for (const s of stretchesOf(ring)) {
    if (s.x1 < x0 || s.x0 > x1 || s.y1 < y0 || s.y0 > y1) out.push(ring[s.from]!, ring[s.to - 1]!)
    else for (let i = s.from; i < s.to; i++) out.push(ring[i]!)
  }
  return out
}

/** What of a ring lies where the coordinate is at least (`sign` 1) or at most (−1) the limit. */
function cutToSide(ring: readonly Point[], axis: 'x' | 'y', limit: number, sign: 1 | -1): readonly Point[] {
  const out: Point[] = []
  let a = ring[ring.length - 1]
  if (!a) return ring
  let was = sign * (a[axis] - limit)
  for (const b of ring) {
    const is = sign * (b[axis] - limit)
    if (was >= 0 !== is >= 0) {
      const share = was / (was - is)
      out.push(
        axis === 'x'
          ? { x: limit, y: a.y + share * (b.y - a.y) }
          : { x: a.x + share * (b.x - a.x), y: limit },
      )
    }
    if (is >= 0) out.push(b)
    a = b
    was = is
  }
  return out
}

/** Whether a box has corners on both sides of the line through two points, or on it. */
function lineMeets(a: Point, b: Point, left: number, right: number, low: number, high: number): boolean {
  const dx = b.x - a.x
  const dy = b.y - a.y
  const side = (x: number, y: number) => dx * (y - a.y) - dy * (x - a.x)
  const [p, q, r, s] = [side(left, low), side(right, low), side(left, high), side(right, high)]
  return !((p > 0 && q > 0 && r > 0 && s > 0) || (p < 0 && q < 0 && r < 0 && s < 0))
}
