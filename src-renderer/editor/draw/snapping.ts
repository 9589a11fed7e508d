/** What a drawn point catches on: vertices, centres, middles, bores, edges, the last point's directions, the grid. */
import { angleTowards, toDegrees, toRadians, wholeTurn } from '../../../src-core/geometry/angles.ts'
import { makeEdge, pointOnEdge, ringEdges, type Edge } from '../../../src-core/geometry/edges.ts'
import { edgeMeetings } from '../../../src-core/geometry/intersect.ts'
import { nearestOnEdge } from '../../../src-core/geometry/nearest.ts'
import { ROUNDING } from '../../../src-core/geometry/tolerance.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import { isPrism, type Part } from '../../../src-core/job/schema.ts'
import { roundTo, snapPoint, type SnapTarget } from '../snap.ts'
import { REACH, reach } from '../reach.ts'

/** A ring of a body: 0 is its outline, 1 and up its holes. */
export interface RingRef {
  readonly body: string
  readonly ring: number
}

export const sameRing = (a: RingRef | null, b: RingRef | null): boolean =>
  a !== null && b !== null && a.body === b.body && a.ring === b.ring

export interface DrawTargets {
  readonly points: readonly SnapTarget[]
  readonly edges: readonly Edge[]
  /** Directions that the part's own straight edges have, degrees in [0, 180); those with most edge first. */
  readonly directions: readonly number[]
}

const RANK = { vertex: 0, bore: 1, centre: 2, origin: 3, middle: 4 } as const

/** Everything of the part to catch on, except what is being dragged: a vertex with the two edges at it, or a ring. */
export function drawTargets(
  part: Part,
  dragged: { ref: RingRef; vertex: number | null } | null = null,
): DrawTargets {
  const points: SnapTarget[] = [{ at: { x: 0, y: 0 }, text: 'origin', rank: RANK.origin }]
  const edges: Edge[] = []
  for (const bore of part.bores)
    points.push({ at: { x: bore.x, y: bore.y }, text: `bore ${bore.id}`, rank: RANK.bore })
  for (const body of part.bodies) {
    if (!isPrism(body)) continue
    ;[body.outline, ...body.holes].forEach((ring, r) => {
      const ours = dragged?.ref.body === body.id && dragged.ref.ring === r
      if (ours && dragged.vertex === null) return
      const n = ring.length
      ringEdges(ring).forEach((e, i) => {
        const touches = ours && (i === dragged.vertex || (i + 1) % n === dragged.vertex)
        if (!(ours && i === dragged.vertex))
          points.push({ at: { x: e.a.x, y: e.a.y }, text: 'vertex', rank: RANK.vertex })
        if (touches) return
        edges.push(e)
        if (e.arc) points.push({ at: e.arc.centre, text: 'centre', rank: RANK.centre })
        points.push({ at: pointOnEdge(e, 0.5), text: 'middle', rank: RANK.middle })
      })
    })
  }
  return { points, edges, directions: ownDirections(edges) }
}

/** More would catch everywhere. */
const MOST_DIRECTIONS = 8

/** Directions of the straight edges but for the round ones, which are caught anyway. */
function ownDirections(edges: readonly Edge[]): readonly number[] {
  const lengths = new Map<number, number>()
  for (const { a, b, arc } of edges) {
    if (arc) continue
    const angle = roundTo(lineAngle(toDegrees(angleTowards(a, b))), 1e-4) % HALF
    const apart = Math.abs(angle - Math.round(angle / REACH.turnStep) * REACH.turnStep)
    if (apart < 0.01) continue
    lengths.set(angle, (lengths.get(angle) ?? 0) + Math.hypot(b.x - a.x, b.y - a.y))
  }
  return [...lengths]
    .sort((p, q) => q[1] - p[1])
    .slice(0, MOST_DIRECTIONS)
    .map(([angle]) => angle)
}

/** Degrees; a line has no sense. */
const HALF = 180
const lineAngle = (degrees: number) => ((degrees % HALF) + HALF) % HALF

export interface Snapped {
  readonly point: Point
  /** What it caught on; empty where it is free. */
  readonly text: string
}

export interface SnapWish {
  readonly pxPerMm: number
  /** The grid's step, mm. */
  readonly step: number
  readonly touch: boolean
  /** Nothing is caught; finest step. */
  readonly free: boolean
  /** The point drawn before: its directions are caught too. */
  readonly from: Point | null
}

