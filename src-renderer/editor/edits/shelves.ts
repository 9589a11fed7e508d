/** Angle plates and vees: put down, the part laid on them, moved to where it lies. */
import { byRule, sizeFor } from '../../../src-core/units/convert.ts'
import { polar, turnBetween, wholeTurn } from '../../../src-core/geometry/angles.ts'
import { SHELF_DENSITY, usualAnglePlates, usualVee, usualWebs } from '../../../src-core/hardware/shelves.ts'
import {
  isShelf,
  type AnglePlate,
  type Job,
  type Plate,
  type Setup,
  type Shelf,
  type Vee,
} from '../../../src-core/job/schema.ts'
import { placeShelf } from '../../../src-core/holding/placeShelf.ts'
import { flatsOf, outerRounds, type Flat } from '../../../src-core/mounting/flats.ts'
import { findSetup } from '../../../src-core/mounting/mount.ts'
import { placePoint } from '../../../src-core/mounting/place.ts'
import { anchorAt } from '../../../src-core/mounting/plateFace.ts'
import { seatShelf, shelfOfBlock } from '../../../src-core/mounting/shelf.ts'
import { webPlaces } from '../../../src-core/mounting/shelfSolids.ts'
import { stationPoint } from '../../../src-core/mounting/station.ts'
import { roundTo } from '../snap.ts'
import { editPiece, editSetup, type HardwareDraft, type Piece } from './edit.ts'
import { seatOn, usualBolt } from './fixtures.ts'

/** Facing up, its shelf a fifth of the plate's diameter below the axis. */
const FACING = 90
const BELOW = 0.2

type AngleForm = Pick<AnglePlate, 'size' | 'thickness'>
/** What it is called and made of, where that is chosen. */
type Casting = Partial<Pick<AnglePlate, 'name' | 'density'>>

/** @param form left out: the least usual one whose shelf is as long as the part's longest flat. */
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
function leastFor({ part, plate, displayUnits }: Job): AngleForm {
  const flat = flatsOf(part)[0]
  const wanted = flat?.length ?? 0
  const below = flat?.distance ?? BELOW * plate.diameter
  const all = usualAnglePlates(displayUnits)
  const fits = all.filter(({ size }) => Math.hypot(size[0] / 2, below + size[1]) <= plate.diameter / 2)
  return fits.find(({ size }) => size[0] >= wanted) ?? fits.at(-1) ?? all[0]!
}

/** An angle plate by usual sizes, with two slots that run out from the plate. */
export function usualForm(
  { size, thickness }: Pick<AnglePlate, 'size' | 'thickness'>,
  units: Job['displayUnits'],
): Omit<Piece<AnglePlate>, 'kind' | 'at' | 'facing' | 'bolts' | 'fixed'> {
  const halves = (mm: number) => (units === 'in' ? byRule(mm, units) : roundTo(mm, 0.5))
  return {
    size,
    thickness,
    webs: usualWebs(thickness),
    density: SHELF_DENSITY,
    slots: [-1, 1].map((side, i) => ({
      id: `G${i + 1}`,
      x: side * halves(size[0] / 3),
      y: halves((size[2] + thickness) / 2),
      angle: 90,
      length: byRule(0.7 * (size[2] - thickness), units),
      width: sizeFor(units, 14, 9 / 16),
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

/** mm between places that are tried, and from a bolt's middle to the foot's edge. */
const STEP = 2
const RIM = 15
/** mm by which a bolt may stand off its slot's middle: within the play of a usual stud. */
const MIDDLED = 1

type Footed =
  | Pick<AnglePlate, 'kind' | 'at' | 'facing' | 'size' | 'thickness' | 'webs'>
  | Pick<Vee, 'kind' | 'at' | 'facing' | 'size' | 'foot'>

/** mm, along `facing`, between which a foot's face is free for washers. */
const footOf = (shelf: Footed): [number, number] =>
  shelf.kind === 'anglePlate'
    ? [-shelf.size[1], -shelf.thickness]
    : [-shelf.size[1] - shelf.foot.length, -shelf.size[1]]

/** One through each half of a foot that has a slot or hole behind it, as far apart as it goes; two in the one slot there is. */
function boltsThrough(job: Job, shelf: Footed): Shelf['bolts'] {
  const foot = footOf(shelf)
  const along = shelf.size[0]
  const origin = stationPoint(job.plate, shelf.at, [])
  const found: { x: number; y: number }[] = []
  const free = (p: { x: number; y: number }) =>
    found.every((f) => Math.hypot(f.x - p.x, f.y - p.y) >= 2 * RIM)
  const tryAt = (x: number, y: number) => {
    const anchor = anchorAt(job.plate, placePoint({ turn: shelf.facing, ...origin }, { x, y }))
    const p = { x: roundTo(x, 0.01), y: roundTo(y, 0.01) }
    if (!anchor || anchor.off >= MIDDLED || !free(p)) return false
    found.push(p)
    return true
  }
  const seek = (ys: readonly number[]) =>
    ys.some((y) => {
      for (let x = foot[0] + RIM; x <= foot[1] - RIM; x += STEP) if (tryAt(x, y)) return true
      return false
    })
  const webs = shelf.kind === 'anglePlate' ? webPlaces(shelf) : []
  const beside = (y: number) => webs.every((web) => Math.abs(y - web.middle) >= web.thickness / 2 + RIM)
  const half: number[] = []
  for (let y = along / 2 - RIM; y >= 0; y -= STEP) half.push(y)
  for (const side of [-1, 1]) seek(half.map((y) => side * y).filter(beside))
  if (found.length < 2) seek([0])
  return found.map((at) => ({ at, ...usualBolt(job) }))
}

/** Puts the bolts of a foot anew through it, where slots or holes lie behind. */
export const boltsAnew = (job: Job, setupId: string, id: string): Job =>
  editPiece(job, setupId, id, (p) => {
    if (p.kind === 'anglePlate' || p.kind === 'vee')
      p.bolts = structuredClone(boltsThrough(job, p)) as typeof p.bolts
  })

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
