/** Angle plates and vees: put down, the part laid on them, moved to where it lies. */
import { byRule, sizeFor } from '../../../src-core/units/convert.ts'
import { polar, turnBetween, wholeTurn } from '../../../src-core/geometry/angles.ts'
import {
  SHELF_DENSITY,
  usualAnglePlates,
  usualVee,
  usualVeeBlock,
  usualWebs,
} from '../../../src-core/hardware/shelves.ts'
import { studFor } from '../../../src-core/hardware/usualClamp.ts'
import { roomBeside } from '../../../src-core/hardware/veeStrap.ts'
import {
  isShelf,
  type AnglePlate,
  type Job,
  type Plate,
  type Setup,
  type Vee,
} from '../../../src-core/job/schema.ts'
import { placeShelf } from '../../../src-core/holding/placeShelf.ts'
import { flatsOf, outerRounds, type Flat, type Round } from '../../../src-core/mounting/flats.ts'
import { middleOverLands } from '../../../src-core/mounting/inVee.ts'
import { findSetup } from '../../../src-core/mounting/mount.ts'
import { seatShelf, shelfOfBlock } from '../../../src-core/mounting/shelf.ts'
import { roundTo } from '../snap.ts'
import { editPiece, editSetup, type HardwareDraft, type Piece } from './edit.ts'
import { seatOn } from './fixtures.ts'
import { boltsAnew, boltsThrough, washerOf } from './shelfBolts.ts'

/** Facing up, its shelf a fifth of the plate's diameter below the axis. */
const FACING = 90
const BELOW = 0.2

/** `apart`: mm from the middle of its shelf to each of its slots; left out: a third of its length, or clear of its webs. */
type AngleForm = Pick<AnglePlate, 'size' | 'thickness'> & { readonly apart?: number }
/** What it is called and made of, where that is chosen. */
type Casting = Partial<Pick<AnglePlate, 'name' | 'density'>>

/** @param form left out: the least usual one whose shelf is as long as the part's longest flat, or that takes a vee block for its round. */
export function newAnglePlate(
  job: Job,
  form: AngleForm = leastFor(job),
  casting: Casting = {},
): Piece<AnglePlate> {
  const made = {
    kind: 'anglePlate' as const,
    at: standAt(job.plate),
    facing: FACING,
    ...usualForm(form, job.displayUnits),
    ...casting,
    fixed: true,
  }
  return { ...made, bolts: boltsThrough(job, made) }
}

/** Of those whose foot would stay on the plate. */
function leastFor(job: Job): AngleForm {
  const { part, plate, displayUnits } = job
  const flat = flatsOf(part)[0]
  const round = outerRounds(part)[0]
  const forBlock = !flat && round ? leastForBlock(job, round) : null
  if (forBlock) return forBlock
  const wanted = flat?.length ?? 0
  const below = flat?.distance ?? BELOW * plate.diameter
  const all = usualAnglePlates(displayUnits)
  const fits = all.filter(({ size }) => Math.hypot(size[0] / 2, below + size[1]) <= plate.diameter / 2)
  return fits.find(({ size }) => size[0] >= wanted) ?? fits.at(-1) ?? all[0]!
}

/** Under a vee block for a part without flats: as far along as even straps from both sides want it, and the plate has room for. */
function leastForBlock({ part, plate, displayUnits }: Job, { diameter, centre }: Round): AngleForm | null {
  const block = usualVeeBlock(diameter, displayUnits)
  const below = block.size[1] + middleOverLands(block, diameter)
  const [bore] = part.bores
  const off = bore ? Math.hypot(bore.x - centre.x, bore.y - centre.y) : 0
  const width = slotWidth(displayUnits)
  const thread = studFor({ slots: [{ width }], holes: [] }, displayUnits)
  if (!thread) return null
  const { slot, least, even } = roomBeside(block.size[0], width, thread)
  for (const { size, thickness } of usualAnglePlates(displayUnits)) {
    if (size[2] < block.size[2]) continue
    const most = 2 * (Math.sqrt(Math.max(0, (plate.diameter / 2) ** 2 - (below + size[1]) ** 2)) - off)
    // A rule's step less: rounded it stays on the plate.
    const along = Math.max(size[0], byRule(Math.min(even, most) - STEP_DOWN, displayUnits))
    const apart = displayUnits === 'in' ? byRule(slot + STEP_DOWN, displayUnits) : slot
    if (along >= least + 2 * (apart - slot) && along <= most)
      return { size: [along, size[1], size[2]], thickness, apart }
  }
  return null
}

/** mm: more than half a sixteenth of an inch, and than half a millimetre. */
const STEP_DOWN = 0.79

const slotWidth = (units: Job['displayUnits']): number => sizeFor(units, 14, 9 / 16)

