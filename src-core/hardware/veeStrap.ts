/** A strap that presses the round in a vee at its crown, its stud in the vee's lands or in the shelf below a loose block. */
import type { Clamp, Vee } from '../job/schema.ts'
import { usualTorque } from './preload.ts'
import { strapYield } from './steels.ts'
import { findThread, usualClass, type Thread } from './threads.ts'
import { usualStrapTorque } from './usualClamp.ts'

/** mm: a bar that bears more than one of mild steel, for its toe reaches far. Common practice, no source. */
export const VEE_BAR = { width: 40, thickness: 25 }
const STEEL = '42CrMo4+QT'
/** mm by which the toe reaches beyond the crown, and the size of its heel. Own choice. */
const BEYOND = 6
const HEEL = { along: 25, across: 30 }
/** mm: a heel that is as high as a block with a round in it stands on more. Own choice. */
const HIGH_HEEL = { along: 32, across: 50 }
/** mm between a loose block and the stud's slot beside it. Own choice. */
const BESIDE = 2
/** mm of clearance of its hole. */
const CLEARANCE = 2

/** What of a strap over a vee hangs on its lever alone. */
type StrapOver = Omit<Clamp, 'id' | 'at' | 'facing'>

/** Null where the hole has no thread that is known, or the lands no room for a heel. */
export function strapOverVee(vee: Vee, hole: Vee['holes'][number]): Omit<Clamp, 'id'> | null {
  const strap = strapOver(hole.thread ?? '', Math.abs(hole.x), vee.size[0] / 2 - Math.abs(hole.x), HEEL)
  // Along the lands, toward their middle.
  return strap && { at: { on: vee.id, hole: hole.id }, facing: hole.x < 0 ? 0 : 180, ...strap }
}

/**
 * From the shelf below a loose block. @param reach mm from stud to crown. @param room mm from stud to the shelf's end.
 * Null where the thread is not known or there is no room for a heel.
 */
export const strapFromShelf = (thread: string, reach: number, room: number): StrapOver | null =>
  strapOver(thread, reach, room, HIGH_HEEL, 1)

/** Whether a slot of the shelf that runs out from the plate lies beside a loose block. @param off mm from its middle to the block's. */
export const isBesideBlock = (off: number, across: number, width: number): boolean =>
  Math.abs(off) > across / 2 + width / 2 + BESIDE

/** mm: how a shelf has room for a strap from each side over the round in a loose block, in its middle. */
export interface RoomBeside {
  /** From the block's middle to that of the nearest slot. */
  readonly slot: number
  /** Along the shelf: where the heels just have room, and where they stand as far from their studs as the toes reach. */
  readonly least: number
  readonly even: number
}

/** @param across the block. @param width of the slots that the studs stand in. */
export function roomBeside(
  across: number,
  width: number,
  { diameter }: Pick<Thread, 'diameter'>,
): RoomBeside {
  const slot = (Math.floor(across + width + 2 * BESIDE) + 1) / 2
  return {
    slot,
    least: 2 * (slot + diameter + HIGH_HEEL.along),
    even: 2 * (2 * slot + BEYOND + HIGH_HEEL.along / 2),
  }
}

/** @param most share of the usual torque; of it hangs all that a loose block is held by. */
function strapOver(
  name: string,
  reach: number,
  room: number,
  foot: typeof HEEL,
  most?: number,
): StrapOver | null {
  const thread = findThread(name)
  const strength = thread && usualClass(thread)
  const usual = thread && strength ? usualTorque(thread, strength) : null
  if (!thread || usual === null) return null
  const boltFrom = reach + BEYOND
  const toHeel = Math.min(1.2 * boltFrom, room - foot.along / 2)
  if (toHeel < thread.diameter + foot.along / 2) return null
  const strap = {
    length: Math.floor(boltFrom + toHeel + foot.along / 2),
    ...VEE_BAR,
    boltFrom,
    opening: thread.diameter + CLEARANCE,
    slotted: 0,
    steel: STEEL,
  }
  const heel: NonNullable<Clamp['heel']> = { kind: 'block', size: [foot.along, foot.across], height: 'suit' }
  return {
    kind: 'clamp',
    strap,
    stud: { thread: thread.name, class: strength, length: 'suit' },
    torque: usualStrapTorque(strap, heel, thread, usual, strapYield(STEEL), most),
    heel,
    fixed: true,
  }
}
