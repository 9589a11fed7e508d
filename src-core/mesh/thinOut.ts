/** Outlines with fewer vertices: what strays from a straight edge by less than a tolerance is left out. */
import type { Point, Region } from '../geometry/types.ts'
import { regionFaults } from '../geometry/validate.ts'

/** Beyond this a region is left as it is, since checking it would cost too long. */
const MOST_VERTICES = 20_000

/** A sound region thinned out by `tolerance` mm; the given one where thinning would make it touch itself. */
export function thinOut(region: Region, tolerance: number): Region {
  const rings = [region.outline, ...region.holes]
  if (rings.reduce((sum, ring) => sum + ring.length, 0) > MOST_VERTICES) return region
  const [outline, ...holes] = rings.map((ring) => thinRing(ring, tolerance))
  if ([outline!, ...holes].every((ring, i) => ring.length === rings[i]!.length)) return region
  const thinned = { outline: outline!, holes }
  return regionFaults(thinned, 1).length === 0 ? thinned : region
}

/** Straight edges only. D. H. Douglas and T. K. Peucker, The Canadian Cartographer 10(2), 1973, on two halves. */
function thinRing(ring: readonly Point[], tolerance: number): Point[] {
  const keep = new Uint8Array(ring.length)
  const far = farthest(ring, 0)
  keep[0] = 1
  keep[far] = 1
  const stack: [number, number][] = [
    [0, far],
    [far, ring.length],
  ]
  while (stack.length > 0) {
    const [from, to] = stack.pop()!
    const a = ring[from]!
    const b = ring[to % ring.length]!
    const length = Math.hypot(b.x - a.x, b.y - a.y)
    let worst = tolerance
    let at = -1
    for (let i = from + 1; i < to; i++) {
      const p = ring[i]!
      const off =
        length === 0
          ? Math.hypot(p.x - a.x, p.y - a.y)
          : Math.max(
              Math.abs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / length,
              beyond(a, b, p, length),
            )
      if (off <= worst) continue
      worst = off
      at = i
    }
    if (at < 0) continue
    keep[at] = 1
    stack.push([from, at], [at, to])
  }
  const kept = ring.filter((_, i) => keep[i] === 1)
  return kept.length >= 3 ? kept : [...ring]
}

/** How far a point lies beyond the ends of a segment, along it. */
function beyond(a: Point, b: Point, p: Point, length: number): number {
  const along = ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / length
  return Math.max(-along, along - length, 0)
}

function farthest(ring: readonly Point[], from: number): number {
  const { x, y } = ring[from]!
  let best = from
  let distance = -1
  ring.forEach((p, i) => {
    const d = Math.hypot(p.x - x, p.y - y)
    if (d > distance) {
      distance = d
      best = i
    }
  })
  return best
}
