/**
 * A polygon with holes as convex polygons: cut at each corner by a line parallel to y (trapezoidal decomposition by
 * plane sweep), and neighbours joined again where the whole stays convex.
 */
import { FULL_TURN } from '../angles.ts'
import { TOLERANCE } from '../tolerance.ts'
import type { Point } from '../types.ts'

/** A side that rises in x, and what crossing it upward adds to the count of outlines one is in. */
interface Side {
  readonly a: Point
  readonly b: Point
  readonly into: 1 | -1
}

/** A part that is still open to the right, its chains from left to right. */
interface Open {
  readonly lower: Point[]
  readonly upper: Point[]
}

/**
 * Counter-clockwise convex polygons that cover what rings enclose, material to the left of each side. Corners move by a
 * nanometre at most; where sides cross, both sides' material is in.
 */
export function convexParts(rings: readonly Point[][]): Point[][] {
  if (rings.length === 1 && isConvex(rings[0]!)) return [rings[0]!]
  const xs = distinct(rings.flatMap((r) => r.map((p) => p.x)))
  const starting = sidesByStart(rings, xs)
  const done: Point[][] = []
  let open: Open[] = []
  let active: Side[] = []
  for (let i = 0; i + 1 < xs.length; i++) {
    const x0 = xs[i]!
    const x1 = xs[i + 1]!
    active = [...active.filter((s) => s.b.x > x0), ...(starting[i] ?? [])]
    const next: Open[] = []
    for (const { lower, upper } of spans(active, (x0 + x1) / 2)) {
      const left = corners(lower, upper, x0)
      const right = corners(lower, upper, x1)
      const before = open.findIndex((o) => continues(o, left, right))
      if (before >= 0) {
        const [part] = open.splice(before, 1)
        extend(part!.lower, right[0], 1)
        extend(part!.upper, right[1], -1)
        next.push(part!)
      } else next.push({ lower: [left[0], right[0]], upper: [left[1], right[1]] })
    }
    done.push(...open.flatMap(closed))
    open = next
  }
  return [...done, ...open.flatMap(closed)]
}

/** Whether a ring without crossings, counter-clockwise, has no dent; corners that run straight on are no dents. */
function isConvex(ring: readonly Point[]): boolean {
  let last = ring.at(-1)!
  let before = ring.at(-2)!
  let turned = 0
  for (const p of ring) {
    const sine = turn(before, last, p)
    if (!(sine >= -STRAIGHT)) return false
    turned += Math.asin(Math.min(1, sine))
    before = last
    last = p
  }
  // Twice round would be a ring that crosses itself.
  return turned < 1.5 * FULL_TURN
}

/** Sorted; of those nearer together than points are told apart, the first. */
function distinct(values: readonly number[]): number[] {
  const kept: number[] = []
  for (const x of [...values].sort((a, b) => a - b))
    if (kept.length === 0 || x - kept.at(-1)! > TOLERANCE.coincident) kept.push(x)
  return kept
}

/** The sides that begin at each of the distinct x; those parallel to y bound nothing of their own. */
function sidesByStart(rings: readonly (readonly Point[])[], xs: readonly number[]): Side[][] {
  const snap = (x: number): number => {
    let low = 0
    let high = xs.length - 1
    while (low < high) {
      const middle = (low + high + 1) >> 1
      if (xs[middle]! <= x) low = middle
      else high = middle - 1
    }
    return low
  }
  const starting: Side[][] = xs.map(() => [])
  for (const ring of rings) {
    ring.forEach((p, k) => {
      const q = ring[k + 1 === ring.length ? 0 : k + 1]!
      const i = snap(p.x)
      const j = snap(q.x)
      const a = { x: xs[i]!, y: p.y }
      const b = { x: xs[j]!, y: q.y }
      if (i < j) starting[i]!.push({ a, b, into: 1 })
      else if (j < i) starting[j]!.push({ a: b, b: a, into: -1 })
    })
  }
  return starting
}

const heightAt = ({ a, b }: Side, x: number): number => {
  if (x === a.x) return a.y
  return x === b.x ? b.y : a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x)
}

/** Where material lies between the sides that pass a place in x. */
function spans(active: readonly Side[], x: number): { lower: Side; upper: Side }[] {
  const sorted = active.map((side) => ({ side, y: heightAt(side, x) })).sort((p, q) => p.y - q.y)
  const found: { lower: Side; upper: Side }[] = []
  let within = 0
  let lower: Side | null = null
  for (const { side } of sorted) {
    const before = within
    within += side.into
    if (before <= 0 && within > 0) lower = side
    else if (before > 0 && within <= 0 && lower) found.push({ lower, upper: side })
  }
  return found
}

/** Lower and upper end of a span at x; where its sides cross beside its middle, both are in. */
function corners(lower: Side, upper: Side, x: number): [Point, Point] {
  const a = heightAt(lower, x)
  const b = heightAt(upper, x)
  return [
    { x, y: Math.min(a, b) },
    { x, y: Math.max(a, b) },
  ]
}

/** Whether a part goes on with a span whose left end is its right end, and stays convex. */
function continues({ lower, upper }: Open, left: [Point, Point], right: [Point, Point]): boolean {
  const low = lower.at(-1)!
  const high = upper.at(-1)!
  return (
    near(low, left[0]) &&
    near(high, left[1]) &&
    high.y - low.y > TOLERANCE.coincident &&
    turn(lower.at(-2)!, low, right[0]) >= -STRAIGHT &&
    turn(upper.at(-2)!, high, right[1]) <= STRAIGHT
  )
}

/** Sine below which a chain runs straight on; the dent that it may leave is below a nanometre over a metre. */
const STRAIGHT = 1e-9

/** Sine of the turn from a → b to b → c. */
function turn(a: Point, b: Point, c: Point): number {
  const [px, py, qx, qy] = [b.x - a.x, b.y - a.y, c.x - b.x, c.y - b.y]
  return (px * qy - py * qx) / (Math.hypot(px, py) * Math.hypot(qx, qy))
}

const near = (p: Point, q: Point): boolean =>
  Math.abs(p.x - q.x) <= TOLERANCE.coincident && Math.abs(p.y - q.y) <= TOLERANCE.coincident

/** @param sense 1: the chain turns left, -1: right. */
function extend(chain: Point[], to: Point, sense: 1 | -1): void {
  if (sense * turn(chain.at(-2)!, chain.at(-1)!, to) <= STRAIGHT) chain.pop()
  chain.push(to)
}

function closed({ lower, upper }: Open): Point[][] {
  const ring: Point[] = []
  for (const p of [...lower, ...upper.reverse()])
    if (ring.length === 0 || (!near(p, ring.at(-1)!) && !near(p, ring[0]!))) ring.push(p)
  return ring.length > 2 ? [ring] : []
}
