/** What stands on a shelf: moved along it and out from the plate, and bolts through the part's base into its slots. */
import { edgesBox, ringEdges } from '../../../src-core/geometry/edges.ts'
import { TOLERANCE } from '../../../src-core/geometry/tolerance.ts'
import type { Point, Ring } from '../../../src-core/geometry/types.ts'
import { strapOverVee } from '../../../src-core/hardware/veeStrap.ts'
import type { At, Job, Shelf, ThroughBolt, Vee } from '../../../src-core/job/schema.ts'
import { findSetup } from '../../../src-core/mounting/mount.ts'
import { anchorsBy } from '../../../src-core/mounting/plateFace.ts'
import type { Mounted } from '../../../src-core/mounting/types.ts'
import { roundTo } from '../snap.ts'
import { editPiece, type Piece } from './edit.ts'
import { addPiece } from './hardware.ts'
import { tightAsWallBears } from './wallTorque.ts'
import { usualBolt } from './fixtures.ts'

/** A station as it is on a shelf that is looked at as a plate, as the job says it. */
export function stationOnShelf({ id: on }: Pick<Shelf, 'id'>, at: At): At {
  if ('x' in at) return { on, along: roundTo(at.x, 1e-3), out: roundTo(at.y, 1e-3) }
  return 'hole' in at ? { on, hole: at.hole } : at
}

/** A place on a shelf; `hole`: its hole that has its middle there, which a stud is screwed into. */
export type OnShelf = Point & { readonly hole?: string }

/** Puts a piece at a place of its shelf. @param view the setup as it looks from there. */
export const moveOnShelf = (job: Job, setupId: string, view: Mounted, id: string, at: OnShelf): Job =>
  editPiece(job, setupId, id, (p) => {
    if (p.kind === 'bolt') {
      p.throughPart = {
        x: roundTo(at.x - view.placement.x, 1e-3),
        y: roundTo(at.y - view.placement.y, 1e-3),
      }
      return
    }
    if (view.shelf) p.at = stationOnShelf(view.shelf.item, at.hole ? { hole: at.hole } : at)
  })

/** mm along a shelf of what is moved in plan: how far out it stands is not seen from there. @param stand a view from a shelf. */
export const alongInPlan = ({ shelf }: Mounted, { x, y }: Point): number =>
  shelf ? x * shelf.pose.u.x + y * shelf.pose.u.y : 0

/** mm between places that are tried in a hole of the base. */
const STEP = 0.5
/** mm by which a stud may stand off the middle of the shelf's slot. */
const MIDDLED = 1

/** A place for a bolt; `width`: mm of the narrower of the two openings that it goes through. */
type BasePlace = Point & { readonly width: number }

/** Places in the holes of what lies on the shelf, part frame as seen from there, that have a slot or hole of it below. */
export function basePlaces(view: Mounted): BasePlace[] {
  const holes = view.bodies
    .filter((b) => b.body.effect === 'adds' && Math.abs(b.z0 - view.seat) <= TOLERANCE.clashDepth)
    .flatMap((b) => b.regions.flatMap((r) => r.holes))
  return holes.flatMap((hole) => {
    const place = placeIn(view, hole)
    if (!place) return []
    const { x, y } = view.placement
    return [{ ...place, x: roundTo(place.x - x, 0.01), y: roundTo(place.y - y, 0.01) }]
  })
}

/** The place along the middle of an opening, nearest its own middle, that is within the shelf's slot. */
function placeIn(view: Mounted, hole: Ring): BasePlace | null {
  const { x0, x1, y0, y1 } = edgesBox(ringEdges(hole))
  const middle = { x: (x0 + x1) / 2, y: (y0 + y1) / 2 }
  const [long, wide] = [Math.max(x1 - x0, y1 - y0), Math.min(x1 - x0, y1 - y0)]
  const room = (long - wide) / 2
  const isAlong = x1 - x0 >= y1 - y0
  let best: { at: BasePlace; off: number } | null = null
  for (let t = 0; t <= room + 1e-9; t += STEP)
    for (const by of [t, -t]) {
      const at = isAlong ? { x: middle.x + by, y: middle.y } : { x: middle.x, y: middle.y + by }
      const [near] = anchorsBy(view.job.plate, at)
      if (near && near.outside < 0 && near.anchor.off < (best?.off ?? MIDDLED) - 1e-6)
        best = { at: { ...at, width: Math.min(wide, near.anchor.width) }, off: near.anchor.off }
    }
  return best?.at ?? null
}

/** A bolt through every hole of the base that has a slot or hole of the shelf below it and no bolt yet. */
export function boltBase(job: Job, setupId: string, view: Mounted): { job: Job; ids: readonly string[] } {
  const taken = view.setup.hardware.flatMap((h) => (h.kind === 'bolt' ? [h.throughPart] : []))
  const ids: string[] = []
  let now = job
  for (const place of basePlaces(view)) {
    if (taken.some((t) => Math.hypot(t.x - place.x, t.y - place.y) < 5)) continue
    const { width, ...throughPart } = place
    const thinner = usualBolt(job, { slots: [{ width }], holes: [] })
    const bolt: Piece<ThroughBolt> = { kind: 'bolt', throughPart, ...thinner, fixed: true }
    const added = addPiece(now, setupId, bolt)
    now = added.job
    ids.push(added.id)
  }
  return { job: now, ids }
}

/** Why no strap can be put on a vee. */
export const noStrapWords = ({ id }: Pick<Vee, 'id'>): string =>
  `No free hole of ${id} has a thread, or its lands have no room for a heel.`

/** A strap from every hole of a vee's lands that has no stud yet. */
export function strapVee(job: Job, setupId: string, vee: Vee): { job: Job; ids: readonly string[] } {
  const hardware = findSetup(job, setupId).hardware
  const ids: string[] = []
  let now = job
  for (const hole of vee.holes) {
    const isTaken = hardware.some(
      (h) => 'at' in h && 'on' in h.at && h.at.on === vee.id && 'hole' in h.at && h.at.hole === hole.id,
    )
    const strap = isTaken ? null : strapOverVee(vee, hole)
    if (!strap) continue
    const added = addPiece(now, setupId, strap)
    now = added.job
    ids.push(added.id)
  }
  return { job: tightAsWallBears(now, setupId, ids), ids }
}
