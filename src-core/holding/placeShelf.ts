/**
 * Moves an angle plate or a vee to where the part lies on it, by the size that is set between it and the axis; of a loose
 * block the angle plate below it, and the block along that.
 */
import { turnedBy } from '../geometry/space/pose.ts'
import type { Hardware, Job } from '../job/schema.ts'
import { mountSetup } from '../mounting/mount.ts'
import { isVeeBlock, poseOfShelf } from '../mounting/shelf.ts'
import { shelfSize } from '../mounting/shelfSize.ts'
import type { Mounted } from '../mounting/types.ts'
import { pieceRulings } from './pieceRulings.ts'
import { partStand, standOf } from './stand.ts'

export interface PlacedShelf {
  readonly job: Job
  /** mm from the axis to what is bolted to the plate, its shelf or lands, to the hundredth: what is set with gauge and indicator. */
  readonly size: number
  /** What is wrong with its bolts there, in words; none where each meets its slot or hole. */
  readonly misses: readonly string[]
}

/** A size that is set, mm. */
const HUNDREDTH = 100
/** mm to which its place is kept in the job. */
const FINE = 1e-6

/** Null where the part is seated on no shelf, or nothing of it could lie there. The part stays; the fixture moves. */
export function placeShelf(job: Job, setupId: string): PlacedShelf | null {
  const view = seatView(job, setupId)
  const size = view && shelfSize(view)
  if (!view?.shelf || !size || size.wanted === null) return null
  const { item, pose, round } = view.shelf
  const wanted = Math.round(size.wanted * HUNDREDTH) / HUNDREDTH
  const beside = round?.lies === false && round.why === 'off' ? round.beside : 0
  const up = size.stands - wanted
  const { of } = size
  const from = of === item ? pose.origin : poseOfShelf(job.plate, of, []).origin
  const by = turnedBy(pose, { x: of === item ? beside : 0, y: 0, z: up })
  const at = { x: fine(from.x + by.x), y: fine(from.y + by.y) }
  const moved = (h: Hardware): Hardware => {
    if (h.id === of.id) return { ...of, at }
    if (h.id !== item.id || !isVeeBlock(h)) return h
    return { ...h, at: { ...h.at, along: fine(h.at.along + beside) } }
  }
  const placed: Job = {
    ...job,
    setups: job.setups.map((s) => (s.id === setupId ? { ...s, hardware: s.hardware.map(moved) } : s)),
  }
  const ids = [...new Set([of.id, item.id])]
  return { job: placed, size: wanted, misses: ids.flatMap((id) => missesOf(placed, setupId, id)) }
}

const fine = (v: number): number => Math.round(v / FINE) * FINE

function seatView(job: Job, setupId: string): Mounted | null {
  const view = partStand(mountSetup(job, setupId))
  return view.shelf ? view : null
}

function missesOf(job: Job, setupId: string, id: string): string[] {
  const mounted = mountSetup(job, setupId)
  const piece = mounted.pieces.find((p) => p.item.id === id)
  if (!piece) return []
  const { stand, seen } = standOf(mounted, piece)
  return pieceRulings(stand, seen)
    .filter((r) => r.finding.code === 'bolt-in-solid' || r.finding.code === 'stud-does-not-fit')
    .map((r) => r.finding.message)
}
