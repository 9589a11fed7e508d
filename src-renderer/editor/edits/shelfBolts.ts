/** The bolts through the foot of an angle plate or vee: where slots and holes of the plate lie behind it. */
import { polar } from '../../../src-core/geometry/angles.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import { findThread } from '../../../src-core/hardware/threads.ts'
import { washerSize } from '../../../src-core/hardware/washers.ts'
import type { AnglePlate, Job, Plate, Shelf, Vee } from '../../../src-core/job/schema.ts'
import { placePoint, unplacePoint } from '../../../src-core/mounting/place.ts'
import { anchorAt, type Anchor } from '../../../src-core/mounting/plateFace.ts'
import { webPlaces } from '../../../src-core/mounting/shelfSolids.ts'
import { stationPoint } from '../../../src-core/mounting/station.ts'
import { roundTo } from '../snap.ts'
import { editPiece } from './edit.ts'
import { usualBolt } from './fixtures.ts'

/** mm between places that are tried, and from a bolt's middle to the foot's edge. */
const STEP = 2
const RIM = 15
/** mm off its slot's middle within which a place is moved onto that. */
const MIDDLED = 1

type Footed =
  | Pick<AnglePlate, 'kind' | 'at' | 'facing' | 'size' | 'thickness' | 'webs'>
  | Pick<Vee, 'kind' | 'at' | 'facing' | 'size' | 'foot'>

/** mm, along `facing`, between which a foot's face is free for washers. */
const footOf = (shelf: Footed): [number, number] =>
  shelf.kind === 'anglePlate'
    ? [-shelf.size[1], -shelf.thickness]
    : [-shelf.size[1] - shelf.foot.length, -shelf.size[1]]

/** mm across the washer under a bolt's nut, and a little. */
export const washerOf = (name: string | null): number => {
  const thread = findThread(name ?? '')
  return ((thread && washerSize(thread)?.outside) ?? 0) + 1
}

/** The nearest point of the middle of a slot or hole of the plate. */
function middleOf({ slots, holes }: Plate, { kind, id }: Pick<Anchor, 'kind' | 'id'>, at: Point): Point {
  if (kind === 'hole') return holes.find((h) => h.id === id) ?? at
  const slot = slots.find((s) => s.id === id)
  if (!slot) return at
  const { x, y } = polar(1, slot.angle)
  return polar(Math.min(slot.to, Math.max(slot.from, at.x * x + at.y * y)), slot.angle)
}

/** One through each half of a foot that has a slot or hole behind it, as far apart as it goes; two in the one slot there is. */
export function boltsThrough(job: Job, shelf: Footed): Shelf['bolts'] {
  const foot = footOf(shelf)
  const along = shelf.size[0]
  const origin = stationPoint(job.plate, shelf.at, [])
  const found: Point[] = []
  const bolt = usualBolt(job)
  const rim = Math.max(RIM, washerOf(bolt.stud.thread) / 2)
  const free = (p: Point) => found.every((f) => Math.hypot(f.x - p.x, f.y - p.y) >= 2 * rim)
  const frame = { turn: shelf.facing, ...origin }
  const tryAt = (x: number, y: number) => {
    const at = placePoint(frame, { x, y })
    const anchor = anchorAt(job.plate, at)
    if (!anchor || anchor.off >= MIDDLED) return false
    const middle = unplacePoint(frame, middleOf(job.plate, anchor, at))
    const p = { x: roundTo(middle.x, 0.01), y: roundTo(middle.y, 0.01) }
    if (!free(p)) return false
    found.push(p)
    return true
  }
  const seek = (ys: readonly number[]) =>
    ys.some((y) => {
      for (let x = foot[0] + rim; x <= foot[1] - rim; x += STEP) if (tryAt(x, y)) return true
      return false
    })
  const webs = shelf.kind === 'anglePlate' ? webPlaces(shelf) : []
  const beside = (y: number) =>
    webs.every((web) => Math.abs(y - web.middle) >= web.thickness / 2 + rim + MIDDLED)
  const half: number[] = []
  for (let y = along / 2 - rim; y >= 0; y -= STEP) half.push(y)
  for (const side of [-1, 1]) seek(half.map((y) => side * y).filter(beside))
  if (found.length < 2) seek([0])
  return found.map((at) => ({ at, ...bolt }))
}

/** Puts the bolts of a foot anew through it, where slots or holes lie behind. */
export const boltsAnew = (job: Job, setupId: string, id: string): Job =>
  editPiece(job, setupId, id, (p) => {
    if (p.kind === 'anglePlate' || p.kind === 'vee')
      p.bolts = structuredClone(boltsThrough(job, p)) as typeof p.bolts
  })
