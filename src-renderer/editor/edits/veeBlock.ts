/** Loose vee blocks: laid on the shelf of an angle plate, the part in them, straps from the shelf over both. */
import { turnBetween } from '../../../src-core/geometry/angles.ts'
import { SHELF_DENSITY, usualVeeBlock } from '../../../src-core/hardware/shelves.ts'
import { byRule, inches } from '../../../src-core/units/convert.ts'
import { studFor } from '../../../src-core/hardware/usualClamp.ts'
import { isBesideBlock, roomBeside, strapFromShelf, VEE_BAR } from '../../../src-core/hardware/veeStrap.ts'
import { partStand, strapStand } from '../../../src-core/holding/stand.ts'
import type { AnglePlate, Clamp, Job, Vee } from '../../../src-core/job/schema.ts'
import type { Formatter } from '../../../src-core/units/format.ts'
import { outerRounds } from '../../../src-core/mounting/flats.ts'
import { findSetup } from '../../../src-core/mounting/mount.ts'
import { isVeeBlock, poseOfShelf } from '../../../src-core/mounting/shelf.ts'
import type { Mounted } from '../../../src-core/mounting/types.ts'
import { roundTo } from '../snap.ts'
import { editSetup, without, type Piece } from './edit.ts'
import { addPiece } from './hardware.ts'
import { strapVee } from './onShelf.ts'
import { boltsAnew } from './shelfBolts.ts'
import { seatOnShelf } from './shelves.ts'
import { tightAsWallBears } from './wallTorque.ts'

/** mm: of the round where none is drawn. Own choice. */
const ROUND = { mm: 60, in: inches(5 / 2) }

/** For the part's largest round; in the middle of the shelf, over whose edge it may hang. */
export function newVeeBlock(job: Job, shelf: AnglePlate): Piece<Vee> {
  const round = outerRounds(job.part)[0]?.diameter ?? ROUND[job.displayUnits]
  const shape = usualVeeBlock(round, job.displayUnits)
  return {
    kind: 'vee',
    at: { on: shelf.id, along: 0, out: middleOut(shelf, shape, job.displayUnits) },
    facing: shelf.facing,
    ...shape,
    density: SHELF_DENSITY,
    holes: [],
    bolts: [],
    fixed: true,
  }
}

/** mm from the plate at which a block begins that lies in the middle of a shelf, as far as it is no longer than that. */
export const middleOut = (
  shelf: Pick<AnglePlate, 'size'>,
  { size }: Pick<Vee, 'size'>,
  units: Job['displayUnits'],
): number => Math.max(0, byRule((shelf.size[2] - size[2]) / 2, units))

/** Lays one on an angle plate; the part goes into it, unless it stands elsewhere. */
export function putVeeBlock(job: Job, setupId: string, shelf: AnglePlate): { job: Job; id: string } {
  const added = addPiece(job, setupId, newVeeBlock(job, shelf))
  const on = findSetup(job, setupId).seat?.on ?? shelf.id
  if (on !== shelf.id) return added
  return {
    ...added,
    job: middleUnder(seatOnShelf(added.job, setupId, added.id), setupId, added.id, shelf.id),
  }
}

/** The angle plate moved along until a block that lies under the round lies in its middle, with slots at both sides; bolted anew. */
function middleUnder(job: Job, setupId: string, id: string, under: string): Job {
  const { hardware } = findSetup(job, setupId)
  const block = hardware.find((h) => h.id === id)
  const shelf = hardware.find((h) => h.id === under)
  if (!block || !isVeeBlock(block) || block.at.along === 0 || shelf?.kind !== 'anglePlate') return job
  const { along } = block.at
  const { origin, u } = poseOfShelf(job.plate, shelf, [])
  const moved = editSetup(job, setupId, (s) => {
    for (const h of s.hardware) {
      if (h.id === id && 'at' in h && 'along' in h.at) h.at.along = 0
      if (h.id === under && h.kind === 'anglePlate')
        h.at = { x: roundTo(origin.x + along * u.x, 1e-6), y: roundTo(origin.y + along * u.y, 1e-6) }
    }
  })
  return boltsAnew(moved, setupId, under)
}

/** mm by which a toe stays within the ends of the round. Own choice. */
const WITHIN = 1
/** mm within which a strap stands already. */
const TAKEN = 20

