/** Where bolts of clamps can go, in the order in which places are tried: along slots of the plate, or slots and holes of a shelf. */
import {
  angleTowards,
  directionOf,
  opposite,
  polar,
  toDegrees,
  turnBetween,
  wholeTurn,
} from '../../../src-core/geometry/angles.ts'
import { nearestTo } from '../../../src-core/geometry/nearest.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import { isClamp, type At, type Clamp, type Job, type Slot } from '../../../src-core/job/schema.ts'
import type { FacePlate } from '../../../src-core/mounting/plateFace.ts'
import type { Mounted } from '../../../src-core/mounting/types.ts'
import { inches } from '../../../src-core/units/convert.ts'
import { roundTo } from '../snap.ts'
import { stationOnShelf } from './onShelf.ts'

export interface ClampTrack {
  /** As it is told: "slot S1", "hole H1". */
  readonly name: string
  readonly places: readonly {
    /** On what is looked at: a shelf's are as on a plate. */
    readonly at: At
    readonly point: Point
    /** Degrees: which way a strap points there. */
    readonly faces: number
  }[]
  /** Whether the places go outward from the part. */
  readonly goesOut: boolean
}

/** mm between the places along a slot that are tried, and how their radii are rounded: what a rule shows. */
const STEPS = { mm: { by: 2, to: 0.1 }, in: { by: inches(1 / 16), to: 1e-4 } } as const

/** Steps of a plate's slot that one on a shelf is: each place there is tried with several straps. */
const SHELF_STEPS = 2
/** mm, beyond any shelf. */
const FAR = 1e6

/** @param mounted as it looks from what carries the part. */
export const clampTracks = (mounted: Mounted): ClampTrack[] =>
  mounted.shelf ? shelfTracks(mounted) : mounted.job.plate.slots.map((slot) => slotTrack(mounted.job, slot))

/** From the axis outward, a strap pointing at it. */
export function slotTrack(job: Job, slot: Slot): ClampTrack {
  const { by, to } = STEPS[job.displayUnits]
  const places: ClampTrack['places'][number][] = []
  for (let r = slot.from; r <= slot.to; r += by) {
    const radius = roundTo(r, to)
    places.push({
      at: { slot: slot.id, radius },
      point: polar(radius, slot.angle),
      faces: opposite(slot.angle),
    })
  }
  return { name: `slot ${slot.id}`, places, goesOut: true }
}

/** Each slot from either end of it, for it may take two straps; then its holes. A strap points square at the part. */
function shelfTracks(view: Mounted): ClampTrack[] {
  const plate: FacePlate = view.job.plate
  const { by, to } = STEPS[view.job.displayUnits]
  const placeAt = (at: At, point: Point) => ({ at, point, faces: toPart(view, point) })
  const ends = (plate.face?.slots ?? []).map((slot) => {
    const half = Math.max(0, slot.length - slot.width) / 2
    const places: ClampTrack['places'][number][] = []
    for (let t = half; t >= -half; t -= SHELF_STEPS * by) {
      const off = polar(t, slot.angle)
      const point = { x: roundTo(slot.x + off.x, to), y: roundTo(slot.y + off.y, to) }
      places.push(placeAt(point, point))
    }
    return { name: `slot ${slot.id}`, places, goesOut: false }
  })
  const backwards = ends.map((t) => ({ ...t, places: [...t.places].reverse() }))
  const holes = plate.holes.map((hole) => ({
    name: `hole ${hole.id}`,
    places: [placeAt({ hole: hole.id }, { x: hole.x, y: hole.y })],
    goesOut: false,
  }))
  return [...ends, ...backwards, ...holes]
}

/** Degrees from a point to the nearest of the part, in plan. */
function toPart({ bodies }: Mounted, from: Point): number {
  const near = bodies
    .filter((b) => b.body.effect === 'adds')
    .flatMap((b) => b.regions.map((r) => nearestTo(r.outline, from)))
  if (near.length === 0) return 0
  const { point } = near.reduce((a, b) => (b.distance < a.distance ? b : a))
  return toDegrees(angleTowards(from, point))
}

/** Those farthest from the clamps that are there first. */
export function farthestFirst(mounted: Mounted, tracks: readonly ClampTrack[]): ClampTrack[] {
  const clamps = mounted.pieces.filter((p) => isClamp(p.item)).map((p) => p.at)
  const off = ({ x, y }: Point) => Math.min(FAR, ...clamps.map((c) => Math.hypot(c.x - x, c.y - y)))
  const gap = mounted.shelf
    ? ({ places: [first] }: ClampTrack) => (first ? off(first.point) : 0)
    : (track: ClampTrack) => gapTo(clamps.map(directionOf), angleOfTrack(track))
  return [...tracks].sort((a, b) => gap(b) - gap(a))
}

/** The next to try where `wanted` more are to be spread. */
export function nextTrack(
  mounted: Mounted,
  tracks: readonly ClampTrack[],
  wanted: number,
): ClampTrack | undefined {
  if (mounted.shelf) return farthestFirst(mounted, tracks)[0]
  const taken = mounted.pieces.filter((p) => isClamp(p.item)).map((p) => directionOf(p.at))
  return spreadRound(tracks, taken, wanted)[0]
}

const angleOfTrack = ({ places: [first] }: ClampTrack): number => (first ? opposite(first.faces) : 0)

const gapTo = (angles: readonly number[], angle: number): number =>
  Math.min(360, ...angles.map((a) => Math.abs(turnBetween(a, angle))))

/** `count` of them as evenly round the axis as they come: from each in turn, always the farthest from those taken. */
function spreadRound(tracks: readonly ClampTrack[], taken: readonly number[], count: number): ClampTrack[] {
  let best: ClampTrack[] = []
  let widest = -1
  for (const first of tracks) {
    const chosen = [first]
    while (chosen.length < Math.min(count, tracks.length)) {
      const angles = [...taken, ...chosen.map(angleOfTrack)]
      const rest = tracks.filter((s) => !chosen.includes(s))
      chosen.push(
        rest.reduce((a, b) =>
          gapTo(angles, angleOfTrack(b)) > gapTo(angles, angleOfTrack(a)) + 1e-9 ? b : a,
        ),
      )
    }
    const least = Math.min(
      ...chosen.map((s) =>
        gapTo([...taken, ...chosen.filter((o) => o !== s).map(angleOfTrack)], angleOfTrack(s)),
      ),
    )
    if (least > widest + 1e-9) [best, widest] = [chosen, least]
  }
  return best
}

/** On the shelf that carries the part, in a slot or else in its middle, facing the part; null where it stands on none. */
export function besidePart(view: Mounted): Pick<Clamp, 'at' | 'facing'> | null {
  if (!view.shelf) return null
  const [place] = farthestFirst(view, clampTracks(view)).flatMap((t) => t.places)
  const { item } = view.shelf
  const at = place?.at ?? { x: 0, y: roundTo(item.size[2] / 2, 1) }
  return { at: stationOnShelf(item, at), facing: wholeTurn(roundTo(place?.faces ?? 0, 0.1)) }
}
