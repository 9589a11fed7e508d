/** Random rings and regions of machine size: coordinates on a micrometre grid, arcs that keep the ring simple. */
import fc from 'fast-check'
import type { Point, Ring, Vertex } from '../../src-core/geometry/types.ts'

const RADIAN = Math.PI / 180
const onGrid = (value: number) => Math.round(value * 1000) / 1000 || 0

/** Millimetres on a micrometre grid, ends included. */
export const mm = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.ceil(min * 1000), max: Math.floor(max * 1000) }).map((n) => n / 1000)

export const point = (reach: number): fc.Arbitrary<Point> =>
  fc.record({ x: mm(-reach, reach), y: mm(-reach, reach) })

/** A tenth of a degree's grid. */
export const degrees: fc.Arbitrary<number> = fc.integer({ min: -3599, max: 3599 }).map((n) => n / 10)

const turnOf = (a: Point, b: Point) => Math.abs(Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y))
const less = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y })
const back = (a: Point): Point => ({ x: -a.x, y: -a.y })

/**
 * The largest angle between chord and arc that keeps the arc within the wedge of its two ends seen from the
 * origin: out of the ring, and into it.
 */
function roomForArc(a: Point, b: Point): { out: number; into: number } {
  const d = less(b, a)
  return {
    out: Math.min(turnOf(d, a), turnOf(back(d), b)),
    into: Math.min(turnOf(d, back(a)), turnOf(back(d), back(b))),
  }
}

interface StarOptions {
  readonly arcs?: boolean
  readonly most?: number
  readonly from?: number
  readonly to?: number
}

/** A simple counter-clockwise ring that can be seen whole from the origin; each vertex in its own wedge. */
export function starRing(options: StarOptions = {}): fc.Arbitrary<Vertex[]> {
  const { arcs = true, most = 14, from = 15, to = 120 } = options
  return fc
    .array(
      fc.record({
        gap: fc.integer({ min: 2000, max: 5000 }),
        radius: mm(from, to),
        fraction: fc.integer({ min: -90, max: 90 }),
        straight: fc.boolean(),
      }),
      { minLength: 4, maxLength: most },
    )
    .map((rays) => {
      const total = rays.reduce((sum, r) => sum + r.gap, 0)
      let angle = 0
      const points = rays.map(({ gap, radius }) => {
        angle += (gap / total) * 2 * Math.PI
        return { x: onGrid(radius * Math.cos(angle)), y: onGrid(radius * Math.sin(angle)) }
      })
      return points.map((p, i): Vertex => {
        const ray = rays[i]!
        if (!arcs || ray.straight || ray.fraction === 0) return { ...p, bulge: 0 }
        const room = roomForArc(p, points[(i + 1) % points.length]!)
        // The angle between chord and arc is half of the included angle, so bulge = tan(half of it).
        const half = (ray.fraction / 100) * Math.min(ray.fraction > 0 ? room.out : room.into, 2)
        return { ...p, bulge: Math.tan(half / 2) }
      })
    })
}

/** A star ring somewhere else, as drawn parts are. */
export const placedRing = (options: StarOptions = {}, reach = 300): fc.Arbitrary<Vertex[]> =>
  fc.tuple(starRing(options), point(reach)).map(([ring, by]) => moved(ring, by.x, by.y))

export const moved = (ring: Ring, dx: number, dy: number): Vertex[] =>
  ring.map((v) => ({ ...v, x: v.x + dx, y: v.y + dy }))

export function turned(ring: Ring, byDegrees: number): Vertex[] {
  const c = Math.cos(byDegrees * RADIAN)
  const s = Math.sin(byDegrees * RADIAN)
  return ring.map((v) => ({ ...v, x: c * v.x - s * v.y, y: s * v.x + c * v.y }))
}

export const scaled = (ring: Ring, k: number): Vertex[] => ring.map((v) => ({ ...v, x: k * v.x, y: k * v.y }))

/** In the y axis: every arc turns the other way. */
export const mirrored = (ring: Ring): Vertex[] =>
  ring.map((v) => ({ x: -v.x, y: v.y, bulge: -(v.bulge ?? 0) }))

/** The same outline run the other way round. */
export function reversed(ring: Ring): Vertex[] {
  const n = ring.length
  return Array.from({ length: n }, (_, k) => {
    const v = ring[n - 1 - k]!
    return { x: v.x, y: v.y, bulge: -(ring[(2 * n - 2 - k) % n]!.bulge ?? 0) }
  })
}

export const startedAt = (ring: Ring, first: number): Vertex[] => [
  ...ring.slice(first),
  ...ring.slice(0, first),
]

/** A slot: two straight sides and two half circles that meet them tangentially. */
export function slotRing(length: number, width: number): Vertex[] {
  const a = length / 2
  const r = width / 2
  return [
    { x: -a, y: -r, bulge: 0 },
    { x: a, y: -r, bulge: 1 },
    { x: a, y: r, bulge: 0 },
    { x: -a, y: r, bulge: 1 },
  ]
}

/** A rectangle with its four corners rounded tangentially. */
export function roundedRect(length: number, width: number, radius: number): Vertex[] {
  const a = length / 2
  const b = width / 2
  const bulge = Math.tan(Math.PI / 8)
  return [
    { x: -a + radius, y: -b, bulge: 0 },
    { x: a - radius, y: -b, bulge },
    { x: a, y: -b + radius, bulge: 0 },
    { x: a, y: b - radius, bulge },
    { x: a - radius, y: b, bulge: 0 },
    { x: -a + radius, y: b, bulge },
    { x: -a, y: b - radius, bulge: 0 },
    { x: -a, y: -b + radius, bulge },
  ]
}

/** An L with a fillet in its inner corner: an arc that bulges into the ring, tangent to both legs. */
export function filletedL(leg: number, width: number, radius: number): Vertex[] {
  return [
    { x: 0, y: 0, bulge: 0 },
    { x: leg, y: 0, bulge: 0 },
    { x: leg, y: width, bulge: 0 },
    { x: width + radius, y: width, bulge: -Math.tan(Math.PI / 8) },
    { x: width, y: width + radius, bulge: 0 },
    { x: width, y: leg, bulge: 0 },
    { x: 0, y: leg, bulge: 0 },
  ]
}

/** A link: two circles of unlike size joined by their common tangents. */
export function linkRing(centres: number, r1: number, r2: number): Vertex[] {
  const tilt = Math.asin((r1 - r2) / centres)
  const at = (x: number, r: number, angle: number): Point => ({
    x: x + r * Math.cos(angle),
    y: r * Math.sin(angle),
  })
  const up = Math.PI / 2 - tilt
  return [
    { ...at(0, r1, -up), bulge: 0 },
    { ...at(centres, r2, -up), bulge: Math.tan(up / 2) },
    { ...at(centres, r2, up), bulge: 0 },
    { ...at(0, r1, up), bulge: Math.tan((2 * Math.PI - 2 * up) / 4) },
  ]
}