/**
 * A strap from each side of a block, from a slot that runs out along it; the one near the plate, the other far out.
 * @param view the setup as it looks from the shelf.
 */
export function strapBlock(job: Job, setupId: string, view: Mounted): { job: Job; ids: readonly string[] } {
  const { shelf } = view
  const none = { job, ids: [] }
  if (!shelf?.block || !shelf.round?.lies || shelf.item.kind !== 'anglePlate') return none
  const { item, block, round } = shelf
  const thread = studFor({ slots: item.slots, holes: [] }, job.displayUnits)
  if (!isVeeBlock(block) || item.slots.length === 0 || !thread) return none
  const half = VEE_BAR.width / 2 + WITHIN
  const [from, to] = [round.out[0] + half, round.out[1] - half]
  const ids: string[] = []
  let now = job
  // Over the crown the two lie side by side.
  let beyond = to
  for (const side of [-1, 1] as const) {
    const place = item.slots
      .filter((s) => Math.abs(Math.abs(turnBetween(s.angle, 90)) - 90) > 89)
      .filter((s) => side * (s.x - block.at.along) > 0)
      .filter((s) => isBesideBlock(s.x - block.at.along, block.size[0], s.width))
      .sort((a, b) => side * (a.x - b.x))
      .flatMap((s) => {
        const run = Math.max(0, s.length - s.width) / 2
        const out = Math.min(s.y + run, Math.max(s.y - run, side < 0 ? from : beyond))
        const strap = strapFromShelf(thread.name, side * (s.x - round.along), item.size[0] / 2 - side * s.x)
        return strap && out >= from - WITHIN && out <= to + WITHIN
          ? [
              {
                ...strap,
                at: { on: item.id, along: s.x, out: roundTo(out, 0.01) },
                facing: side > 0 ? 180 : 0,
              },
            ]
          : []
      })[0]
    if (!place || isTaken(view, place.at)) continue
    const added = addPiece(now, setupId, place)
    now = added.job
    ids.push(added.id)
    beyond = Math.max(to, place.at.out + VEE_BAR.width)
  }
  return { job: tightAsWallBears(now, setupId, ids), ids }
}

/** Why no strap is put beside a loose block, and what would have room for two. */
export function noStrapBeside(job: Job, { shelf }: Mounted, fmt: Formatter): string {
  const [item, block] = [shelf?.item, shelf?.block]
  if (item?.kind !== 'anglePlate' || !block) return ''
  const short = `No slot of ${item.id} that runs out beside ${block.id} is free and leaves room for a heel.`
  const widths = item.slots.map((s) => s.width)
  const thread = studFor({ slots: item.slots, holes: [] }, job.displayUnits)
  if (widths.length === 0 || !thread) return `${short} Give ${item.id} a slot at each side of it.`
  const { slot, least } = roomBeside(block.size[0], Math.max(...widths), thread)
  return `${short} Two have room beside it where the slots stand ${fmt.length(slot)} to each side of its middle and ${item.id} is at least ${fmt.length(least)} along.`
}

/** Straps over a round: from the shelf below a loose block, else from the vee's own lands. */
export const strapRound = (
  job: Job,
  setupId: string,
  mounted: Mounted,
  vee: Vee,
): { job: Job; ids: readonly string[] } =>
  partStand(mounted).shelf?.under
    ? strapBlock(job, setupId, strapStand(mounted))
    : strapVee(job, setupId, vee)

/** The next strap over the round of the part in a vee; null where it lies in none or no place is free. */
export function strapOverRound(job: Job, setupId: string, mounted: Mounted): Piece<Clamp> | null {
  const vee = partStand(mounted).shelf?.item
  if (vee?.kind !== 'vee') return null
  const { job: put, ids } = strapRound(job, setupId, mounted, vee)
  const strap = findSetup(put, setupId).hardware.find((h) => h.id === ids[0])
  return strap?.kind === 'clamp' ? without(strap, 'id') : null
}

const isTaken = ({ pieces }: Mounted, at: { readonly along: number; readonly out: number }): boolean =>
  pieces.some(
    (p) =>
      p.item.kind === 'clamp' && Math.hypot(p.at.x - at.along, p.at.y - at.out) < VEE_BAR.width / 2 + TAKEN,
  )
