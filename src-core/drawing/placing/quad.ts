/** Rectangles at any angle, sheet mm: the ground that a piece of text takes. */
import type { Point } from '../../geometry/types.ts'

export interface Quad {
  readonly centre: Point
  readonly width: number
  readonly height: number
  /** Radians counter-clockwise. */
  readonly angle: number
}

export interface Segment {
  readonly a: Point
  readonly b: Point
}

export const quad = (centre: Point, width: number, height: number, angle = 0): Quad => ({
  centre,
  width,
  height,
  angle,
})

/** Place of a local offset (along the width, along the height) from the quad's centre. */
export function quadPoint(q: Quad, u: number, v: number): Point {
  const c = Math.cos(q.angle)
  const s = Math.sin(q.angle)
  return { x: q.centre.x + u * c - v * s, y: q.centre.y + u * s + v * c }
}

/** The four corners, counter-clockwise. */
export function quadCorners(q: Quad): Point[] {
  const w = q.width / 2
  const h = q.height / 2
  return [quadPoint(q, -w, -h), quadPoint(q, w, -h), quadPoint(q, w, h), quadPoint(q, -w, h)]
}

/** Whether two quads come nearer than `gap` (separating axes of both, the first grown by the gap). */
export function quadsMeet(a: Quad, b: Quad, gap = 0): boolean {
  const grown = { ...a, width: a.width + 2 * gap, height: a.height + 2 * gap }
  const one = quadCorners(grown)
  const two = quadCorners(b)
  return [a.angle, a.angle + Math.PI / 2, b.angle, b.angle + Math.PI / 2].every((axis) => {
    const [a0, a1] = spread(one, axis)
    const [b0, b1] = spread(two, axis)
    return a0 < b1 && b0 < a1
  })
}

function spread(points: readonly Point[], axis: number): [number, number] {
  const c = Math.cos(axis)
  const s = Math.sin(axis)
  const along = points.map((p) => p.x * c + p.y * s)
  return [Math.min(...along), Math.max(...along)]
}

/** Whether a segment passes through a quad grown by `gap`. */
export function segmentMeetsQuad({ a, b }: Segment, q: Quad, gap = 0): boolean {
  const c = Math.cos(q.angle)
  const s = Math.sin(q.angle)
  const local = (p: Point): [number, number] => {
    const x = p.x - q.centre.x
    const y = p.y - q.centre.y
    return [x * c + y * s, y * c - x * s]
  }
  const [ax, ay] = local(a)
  const [bx, by] = local(b)
  let t0 = 0
  let t1 = 1
  for (const [from, to, half] of [
    [ax, bx, q.width / 2 + gap],
    [ay, by, q.height / 2 + gap],
  ] as const) {
    const step = to - from
    if (step === 0) {
      if (Math.abs(from) >= half) return false
      continue
    }
    const enter = (-Math.sign(step) * half - from) / step
    const leave = (Math.sign(step) * half - from) / step
    t0 = Math.max(t0, enter)
    t1 = Math.min(t1, leave)
  }
  return t0 < t1
}

/** Whether two segments cross, ends that only touch left out. */
export function segmentsCross(p: Segment, q: Segment): boolean {
  const side = (s: Segment, r: Point): number =>
    (s.b.x - s.a.x) * (r.y - s.a.y) - (s.b.y - s.a.y) * (r.x - s.a.x)
  return side(p, q.a) * side(p, q.b) < 0 && side(q, p.a) * side(q, p.b) < 0
}
