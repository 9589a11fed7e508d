/** Rectangles at any angle, sheet mm: the ground that a piece of text takes. */
import type { Point } from '../../geometry/types.ts'

export interface Quad {
  readonly centre: Point
  readonly width: number
  readonly height: number
  /** Direction of the width, as a unit vector. */
  readonly along: Point
}

export interface Segment {
  readonly a: Point
  readonly b: Point
}

const LEVEL: Point = { x: 1, y: 0 }

/** `angle` in radians counter-clockwise. */
export const quad = (centre: Point, width: number, height: number, angle = 0): Quad => ({
  centre,
  width,
  height,
  along: angle === 0 ? LEVEL : { x: Math.cos(angle), y: Math.sin(angle) },
})

/** Place of a local offset (along the width, along the height) from the quad's centre. */
export function quadPoint({ centre, along }: Quad, u: number, v: number): Point {
  return { x: centre.x + u * along.x - v * along.y, y: centre.y + u * along.y + v * along.x }
}

/** The four corners, counter-clockwise. */
export function quadCorners(q: Quad): Point[] {
  const w = q.width / 2
  const h = q.height / 2
  return [quadPoint(q, -w, -h), quadPoint(q, w, -h), quadPoint(q, w, h), quadPoint(q, -w, h)]
}

/** Whether two quads come nearer than `gap` along the sides of either (separating axes). */
export function quadsMeet(a: Quad, b: Quad, gap = 0): boolean {
  const x = b.centre.x - a.centre.x
  const y = b.centre.y - a.centre.y
  return meetAlong(a, b, x, y, gap) && meetAlong(b, a, x, y, gap)
}

/** Whether the quads' shadows on both axes of `a` come nearer than `gap`; (x, y) from centre to centre. */
function meetAlong(a: Quad, b: Quad, x: number, y: number, gap: number): boolean {
  const c = Math.abs(a.along.x * b.along.x + a.along.y * b.along.y)
  const s = Math.abs(a.along.x * b.along.y - a.along.y * b.along.x)
  const across = Math.abs(x * a.along.x + y * a.along.y)
  if (2 * (across - gap) >= a.width + b.width * c + b.height * s) return false
  const up = Math.abs(y * a.along.x - x * a.along.y)
  return 2 * (up - gap) < a.height + b.width * s + b.height * c
}

/** Whether a segment passes through a quad grown by `gap`. */
export function segmentMeetsQuad({ a, b }: Segment, q: Quad, gap = 0): boolean {
  const { x, y } = q.along
  const ax = (a.x - q.centre.x) * x + (a.y - q.centre.y) * y
  const ay = (a.y - q.centre.y) * x - (a.x - q.centre.x) * y
  const bx = (b.x - q.centre.x) * x + (b.y - q.centre.y) * y
  const by = (b.y - q.centre.y) * x - (b.x - q.centre.x) * y
  const w = q.width / 2 + gap
  const h = q.height / 2 + gap
  if ((ax >= w && bx >= w) || (ax <= -w && bx <= -w) || (ay >= h && by >= h) || (ay <= -h && by <= -h))
    return false
  // Both sides of its line hold a corner: the segment reaches past the quad on no axis, so it meets it.
  const cross = ax * by - ay * bx
  return Math.abs(cross) < Math.abs(bx - ax) * h + Math.abs(by - ay) * w
}

/** Whether two segments cross, ends that only touch left out. */
export function segmentsCross(p: Segment, q: Segment): boolean {
  return side(p, q.a) * side(p, q.b) < 0 && side(q, p.a) * side(q, p.b) < 0
}

const side = (s: Segment, r: Point): number =>
  (s.b.x - s.a.x) * (r.y - s.a.y) - (s.b.y - s.a.y) * (r.x - s.a.x)

/** Whether two segments run along one another, nearer than `gap` and within some 6° of parallel. */
export function segmentsRunTogether(p: Segment, q: Segment, gap: number): boolean {
  const px = p.b.x - p.a.x
  const py = p.b.y - p.a.y
  const qx = q.b.x - q.a.x
  const qy = q.b.y - q.a.y
  const lengths = Math.hypot(px, py) * Math.hypot(qx, qy)
  if (lengths === 0 || Math.abs(px * qy - py * qx) > 0.1 * lengths) return false
  const middle = { x: (q.a.x + q.b.x) / 2, y: (q.a.y + q.b.y) / 2 }
  return segmentMeetsQuad(p, quad(middle, Math.hypot(qx, qy), 2 * gap, Math.atan2(qy, qx)))
}
