/** A strap that presses the round in a vee at its crown, its stud in a hole of the lands and its heel on them. */
import type { Clamp, Vee } from '../job/schema.ts'
import { usualTorque } from './preload.ts'
import { strapYield } from './steels.ts'
import { findThread, usualClass } from './threads.ts'
import { usualStrapTorque } from './usualClamp.ts'

/** mm: a bar that bears more than one of mild steel, for its toe reaches far. Common practice, no source. */
const BAR = { width: 40, thickness: 25 }
const STEEL = '42CrMo4+QT'
/** mm by which the toe reaches beyond the crown, and the size of its heel. Own choice. */
const BEYOND = 6
const HEEL = { along: 25, across: 30 }
/** mm of clearance of its hole. */
const CLEARANCE = 2

/** Null where the hole has no thread that is known, or the lands no room for a heel. */
export function strapOverVee(vee: Vee, hole: Vee['holes'][number]): Omit<Clamp, 'id'> | null {
  const thread = findThread(hole.thread ?? '')
  const strength = thread && usualClass(thread)
  const usual = thread && strength ? usualTorque(thread, strength) : null
  if (!thread || usual === null) return null
  const boltFrom = Math.abs(hole.x) + BEYOND
  const room = vee.size[0] / 2 - Math.abs(hole.x) - HEEL.along / 2
  const toHeel = Math.min(1.2 * boltFrom, room)
  if (toHeel < thread.diameter + HEEL.along / 2) return null
  const strap = {
    length: Math.floor(boltFrom + toHeel + HEEL.along / 2),
    ...BAR,
    boltFrom,
    opening: thread.diameter + CLEARANCE,
    slotted: 0,
    steel: STEEL,
  }
  const heel: NonNullable<Clamp['heel']> = {
    kind: 'block',
    size: [HEEL.along, HEEL.across],
    height: 'suit',
  }
  return {
    kind: 'clamp',
    at: { on: vee.id, hole: hole.id },
    // Along the lands, toward their middle.
    facing: hole.x < 0 ? 0 : 180,
    strap,
    stud: { thread: thread.name, class: strength, length: 'suit' },
    torque: usualStrapTorque(strap, heel, thread, usual, strapYield(STEEL)),
    heel,
    fixed: true,
  }
}
