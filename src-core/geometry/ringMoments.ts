/**
 * Exact area moments of rings of straight and arc edges. By Green's theorem each area integral is a sum over the
 * edges: the chords' polygon, plus for an arc the circular segment on its chord, added where the arc bulges out of
 * a counter-clockwise ring. The sums run about the first vertex and are moved to the wanted point at the end: far
 * from the origin the edge terms grow with the square of the offset and cancel, and a thin part keeps few digits.
 */
import type { Edge } from './edges.ts'
import { segmentIntegrals } from './segment.ts'
import { TOLERANCE } from './tolerance.ts'
import type { Point, Region, Ring } from './types.ts'

/** ∫dA, ∫x dA, ∫y dA, ∫x² dA, ∫xy dA, ∫y² dA in mm², mm³ and mm⁴ about a stated point. */
export interface Moments {
  readonly area: number
  readonly x: number
  readonly y: number
  readonly xx: number
  readonly xy: number
  readonly yy: number
}

const ORIGIN: Point = { x: 0, y: 0 }
export const NO_MOMENTS: Moments = { area: 0, x: 0, y: 0, xx: 0, xy: 0, yy: 0 }

/** Running sums about a local anchor; `add` takes the edge's ends relative to the anchor. */
class Sums {
  area = 0
  x = 0
  y = 0
  xx = 0
  xy = 0
  yy = 0

  add(x0: number, y0: number, x1: number, y1: number, bulge: number): void {
    const k = x0 * y1 - x1 * y0
    this.area += k / 2
    this.x += ((x0 + x1) * k) / 6
    this.y += ((y0 + y1) * k) / 6
    this.xx += ((x0 * x0 + x0 * x1 + x1 * x1) * k) / 12
    this.yy += ((y0 * y0 + y0 * y1 + y1 * y1) * k) / 12
    this.xy += ((x0 * y1 + 2 * x0 * y0 + 2 * x1 * y1 + x1 * y0) * k) / 24
    if (Math.abs(bulge) > TOLERANCE.straightBulge) this.addSegment(x0, y0, x1, y1, bulge)
  }

  private addSegment(x0: number, y0: number, x1: number, y1: number, bulge: number): void {
    const chord = Math.hypot(x1 - x0, y1 - y0)
    if (chord === 0) return
    const size = Math.abs(bulge)
    const sign = bulge > 0 ? 1 : -1
    const r = (chord * (1 + size * size)) / (4 * size)
    const n = segmentIntegrals(2 * Math.atan(size))
    const area = sign * r * r * n.n1
    const v1 = sign * r ** 3 * n.n2
    const vv = sign * r ** 4 * n.n3
    const uu = sign * r ** 4 * n.n4
    // u along the chord; v outward: to the right of a counter-clockwise arc's chord, to the left of the other.
    const ux = (x1 - x0) / chord
    const uy = (y1 - y0) / chord
    const vx = sign * uy
    const vy = -sign * ux
    const mx = (x0 + x1) / 2
    const my = (y0 + y1) / 2
    const sx = v1 * vx
    const sy = v1 * vy
    this.area += area
    this.x += area * mx + sx
    this.y += area * my + sy
    this.xx += area * mx * mx + 2 * mx * sx + uu * ux * ux + vv * vx * vx
    this.yy += area * my * my + 2 * my * sy + uu * uy * uy + vv * vy * vy
    this.xy += area * mx * my + mx * sy + my * sx + uu * ux * uy + vv * vx * vy
  }

  /** Moves the sums from the anchor to `about`. */
  result(anchor: Point, about: Point): Moments {
    const dx = anchor.x - about.x
    const dy = anchor.y - about.y
    return {
      area: this.area,
      x: this.x + this.area * dx,
      y: this.y + this.area * dy,
      xx: this.xx + 2 * dx * this.x + this.area * dx * dx,
      xy: this.xy + dx * this.y + dy * this.x + this.area * dx * dy,
      yy: this.yy + 2 * dy * this.y + this.area * dy * dy,
    }
  }
}

/** Sums over fewer edges are made faster than looked up. */
const KEEP_FROM = 32
const kept = new WeakMap<readonly object[], Sums>()

/** Sums over a ring or a set of edges, kept per array object, which is immutable. */
function keptSums<T extends readonly object[]>(of: T, make: (of: T) => Sums): Sums {
  if (of.length < KEEP_FROM) return make(of)
  let sums = kept.get(of)
  if (!sums) kept.set(of, (sums = make(of)))
  return sums
}

/** Signed: positive for a counter-clockwise ring. mm² to mm⁴ about `about` (the origin). */
export function signedRingMoments(ring: Ring, about: Point = ORIGIN): Moments {
  const anchor = ring[0]
  return anchor ? keptSums(ring, sumRing).result(anchor, about) : NO_MOMENTS
}

function sumRing(ring: Ring): Sums {
  const anchor = ring[0]!
  const sums = new Sums()
  const count = ring.length
  let x0 = 0
  let y0 = 0
  for (let i = 0; i < count; i++) {
    const next = ring[i + 1 === count ? 0 : i + 1]!
    const x1 = next.x - anchor.x
    const y1 = next.y - anchor.y
    sums.add(x0, y0, x1, y1, ring[i]!.bulge ?? 0)
    x0 = x1
    y0 = y1
  }
  return sums
}

/**
 * Moments of a simple ring whatever its winding; the last vertex is not repeated. Fewer than two vertices, or a
 * ring that encloses nothing, gives zero area.
 */
export function ringMoments(ring: Ring, about: Point = ORIGIN): Moments {
  const m = signedRingMoments(ring, about)
  return m.area < 0 ? scaleMoments(m, -1) : m
}

/** mm: the centre of an area by its moments about a point; that point where there is no area. */
export const centreOf = ({ area, x, y }: Moments, about: Point = ORIGIN): Point =>
  area > 0 ? { x: about.x + x / area, y: about.y + y / area } : about

/** mm: the centre of what a simple ring encloses; `about` where that is nothing. */
export const ringCentre = (ring: Ring, about: Point = ORIGIN): Point =>
  centreOf(ringMoments(ring, about), about)

/** Moments of an outline less its holes. */
export function regionMoments(region: Region, about: Point = ORIGIN): Moments {
  let total = ringMoments(region.outline, about)
  for (const hole of region.holes) total = addMoments(total, ringMoments(hole, about), -1)
  return total
}

/**
 * Signed moments of directed edges that together bound a region on their left; the edges need not be in order.
 */
export function edgeMoments(edges: readonly Edge[], about: Point = ORIGIN): Moments {
  const anchor = edges[0]?.a
  return anchor ? keptSums(edges, sumEdges).result(anchor, about) : NO_MOMENTS
}

function sumEdges(edges: readonly Edge[]): Sums {
  const anchor = edges[0]!.a
  const sums = new Sums()
  for (const { a, b, bulge } of edges) {
    sums.add(a.x - anchor.x, a.y - anchor.y, b.x - anchor.x, b.y - anchor.y, bulge)
  }
  return sums
}

/** a + factor·b, both about the same point. */
export function addMoments(a: Moments, b: Moments, factor = 1): Moments {
  return {
    area: a.area + factor * b.area,
    x: a.x + factor * b.x,
    y: a.y + factor * b.y,
    xx: a.xx + factor * b.xx,
    xy: a.xy + factor * b.xy,
    yy: a.yy + factor * b.yy,
  }
}

/** Every moment times one factor. */
export function scaleMoments(m: Moments, factor: number): Moments {
  return addMoments(NO_MOMENTS, m, factor)
}
