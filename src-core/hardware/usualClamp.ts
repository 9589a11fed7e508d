/** A strap clamp as one assembly of usual proportions: strap, stud, heel, and packing under its toe. mm, N·m. */
import type { Clamp } from '../job/schema.ts'
import { findThread, usualClass, type Thread } from './threads.ts'
import { boltTorque, NUT_FACTOR, strapForce, usualTorque } from './preload.ts'
import { WEAKEST_STEEL } from './steels.ts'
import { greatestToeForce, USUAL_STRAPS, usualBar, type Strap } from './straps.ts'
import { byRule, inches } from '../units/convert.ts'
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

/**
 * N·m, to whole ones below: a share of the usual torque, half of it if not said, or less where the strap would bend at its
 * bolt.
 */
export function usualStrapTorque(
  strap: Strap,
  heel: { readonly size: readonly [number, number] },
  thread: Thread,
  usual: number,
  yieldsAt: number = WEAKEST_STEEL.yieldsAt,
  most: number = TORQUE_SHARE,
): number {
  const share = strapForce(1, strap.boltFrom, heelDistance(strap, heel))
  const bends = greatestToeForce(strap, strap.boltFrom, yieldsAt) / share / (1 + SCATTER)
  const carried = boltTorque(bends, NUT_FACTOR, thread.diameter)
  return Math.max(1, Math.floor(Math.min(usual * most, carried)))
}

/** Shares of its length that a strap is shortened to, and mm of room between stud and heel. Own choices. */
const SHORTER = [1, 0.8, 0.65, 0.55]
const BESIDE_STUD = 1

/**
 * A clamp as it is and then for ever less room: with its heel as near as the work is, with a shorter strap of the same bar,
 * and so on. The work gets half of the bolt's pull at the least.
 */
export function narrowClamps(pattern: ClampPattern, units: 'mm' | 'in'): ClampPattern[] {
  const { strap, heel } = pattern
  return SHORTER.flatMap((share) => {
    const bar = usualBar({ ...strap, length: byRule(share * strap.length, units) }, strap.opening, units)
    const shorter = share === 1 ? pattern : { ...pattern, strap: { ...strap, ...bar } }
    if (!heel) return [shorter]
    const stud = (findThread(pattern.stud.thread ?? '')?.diameter ?? strap.opening) / 2
    const from = byRule(Math.max(shorter.strap.boltFrom, stud + heel.size[0] / 2) + BESIDE_STUD, units)
    return from < heelDistance(shorter.strap, heel)
      ? [shorter, { ...shorter, heel: { ...heel, from } }]
      : [shorter]
  })
}

/** What of a plate or a shelf studs go through. */
export interface Openings {
  readonly slots: readonly { readonly width: number }[]
  readonly holes: readonly { readonly diameter: number }[]
}

/** The largest usual stud that goes through the plate's narrowest slot, or hole, and through a hole; null where none does. */
export function studFor(plate: Openings, units: 'mm' | 'in', hole: number | null = null): Thread | null {
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
export function usualStrapFor(plate: Openings, units: 'mm' | 'in'): number {
  const thread = studFor(plate, units)
  return Math.max(
    0,
    USUAL_STRAPS.findIndex((s) => s.thread === thread?.name),
  )
}