/** Points first, then the crossing of an edge with a direction, an edge, a direction, the grid. */
export function snapDraw(raw: Point, targets: DrawTargets, wish: SnapWish): Snapped {
  const { pxPerMm } = wish
  if (wish.free) return { point: rounded(raw, 0.01), text: '' }
  const radius = reach(REACH.snap, wish.touch)
  const caught = snapPoint(raw, targets.points, pxPerMm, radius)
  if (caught.target) return { point: caught.point, text: caught.target.text }
  const near = (p: Point) => Math.hypot(p.x - raw.x, p.y - raw.y) * pxPerMm
  const edge = targets.edges
    .map((e) => ({ edge: e, at: nearestOnEdge(e, raw) }))
    .reduce<{ edge: Edge; at: Point } | null>(
      (best, e) =>
        near(e.at) <= radius * REACH.edgeShare && (!best || near(e.at) < near(best.at)) ? e : best,
      null,
    )
  const along = wish.from ? onDirection(wish.from, raw, targets, wish) : null
  const both =
    edge && along && wish.from ? crossing(edge.edge, wish.from, along.point, raw, radius / pxPerMm) : null
  if (both && along) return { point: both, text: `edge, ${along.text}` }
  if (edge) return { point: { x: edge.at.x, y: edge.at.y }, text: 'edge' }
  if (along) return along
  return { point: rounded(raw, wish.step), text: '' }
}

const rounded = (p: Point, step: number): Point => ({ x: roundTo(p.x, step), y: roundTo(p.y, step) })

/** Where an edge meets the line from `from` through `toward`, within `reach` mm of the pointer. */
function crossing(edge: Edge, from: Point, toward: Point, raw: Point, reach: number): Point | null {
  const d = Math.hypot(toward.x - from.x, toward.y - from.y)
  if (d < ROUNDING.length) return null
  const k = (d + 2 * reach) / d
  const far = { x: from.x + (toward.x - from.x) * k, y: from.y + (toward.y - from.y) * k }
  const found = edgeMeetings(makeEdge(from, far, 0), edge)
    .map((m) => m.at)
    .find((p) => Math.hypot(p.x - raw.x, p.y - raw.y) <= reach)
  return found ? { x: found.x, y: found.y } : null
}

/**
 * The point on the direction from `from` that the pointer is nearest to, within some pixels: multiples of 15°, along
 * the part's own straight edges and square to them, along and square to an arc that ends at `from`.
 */
function onDirection(
  from: Point,
  raw: Point,
  targets: DrawTargets,
  { pxPerMm, step }: SnapWish,
): Snapped | null {
  const d = Math.hypot(raw.x - from.x, raw.y - from.y)
  if (d * pxPerMm < REACH.directionFrom) return null
  const angle = toDegrees(angleTowards(from, raw))
  const off = (direction: number) => Math.abs(Math.sin(toRadians(angle - direction))) * d * pxPerMm
  const round = Math.round(angle / REACH.turnStep) * REACH.turnStep
  let best = { direction: round, text: '' }
  for (const { direction, text } of [...ownLines(targets), ...arcLines(targets, from)])
    // Nearer by more than what a hand can aim, or the round one stays.
    if (off(direction) < off(best.direction) - 1e-6) best = { direction, text }
  if (off(best.direction) > REACH.direction) return null
  // Of the two ways along the line the one that the pointer lies on.
  const way = best.direction + Math.round((angle - best.direction) / HALF) * HALF
  const t = toRadians(way)
  const reach = roundTo(d, step)
  return {
    point: { x: roundTo(from.x + reach * Math.cos(t), 1e-4), y: roundTo(from.y + reach * Math.sin(t), 1e-4) },
    text: `${best.text}${roundTo(wholeTurn(way), 0.01)}°`,
  }
}

interface Line {
  readonly direction: number
  readonly text: string
}
const ownLines = ({ directions }: DrawTargets): Line[] =>
  directions.flatMap((direction) => [
    { direction, text: 'along an edge, ' },
    { direction: direction + HALF / 2, text: 'square to an edge, ' },
  ])

function arcLines({ edges }: DrawTargets, from: Point): Line[] {
  const near = (p: Point) => Math.hypot(p.x - from.x, p.y - from.y) < ROUNDING.length
  return edges.flatMap(({ a, b, arc }) => {
    if (!arc || !(near(a) || near(b))) return []
    const radial = toDegrees(angleTowards(arc.centre, from))
    return [
      { direction: radial + HALF / 2, text: 'tangent, ' },
      { direction: radial, text: 'square to the arc, ' },
    ]
  })
}
