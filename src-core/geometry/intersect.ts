import { angleTowards } from './angles.ts'
import { arcFraction, type Arc, type Edge } from './edges.ts'
import { ROUNDING } from './tolerance.ts'
import type { Point } from './types.ts'

/** Fractions along two edges where they meet, and the point. Edges lying on one another give their shared ends. */
export interface Meeting {
  readonly ta: number
  readonly tb: number
  readonly at: Point
}

/** All points where two edges meet, ends included. */
export function edgeMeetings(a: Edge, b: Edge): Meeting[] {
  if (!a.arc && !b.arc) return lineLine(a, b)
  if (a.arc && b.arc) return arcArc(a, a.arc, b, b.arc)
  if (a.arc) return lineArc(b, a, a.arc).map(({ ta, tb, at }) => ({ ta: tb, tb: ta, at }))
  return lineArc(a, b, b.arc!)
}

function lineLine(a: Edge, b: Edge): Meeting[] {
  const ax = a.b.x - a.a.x
  const ay = a.b.y - a.a.y
  const bx = b.b.x - b.a.x
  const by = b.b.y - b.a.y
  const cross = ax * by - ay * bx
  const dx = b.a.x - a.a.x
  const dy = b.a.y - a.a.y
  const scale = Math.hypot(ax, ay) * Math.hypot(bx, by)
  if (Math.abs(cross) <= ROUNDING.fraction * scale) return collinear(a, b)
  const ta = (dx * by - dy * bx) / cross
  const tb = (dx * ay - dy * ax) / cross
  return within(ta) && within(tb) ? [meeting(ta, tb, a)] : []
}

function collinear(a: Edge, b: Edge): Meeting[] {
  const ax = a.b.x - a.a.x
  const ay = a.b.y - a.a.y
  const la = Math.hypot(ax, ay)
  const off = la === 0 ? Infinity : Math.abs(ax * (b.a.y - a.a.y) - ay * (b.a.x - a.a.x)) / la
  if (off > ROUNDING.length) return []
  const along = (p: Point) => ((p.x - a.a.x) * ax + (p.y - a.a.y) * ay) / (la * la)
  const t0 = along(b.a)
  const t1 = along(b.b)
  const found: Meeting[] = []
  if (within(t0)) found.push({ ta: clamp(t0), tb: 0, at: b.a })
  if (within(t1)) found.push({ ta: clamp(t1), tb: 1, at: b.b })
  const back = (t: number) => (t - t0) / (t1 - t0)
  if (t1 !== t0) {
    if (within(back(0))) found.push({ ta: 0, tb: clamp(back(0)), at: a.a })
    if (within(back(1))) found.push({ ta: 1, tb: clamp(back(1)), at: a.b })
  }
  return found
}

function lineArc(line: Edge, curve: Edge, arc: Arc): Meeting[] {
  const dx = line.b.x - line.a.x
  const dy = line.b.y - line.a.y
  const fx = line.a.x - arc.centre.x
  const fy = line.a.y - arc.centre.y
  const qa = dx * dx + dy * dy
  if (qa === 0) return []
  const mid = -(fx * dx + fy * dy) / qa
  // Distance of the line from the centre, from the cross product: no cancellation for large radii.
  const off = Math.abs(dx * fy - dy * fx) / Math.sqrt(qa)
  const half2 = (arc.radius - off) * (arc.radius + off)
  if (half2 < -ROUNDING.fraction * arc.radius * arc.radius) return []
  const half = Math.sqrt(Math.max(0, half2) / qa)
  const roots = half === 0 ? [mid] : [mid - half, mid + half]
  const found: Meeting[] = []
  for (const t of roots) {
    if (!within(t)) continue
    const at = { x: line.a.x + dx * t, y: line.a.y + dy * t }
    const ta = arcFraction(arc, angleTowards(arc.centre, at))
    if (ta !== null) found.push({ ta: clamp(t), tb: ta, at })
  }
  return found.concat(sharedEnds(line, curve, found))
}

function arcArc(a: Edge, arcA: Arc, b: Edge, arcB: Arc): Meeting[] {
  const dx = arcB.centre.x - arcA.centre.x
  const dy = arcB.centre.y - arcA.centre.y
  const d = Math.hypot(dx, dy)
  const found: Meeting[] = []
  const size = Math.max(arcA.radius, arcB.radius)
  if (d <= ROUNDING.share * Math.max(1, size)) {
    if (Math.abs(arcA.radius - arcB.radius) > ROUNDING.share * Math.max(1, size)) return []
    for (const [tb, p] of [
      [0, b.a],
      [1, b.b],
    ] as const) {
      const ta = arcFraction(arcA, angleTowards(arcA.centre, p))
      if (ta !== null) found.push({ ta, tb, at: p })
    }
    for (const [ta, p] of [
      [0, a.a],
      [1, a.b],
    ] as const) {
      const tb = arcFraction(arcB, angleTowards(arcB.centre, p))
      if (tb !== null) found.push({ ta, tb, at: p })
    }
    return found
  }
  const along = (d * d + (arcA.radius - arcB.radius) * (arcA.radius + arcB.radius)) / (2 * d)
  const half2 = (arcA.radius - along) * (arcA.radius + along)
  if (half2 < -ROUNDING.length * size) return sharedEnds(a, b, found)
  const half = Math.sqrt(Math.max(0, half2))
  for (const h of half === 0 ? [0] : [half, -half]) {
    const at = {
      x: arcA.centre.x + (dx * along - dy * h) / d,
      y: arcA.centre.y + (dy * along + dx * h) / d,
    }
    const ta = arcFraction(arcA, angleTowards(arcA.centre, at))
    const tb = arcFraction(arcB, angleTowards(arcB.centre, at))
    if (ta !== null && tb !== null) found.push({ ta, tb, at })
  }
  return found.concat(sharedEnds(a, b, found))
}

/** Ends that coincide, for tangent edges whose crossing the formulas above can miss by rounding. */
function sharedEnds(a: Edge, b: Edge, found: readonly Meeting[]): Meeting[] {
  const extra: Meeting[] = []
  for (const [ta, p] of [
    [0, a.a],
    [1, a.b],
  ] as const) {
    for (const [tb, q] of [
      [0, b.a],
      [1, b.b],
    ] as const) {
      if (!near(p, q) || found.some((m) => near(m.at, p))) continue
      extra.push({ ta, tb, at: p })
    }
  }
  return extra
}

const near = (p: Point, q: Point) => Math.hypot(p.x - q.x, p.y - q.y) <= ROUNDING.length
const within = (t: number) => t >= -ROUNDING.fraction && t <= 1 + ROUNDING.fraction
const clamp = (t: number) => Math.max(0, Math.min(1, t))
const meeting = (ta: number, tb: number, a: Edge): Meeting => ({
  ta: clamp(ta),
  tb: clamp(tb),
  at: { x: a.a.x + (a.b.x - a.a.x) * ta, y: a.a.y + (a.b.y - a.a.y) * ta },
})
