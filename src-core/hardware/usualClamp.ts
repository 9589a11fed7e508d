/** A strap clamp as one assembly of usual proportions: strap, stud, heel, and packing under its toe. mm, N·m. */
import type { Clamp, Plate } from '../job/schema.ts'
import { findThread, usualClass, type Thread } from './threads.ts'
import { usualTorque } from './preload.ts'
import { USUAL_STRAPS, usualBoltFrom, type Strap } from './straps.ts'

/** What of a clamp is the same wherever it stands. */
export type ClampPattern = Omit<Clamp, 'id' | 'at' | 'facing'>

/** Clearance of a bolt hole in a strap whose thread has no usual one. Common practice, no source. */
const CLEARANCE = 2
/** Share of the usual torque that a strap clamp gets: the lever of the strap bends it. Own choice. */
const TORQUE_SHARE = 0.5
/** How long a heel, and packing under a toe, is along the strap. Common practice, no source. */
const BLOCK = 30
const PACKING = 20

/** A bar of this size with the usual hole for a thread, its bolt a third of the way from work to heel. */
export function strapOf(
  { length, width, thickness }: Pick<Strap, 'length' | 'width' | 'thickness'>,
  thread: string,
): Strap {
  const usual = USUAL_STRAPS.find((s) => s.thread === thread)
  const opening = usual?.opening ?? (findThread(thread)?.diameter ?? 12) + CLEARANCE
  const slotted = 2 * Math.round(length / 10)
  return { length, width, thickness, boltFrom: usualBoltFrom(length), opening, slotted }
}

/**
 * A clamp by the size of its strap, with a heel to suit, a stud cut to suit and half of the usual torque. `packed`: the
 * part stands off the plate, so there is packing under the toe.
 */
export function usualClamp(
  size: Pick<Strap, 'length' | 'width' | 'thickness'>,
  thread: string,
  packed: boolean,
): ClampPattern {
  const found = findThread(thread)
  const strength = found ? usualClass(found) : null
  const torque = found && strength ? usualTorque(found, strength) : null
  const block = Math.min(BLOCK, size.width)
  return {
    kind: 'clamp',
    name: `strap clamp ${thread}`,
    strap: strapOf(size, thread),
    stud: { thread, class: strength, length: 'suit' },
    torque: torque === null ? null : Number((torque * TORQUE_SHARE).toPrecision(2)),
    heel: { kind: 'block', size: [block, block], height: 'suit' },
    ...(packed ? { packing: { size: [PACKING, size.width] as const } } : {}),
    fixed: true,
  }
}

/** The largest usual stud that goes through the plate's narrowest slot, or hole, and through a hole; null where none does. */
export function studFor(
  plate: Pick<Plate, 'slots' | 'holes'>,
  units: 'mm' | 'in',
  hole: number | null = null,
): Thread | null {
  const widths = plate.slots.length > 0 ? plate.slots.map((s) => s.width) : plate.holes.map((h) => h.diameter)
  const narrowest = Math.min(...widths, hole ?? Infinity)
  const standard = units === 'mm' ? 'metric' : 'unified'
  return USUAL_STRAPS.map((s) => findThread(s.thread)).reduce<Thread | null>(
    (best, t) =>
      t && t.standard === standard && t.diameter <= narrowest && t.diameter > (best?.diameter ?? 0)
        ? t
        : best,
    null,
  )
}

/** Place among the usual straps of the first for a plate's usual stud; 0 where no stud suits. */
export function usualStrapFor(plate: Pick<Plate, 'slots' | 'holes'>, units: 'mm' | 'in'): number {
  const thread = studFor(plate, units)
  return Math.max(
    0,
    USUAL_STRAPS.findIndex((s) => s.thread === thread?.name),
  )
}
