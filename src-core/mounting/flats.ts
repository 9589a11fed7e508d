/** The flats of a part that it can be laid on a shelf with: straight edges, seen from in front, that nothing of it stands out over. */
import { keptOf } from '../geometry/kept.ts'
import { directionOf, turning, wholeTurn } from '../geometry/angles.ts'
import { edgesBox, ringEdges } from '../geometry/edges.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point, Region } from '../geometry/types.ts'
import { isUpright, type Part } from '../job/schema.ts'
import { bodyShapes } from './bodyShapes.ts'
import { placeRing } from './place.ts'

export interface Flat {
  /** Out of the part, in its frame, degrees. */
  readonly direction: number
  /** mm from the part's origin to it, along that. */
  readonly distance: number
  /** mm from end to end of it, seen from in front; and where it ends, part frame. */
  readonly length: number
  readonly ends: readonly [Point, Point]
  /** Ids of the bodies that it belongs to. */
  readonly bodies: readonly string[]
}

interface Side {
  readonly body: string
  readonly direction: number
  readonly distance: number
  readonly from: number
  readonly to: number
}

/** The longest first. Kept per part, which is immutable. */
export const flatsOf: (part: Part) => readonly Flat[] = keptOf(findFlats)

const adding = (part: Part): { body: string; region: Region }[] =>
  part.bodies.flatMap((body) =>
    body.effect === 'adds'
      ? bodyShapes(body).flatMap((s) => s.regions.map((region) => ({ body: body.id, region })))
      : [],
  )

/** mm that a part reaches from its origin in a direction, degrees in its frame. */
export function reachToward(part: Part, direction: number): number {
  const turned = { turn: -direction, x: 0, y: 0 }
  return Math.max(
    ...adding(part).map(({ region }) => edgesBox(ringEdges(placeRing(turned, region.outline))).x1),
  )
}

/** Outlines of thousands of edges have no more flats than these that one would lay on a shelf. */
const MOST = 80

function findFlats(part: Part): Flat[] {
  const sides = adding(part)
    .flatMap(({ body, region }) => sidesOf(body, region))
    .sort((a, b) => b.to - b.from - (a.to - a.from))
    .slice(0, MOST)
  const flats: Flat[] = []
  for (const side of sides) {
    const known = flats.some((f) => sameWay(f.direction, side.direction))
    if (known) continue
    const reach = reachToward(part, side.direction)
    const together = sides.filter(
      (s) => sameWay(s.direction, side.direction) && s.distance >= reach - TOLERANCE.height,
    )
    if (together.length === 0) continue
    const [from, to] = [Math.min(...together.map((s) => s.from)), Math.max(...together.map((s) => s.to))]
    const { c, s: n } = turning(side.direction)
    const end = (t: number): Point => ({ x: reach * c - t * n, y: reach * n + t * c })
    flats.push({
      direction: side.direction,
      distance: reach,
      length: to - from,
      ends: [end(from), end(to)],
      bodies: [...new Set(together.map((s) => s.body))],
    })
  }
  return flats.sort((a, b) => b.length - a.length)
}

/** Degrees within which two edges run alike. */
const ALIKE = 1e-3
const sameWay = (a: number, b: number): boolean => {
  const turn = wholeTurn(a - b)
  return turn < ALIKE || turn > 360 - ALIKE
}

/** Each straight edge looked at from both sides: which one is outside follows from what reaches farthest. */
function sidesOf(body: string, { outline }: Region): Side[] {
  return ringEdges(outline).flatMap(({ a, b, arc }): Side[] => {
    const length = Math.hypot(b.x - a.x, b.y - a.y)
    if (arc || length <= TOLERANCE.height) return []
    return [1, -1].map((way): Side => {
      const n = { x: (way * (b.y - a.y)) / length, y: (-way * (b.x - a.x)) / length }
      const along = (p: { x: number; y: number }) => p.y * n.x - p.x * n.y
      return {
        body,
        direction: wholeTurn(directionOf(n)),
        distance: a.x * n.x + a.y * n.y,
        from: Math.min(along(a), along(b)),
        to: Math.max(along(a), along(b)),
      }
    })
  })
}

/** A round outline of what stands upright, which a vee may take. */
export interface Round {
  readonly diameter: number
  readonly centre: Point
}

/** Each diameter once, the largest first. */
export function outerRounds(part: Part): Round[] {
  const rounds = part.bodies.flatMap((body) =>
    isUpright(body) && body.effect === 'adds'
      ? ringEdges(body.outline).flatMap(({ arc }) =>
          arc ? [{ diameter: 2 * arc.radius, centre: arc.centre }] : [],
        )
      : [],
  )
  return rounds
    .filter((r, i) => rounds.findIndex((s) => Math.abs(s.diameter - r.diameter) <= TOLERANCE.height) === i)
    .sort((a, b) => b.diameter - a.diameter)
}
