/** A strap clamp as one assembly of usual proportions: strap, stud, heel, and packing under its toe. mm, N·m. */
import type { Clamp, Plate } from '../job/schema.ts'
import { findThread, usualClass, type Thread } from './threads.ts'
import { boltTorque, NUT_FACTOR, strapForce, usualTorque } from './preload.ts'
import { WEAKEST_STEEL } from './steels.ts'
import { greatestToeForce, USUAL_STRAPS, usualBar, type Strap } from './straps.ts'
import { inches } from '../units/convert.ts'
import { heelDistance } from './toe.ts'

/** What of a clamp is the same wherever it stands. */
export type ClampPattern = Omit<Clamp, 'id' | 'at' | 'facing'>

/** Clearance of a bolt hole in a strap whose thread has no usual one. Common practice, no source. */
const CLEARANCE = 2
/** Share of the usual torque that a strap clamp gets: the lever of the strap bends it. Own choice. */
const TORQUE_SHARE = 0.5
/** Share by which the pull may be above what the torque says and the strap must still not bend. */
const SCATTER = 0.3
/** mm: how long a heel, and packing under a toe, is along the strap. Common practice, no source. */
const BLOCK = { mm: 30, in: inches(5 / 4) }
const PACKING = { mm: 20, in: inches(3 / 4) }

/** A bar of this size with the usual hole for a thread. */
export function strapOf(size: Pick<Strap, 'length' | 'width' | 'thickness'>, thread: string): Strap {
  const usual = USUAL_STRAPS.find((s) => s.thread === thread)
  const found = findThread(thread)
  return usualBar(size, usual?.opening ?? (found?.diameter ?? 12) + CLEARANCE, unitsOf(found))
}

/** Those that what goes with a thread is measured in. */
const unitsOf = (thread: Thread | null | undefined): 'mm' | 'in' =>
  !thread || thread.standard === 'metric' ? 'mm' : 'in'

/**
 * A clamp by the size of its strap, with a heel to suit, a stud cut to suit and the torque that its strap bears. `packed`: the
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
  const units = unitsOf(found)
  const block = Math.min(BLOCK[units], size.width)
  const strap = strapOf(size, thread)
  const heel = { kind: 'block', size: [block, block], height: 'suit' } as const
  return {
    kind: 'clamp',
    name: `strap clamp ${thread}`,
    strap,
    stud: { thread, class: strength, length: 'suit' },
    torque: found && torque !== null ? usualStrapTorque(strap, heel, found, torque) : null,
    heel,
    ...(packed ? { packing: { size: [PACKING[units], size.width] as const } } : {}),
    fixed: true,
  }
}

/** N·m, to whole ones below: half of the usual torque, or less where the strap would bend at its bolt. */
export function usualStrapTorque(
  strap: Strap,
  heel: { readonly size: readonly [number, number] },
  thread: Thread,
  usual: number,
  yieldsAt: number = WEAKEST_STEEL.yieldsAt,
): number {
  const share = strapForce(1, strap.boltFrom, heelDistance(strap, heel))
  const bends = greatestToeForce(strap, strap.boltFrom, yieldsAt) / share / (1 + SCATTER)
  const carried = boltTorque(bends, NUT_FACTOR, thread.diameter)
  return Math.max(1, Math.floor(Math.min(usual * TORQUE_SHARE, carried)))
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
