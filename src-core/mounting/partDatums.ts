/** What of the part one can lay a straight edge to or set a pointer on, to place it on the plate. Plate frame, mm. */
import { directionOf, turnBetween } from '../geometry/angles.ts'
import { ringEdges, type Edge } from '../geometry/edges.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import { isPrism } from '../job/schema.ts'
import type { Mounted } from './types.ts'

/** mm: a shorter edge guides no straight edge. Common practice, no source. */
const SHORTEST = 15
/** Degrees: corners blunter than this are not seen as one; edges nearer to parallel place no second direction. */
const LEAST_TURN = 20

export interface DatumEdge {
  /** E1, E2 where nothing else is called so. */
  readonly id: string
  readonly a: Point
  readonly b: Point
  /** Direction of its line, degrees, 0 to below 180. */
  readonly angle: number
  /** From the axis, square to it, and where that meets its line. */
  readonly distance: number
  readonly foot: Point
}

export interface DatumPoint {
  /** The bore's id, or P1, P2 where nothing else is called so. */
  readonly id: string
  readonly kind: 'bore' | 'corner'
  readonly at: Point
}

const outlineEdges = ({ bodies }: Mounted): (readonly Edge[])[] =>
  bodies
    .filter((b) => b.body.effect === 'adds' && isPrism(b.body))
    .flatMap((b) => b.regions.map((r) => ringEdges(r.outline)))

const lengthOf = ({ a, b }: Edge): number => Math.hypot(b.x - a.x, b.y - a.y)

/** The longest straight edge, and the longest that runs another way. */
export function datumEdges(mounted: Mounted): DatumEdge[] {
  const straight = outlineEdges(mounted)
    .flat()
    .filter((e) => !e.arc && lengthOf(e) >= SHORTEST)
    .sort((p, q) => lengthOf(q) - lengthOf(p))
  const first = straight[0]
  if (!first) return []
  const second = straight.find((e) => {
    const turn = Math.abs(turnBetween(angleOfLine(first), angleOfLine(e)))
    return Math.min(turn, 180 - turn) >= LEAST_TURN
  })
  const names = freeNames(mounted, 'E')
  return [first, ...(second ? [second] : [])].map((e) => datumEdge(e, names()))
}

const angleOfLine = ({ a, b }: Pick<Edge, 'a' | 'b'>): number => {
  const angle = directionOf({ x: b.x - a.x, y: b.y - a.y }) % 180
  return 180 - angle < TOLERANCE.inLine ? 0 : angle
}

function datumEdge({ a, b }: Edge, id: string): DatumEdge {
  const along = { x: b.x - a.x, y: b.y - a.y }
  const t = -(a.x * along.x + a.y * along.y) / (along.x ** 2 + along.y ** 2)
  const foot = { x: a.x + t * along.x, y: a.y + t * along.y }
  return { id, a, b, angle: angleOfLine({ a, b }), distance: Math.hypot(foot.x, foot.y), foot }
}

/** Two points as far apart as can be, the axis' own bore aside: bores before corners. */
export function datumPoints(mounted: Mounted): DatumPoint[] {
  const off = (p: Point) => Math.hypot(p.x, p.y) > 1
  const bores = mounted.bores
    .filter((b) => off(b.centre))
    .map(({ bore, centre }): DatumPoint => ({ id: bore.id, kind: 'bore', at: centre }))
  const corners = outlineEdges(mounted)
    .flatMap(sharpCorners)
    .filter(off)
    .map((at): DatumPoint => ({ id: '', kind: 'corner', at }))
  const chosen: DatumPoint[] = []
  const origin = { x: 0, y: 0 }
  for (const kind of [bores, corners]) {
    while (chosen.length < 2) {
      const from = [origin, ...chosen.map((c) => c.at)]
      const room = (p: DatumPoint) => Math.min(...from.map((f) => Math.hypot(p.at.x - f.x, p.at.y - f.y)))
      const best = kind.reduce<DatumPoint | null>((m, p) => (m && room(m) >= room(p) ? m : p), null)
      if (!best || room(best) < SHORTEST) break
      chosen.push(best)
    }
  }
  const names = freeNames(mounted, 'P')
  return chosen.map((c) => (c.kind === 'bore' ? c : { ...c, id: names() }))
}

/** A letter with one number after another, but for what a slot, hole, bore or piece of this set-up is called already. */
function freeNames({ job: { plate }, bores, pieces }: Mounted, letter: string): () => string {
  const ids = [...plate.slots, ...plate.holes, ...bores.map((b) => b.bore), ...pieces.map((p) => p.item)]
  const taken = new Set(ids.map(({ id }) => id))
  let number = 0
  return () => {
    do number++
    while (taken.has(`${letter}${number}`))
    return `${letter}${number}`
  }
}

function sharpCorners(edges: readonly Edge[]): Point[] {
  return edges.flatMap((e, i) => {
    const before = edges[(i + edges.length - 1) % edges.length]!
    if (e.arc || before.arc) return []
    const way = (of: Edge) => directionOf({ x: of.b.x - of.a.x, y: of.b.y - of.a.y })
    return Math.abs(turnBetween(way(before), way(e))) >= LEAST_TURN ? [e.a] : []
  })
}
