/** Set-ups that hold as a careful turner's do, to be worsened. Invented. */
import type { Clamp, Dowel, Hardware, Job, Setup, StopBlock, Weight } from '../../src-core/job/schema.ts'
import { boreCut, block, bore, jobWith, partOf } from './jobs.ts'

const stud = { thread: 'M12', class: '8.8', length: 'suit' } as const

/** A dry M12 with nut and washer. */
export const BOLTED = {
  stud,
  nut: { acrossFlats: 18, height: 10.8 },
  washer: { diameter: 24, thickness: 2.5 },
  torque: 60,
  lubricated: false,
} as const

/** A stop block that faces against x. */
export const stopBlock = (
  at: StopBlock['at'],
  size: StopBlock['size'],
  more: Partial<StopBlock>,
): StopBlock => ({
  id: 's1',
  kind: 'stop',
  at,
  facing: 180,
  size,
  stud,
  torque: 45,
  fixed: false,
  ...more,
})

/** A pin of 12. */
export const dowelPin = (at: Dowel['at'], length: number, more: Partial<Dowel>): Dowel => ({
  id: 'd1',
  kind: 'dowel',
  at,
  diameter: 12,
  length,
  fixed: false,
  ...more,
})

/** A strap whose bolt stands in a slot of the test plate, facing the axis. */
export const strapClamp = (id: string, slot: 1 | 2 | 3 | 4, more: Partial<Clamp> = {}): Clamp => ({
  id,
  kind: 'clamp',
  at: { slot: `S${slot}`, radius: 68 },
  facing: (slot * 90 + 90) % 360,
  strap: { length: 90, width: 40, thickness: 22, boltFrom: 30, opening: 14, slotted: 0, steel: 'C45' },
  stud,
  torque: 45,
  heel: { kind: 'block', size: [30, 30], height: 'suit' },
  packing: { size: [30, 30] },
  fixed: false,
  ...more,
})

/** A stack of one piece on its own stud. */
export const stackOf = (
  id: string,
  slot: 1 | 2 | 3 | 4,
  radius: number,
  more: Partial<Weight> = {},
): Weight => ({
  id,
  kind: 'weight',
  at: { slot: `S${slot}`, radius },
  stack: [{ stock: 'W1', count: 1 }],
  stud,
  torque: 40,
  fixed: false,
  ...more,
})

export const FOUR_CLAMPS: readonly Clamp[] = [
  strapClamp('c1', 1),
  strapClamp('c2', 2),
  strapClamp('c3', 3),
  strapClamp('c4', 4),
]

interface Held {
  readonly hardware?: readonly Hardware[]
  readonly height?: number
  readonly setup?: Partial<Setup>
  readonly lathe?: Partial<Job['lathe']>
}

/** A steel block of 100 by 100 by 30 on 12 mm of packing under four straps, bored on the axis at 110 rpm. */
export function heldBlock({ hardware = FOUR_CLAMPS, height = 30, setup, lathe }: Held = {}): Job {
  const job = jobWith({
    part: partOf(
      [block('body', { x: 0, y: 0 }, [100, 100, height])],
      [bore('A', { x: 0, y: 0 }, 30, { start: 20 })],
    ),
    lathe: { startTime: 2, brakeTime: 2, ...lathe },
    setup: {
      centre: { bore: 'A' },
      cuts: [boreCut('A')],
      hardware,
      ...setup,
    },
  })
  return {
    ...job,
    stock: [{ id: 'W1', mass: 0.62, count: 9, footprint: { circle: 60 }, height: 28, hole: 13 }],
  }
}
