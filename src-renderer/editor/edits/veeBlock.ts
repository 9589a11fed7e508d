/** Loose vee blocks: laid on the shelf of an angle plate, the part in them, straps from the shelf over both. */
import { turnBetween } from '../../../src-core/geometry/angles.ts'
import { SHELF_DENSITY, usualVeeBlock } from '../../../src-core/hardware/shelves.ts'
import { byRule, inches } from '../../../src-core/units/convert.ts'
import { strapFromShelf, VEE_BAR } from '../../../src-core/hardware/veeStrap.ts'
import { partStand, strapStand } from '../../../src-core/holding/stand.ts'
import type { AnglePlate, Job, Vee } from '../../../src-core/job/schema.ts'
import { outerRounds } from '../../../src-core/mounting/flats.ts'
import { findSetup } from '../../../src-core/mounting/mount.ts'
import { isVeeBlock } from '../../../src-core/mounting/shelf.ts'
import type { Mounted } from '../../../src-core/mounting/types.ts'
import { roundTo } from '../snap.ts'
import type { Piece } from './edit.ts'
import { usualBolt } from './fixtures.ts'
import { addPiece } from './hardware.ts'
import { strapVee } from './onShelf.ts'
import { seatOnShelf } from './shelves.ts'
import { tightAsWallBears } from './wallTorque.ts'

/** mm: of the round where none is drawn. Own choice. */
const ROUND = { mm: 60, in: inches(5 / 2) }

/** For the part's largest round, or one that the shelf has room for; in the middle of the shelf. */
export function newVeeBlock(job: Job, shelf: AnglePlate): Piece<Vee> {
  const [along, , out] = shelf.size
  const largest = Math.min(
    outerRounds(job.part)[0]?.diameter ?? ROUND[job.displayUnits],
    along / 2,
    out / 1.25,
  )
  const shape = usualVeeBlock(largest, job.displayUnits)
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
  return on === shelf.id ? { ...added, job: seatOnShelf(added.job, setupId, added.id) } : added
}

/** mm between stud and block, and by which a toe stays within the ends of the round. Own choices. */
const BESIDE = 2
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
  const bolt = usualBolt(job)
  if (!isVeeBlock(block) || bolt.stud.thread === null) return none
  const half = VEE_BAR.width / 2 + WITHIN
  const [from, to] = [round.out[0] + half, round.out[1] - half]
  const ids: string[] = []
  let now = job
  for (const side of [-1, 1] as const) {
    const place = item.slots
      .filter((s) => Math.abs(Math.abs(turnBetween(s.angle, 90)) - 90) > 89)
      .filter((s) => side * (s.x - block.at.along) > block.size[0] / 2 + s.width / 2 + BESIDE)
      .sort((a, b) => side * (a.x - b.x))
      .flatMap((s) => {
        const run = Math.max(0, s.length - s.width) / 2
        const out = Math.min(s.y + run, Math.max(s.y - run, side < 0 ? from : to))
        const strap = strapFromShelf(
          bolt.stud.thread!,
          side * (s.x - round.along),
          item.size[0] / 2 - side * s.x,
        )
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
  }
  return { job: tightAsWallBears(now, setupId, ids), ids }
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

const isTaken = ({ pieces }: Mounted, at: { readonly along: number; readonly out: number }): boolean =>
  pieces.some(
    (p) =>
      p.item.kind === 'clamp' && Math.hypot(p.at.x - at.along, p.at.y - at.out) < VEE_BAR.width / 2 + TAKEN,
  )
