/** A block on two bolts beside the axis, and another alike opposite. Invented. */
import { circleRing } from '../../src-core/geometry/edges.ts'
import type { Hardware, Job, Setup, Twin } from '../../src-core/job/schema.ts'
import { BOLTED } from './heldJobs.ts'
import { block, bore, boreCut, jobWith, partOf } from './jobs.ts'
import { hole } from './turnersShop.ts'

export const OUT = 70
const ENDS = [-32, 32] as const

export const TWIN: Twin = {
  id: 'T1',
  kind: 'twin',
  at: { x: -OUT, y: 0 },
  facing: 180,
  raised: 0,
  bolts: ENDS.map((y) => ({ at: { x: 0, y }, ...BOLTED })),
  fixed: true,
}

export const PART_BOLTS: readonly Hardware[] = ENDS.map((y, i) => ({
  id: `b${i + 1}`,
  kind: 'bolt',
  throughPart: { x: 0, y },
  ...BOLTED,
  fixed: true,
}))

/** Steel, 60 by 100 by 30, with a pocket of 20 by 20 by 10 off its middle and a bore that an earlier setup may have cut. */
export function twinJob(
  twin: Partial<Twin> | null = {},
  more: readonly Hardware[] = [],
  setup: Partial<Setup> = {},
  bored = false,
): Job {
  const hardware = [...PART_BOLTS, ...(twin ? [{ ...TWIN, ...twin }] : []), ...more]
  const opposite = { centre: { x: -OUT, y: 0 }, packing: 0, speed: 110, cuts: [], hardware, ...setup }
  return jobWith({
    lathe: { startTime: 2, brakeTime: 2 },
    plate: {
      slots: [],
      holes: ENDS.flatMap((y, i) => [
        hole(`P${i + 1}`, { x: OUT, y }, 13),
        hole(`T${i + 1}`, { x: -OUT, y }, 13),
      ]),
    },
    part: partOf(
      [
        block('body', { x: 0, y: 0 }, [60, 100, 30], {
          holes: ENDS.map((y) => circleRing({ x: 0, y }, 14)),
        }),
        block('pocket', { x: 17, y: 5 }, [20, 20, 10], { base: 20, effect: 'removes' }),
      ],
      [bore('A', { x: -12, y: 0 }, 20, { start: 10 })],
    ),
    setups: bored ? [{ centre: { bore: 'A' }, cuts: [boreCut('A')] }, opposite] : [opposite],
  })
}