/** An angle plate by usual sizes, with two slots that run out from the plate. */
export function usualForm(
  { size, thickness, apart }: AngleForm,
  units: Job['displayUnits'],
): Omit<Piece<AnglePlate>, 'kind' | 'at' | 'facing' | 'bolts' | 'fixed'> {
  const halves = (mm: number) => (units === 'in' ? byRule(mm, units) : roundTo(mm, 0.5))
  // Below the shelf a washer has room beside the web at its end.
  const thread = studFor({ slots: [{ width: slotWidth(units) }], holes: [] }, units)
  const most = size[0] / 2 - thickness - washerOf(thread?.name ?? null) / 2
  const third = Math.min(halves(size[0] / 3), halves(most - (units === 'in' ? STEP_DOWN : 0.25)))
  return {
    size,
    thickness,
    webs: usualWebs(thickness),
    density: SHELF_DENSITY,
    slots: [-1, 1].map((side, i) => ({
      id: `G${i + 1}`,
      x: side * (apart ?? third),
      y: halves((size[2] + thickness) / 2),
      angle: 90,
      length: byRule(0.7 * (size[2] - thickness), units),
      width: slotWidth(units),
    })),
    holes: [],
  }
}

/** @param round mm that it is to take; left out: the part's largest, or up to a quarter of the plate. */
export function newVee(
  job: Job,
  round = Math.min(outerRounds(job.part)[0]?.diameter ?? Infinity, job.plate.diameter / 4),
  casting: Casting = {},
): Piece<Vee> {
  const made = {
    kind: 'vee' as const,
    at: standAt(job.plate),
    facing: FACING,
    ...usualVee(round, job.displayUnits),
    density: SHELF_DENSITY,
    ...casting,
    fixed: true,
  }
  return { ...made, bolts: boltsThrough(job, made) }
}

const standAt = (plate: Plate) => {
  const { x, y } = polar(BELOW * plate.diameter, FACING + 180)
  return { x: roundTo(x, 0.01), y: roundTo(y, 0.01) }
}

/** A vee that is taken from the plate to a shelf stands there on its back, without foot and bolts for the plate. */
export function withoutFoot(vee: Extract<HardwareDraft, { kind: 'vee' }>): void {
  vee.foot.length = 0
  vee.bolts = []
}

/** Lays a flat of the part on its shelf: the part is turned until that looks against the shelf. */
export const layFlat = (job: Job, setupId: string, { direction }: Pick<Flat, 'direction'>): Job => {
  const shelf = seatShelf(findSetup(job, setupId))
  if (!shelf) return job
  const turned = editSetup(job, setupId, (s) => {
    s.turn = roundTo(wholeTurn(shelf.facing + 180 - direction), 1e-6)
  })
  return moveToPlace(turned, setupId)
}

/** The flat that looks against the shelf; null where none does. */
export const flatLaid = (job: Job, setup: Setup): Flat | null => {
  const shelf = seatShelf(setup)
  if (!shelf) return null
  const against = shelf.facing + 180 - setup.turn
  return flatsOf(job.part).find((f) => Math.abs(turnBetween(f.direction, against)) < 0.01) ?? null
}

/** Moves the angle plate or vee to where the part lies on it; unchanged where it could lie nowhere. */
export const moveToPlace = (job: Job, setupId: string): Job => placeShelf(job, setupId)?.job ?? job

/** mm from the plate to the part's back: room for a hand, and for the bore to come through. */
const standOff = (units: Job['displayUnits']): number => sizeFor(units, 10, 3 / 8)

/** Puts the part on the piece `id`, a sub-plate or a shelf; with null on the plate. */
export function standOn(job: Job, setupId: string, id: string | null): Job {
  const piece = findSetup(job, setupId).hardware.find((h) => h.id === id)
  return piece && isShelf(piece) ? seatOnShelf(job, setupId, piece.id) : seatOn(job, setupId, id)
}

/** Seats the part on an angle plate by its longest flat or in a vee by its largest round, and moves that there. */
export function seatOnShelf(job: Job, setupId: string, id: string): Job {
  const seated = editSetup(seatOn(job, setupId, id), setupId, (s) => {
    if (!s.seat) return
    s.seat.standOff = standOff(job.displayUnits)
    s.packing = 0
    const round = outerRounds(job.part)[0]
    if (s.hardware.some((h) => h.id === id && h.kind === 'vee') && round)
      s.seat.diameter = roundTo(round.diameter, 0.001)
  })
  const shelf = seatShelf(findSetup(seated, setupId))
  const flat = flatLaid(seated, findSetup(seated, setupId)) ?? flatsOf(job.part)[0]
  const laid =
    shelf?.kind === 'anglePlate' && flat ? layFlat(seated, setupId, flat) : moveToPlace(seated, setupId)
  // Under a loose block it is the angle plate that moved.
  const moved = seatShelf(findSetup(laid, setupId))
  const under = moved && shelfOfBlock(findSetup(laid, setupId).hardware, moved)
  return boltsAnew(laid, setupId, under?.id ?? id)
}

/** An angle plate or vee just copied in from the library, which knows no place: stood as a new one, with bolts of its own. */
export function standCopied(job: Job, setupId: string): Job {
  const item = findSetup(job, setupId).hardware.at(-1)
  if (!item || !isShelf(item)) return job
  const { id } = item
  const stood = editPiece(job, setupId, id, (p) => {
    if (p.kind === 'anglePlate' || p.kind === 'vee')
      Object.assign(p, { at: standAt(job.plate), facing: FACING, fixed: true })
  })
  return findSetup(job, setupId).seat ? boltsAnew(stood, setupId, id) : seatOnShelf(stood, setupId, id)
}
