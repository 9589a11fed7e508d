/** Set-ups that once read go. */
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Clamp, Hardware, Job } from '../../../src-core/job/schema.ts'
import { disc, piece } from '../../helpers/jobs.ts'
import { FOUR_CLAMPS, heldBlock } from '../../helpers/heldJobs.ts'

/** Of its findings, standing still. */
const effects = (job: Job) =>
  analyse(job, 'op10')
    .findings.filter((f) => f.fromRpm === 0)
    .map((f) => f.effect)
/** Straps that their torque does not bend. */
const STRONG = FOUR_CLAMPS.map((c): Clamp => ({ ...c, strap: { ...c.strap, steel: '42CrMo4+QT' } }))
const all = (change: (c: Clamp) => Partial<Clamp>): Job =>
  heldBlock({ hardware: STRONG.map((c): Clamp => ({ ...c, ...change(c) })) })
const and = (...more: Hardware[]): Job => heldBlock({ hardware: [...STRONG, ...more] })
const press = (c: Clamp, more: object, base = 42): Hardware => ({
  id: c.id,
  kind: 'press',
  mass: 0.5,
  at: c.at,
  facing: c.facing,
  footprint: { rect: [80, 28] },
  base,
  height: 30,
  fixed: true,
  press: { thread: 'M12', class: '8.8', torque: 45, boltToWork: 30, boltToHeel: 45, ...more },
})
const presses = (more: object, base?: number): Job =>
  heldBlock({ hardware: FOUR_CLAMPS.map((c) => press(c, more, base)) })

const LIES: readonly (readonly [string, () => Job])[] = [
  ['a part that no clamp holds', () => heldBlock({ hardware: [] })],
  ['no torque given', () => all(() => ({ torque: null }))],
  ['straps beside the part', () => all((c) => ({ at: { ...c.at, radius: 110 } as Clamp['at'] }))],
  ['straps half a metre off the plate', () => all(() => ({ at: { x: 500, y: 0 } }))],
  [
    'straps over an open bore',
    () => {
      const job = all(() => ({}))
      const holes = FOUR_CLAMPS.map(
        (_, i) =>
          disc('', { x: 42 * Math.cos((i * Math.PI) / 2), y: 42 * Math.sin((i * Math.PI) / 2) }, 9, 1)
            .outline,
      )
      return {
        ...job,
        part: { ...job.part, bodies: [{ ...job.part.bodies[0]!, holes } as Job['part']['bodies'][0]] },
      }
    },
  ],
  ['heels 20 mm too high', () => all((c) => ({ heel: { ...c.heel!, height: 62 } }))],
  ['a lever typed short', () => presses({ boltToWork: 6 })],
  ['typed clamps that press beside the part', () => presses({ nose: { x: 0, y: 80 } })],
  ['typed clamps that hang 20 mm above it', () => presses({ nose: { x: 0, y: 45 } }, 62)],
  ['M20 studs in slots of 14', () => all((c) => ({ stud: { ...c.stud, thread: 'M20' } }))],
  [
    'packing too low',
    () => {
      const job = all(() => ({ packing: null }))
      const low = piece(
        'k',
        0.1,
        { x: 45, y: 0 },
        { kind: 'packing', footprint: { rect: [20, 40] }, height: 11 },
      )
      return { ...job, setups: [{ ...job.setups[0]!, hardware: [...job.setups[0]!.hardware, low] }] }
    },
  ],
  ['packing elsewhere', () => all((c) => ({ packing: null, id: c.id }))],
  ['a weight through solid plate', () => and(piece('w', 0.3, { x: 85, y: 85 }))],
  ['studs too short', () => all((c) => ({ stud: { ...c.stud, length: 80 } }))],
]

test('set up as it should be it is go', () => {
  expect(new Set(effects(all(() => ({}))))).toEqual(new Set(['none']))
})

test.each(LIES)('%s', (_, job) => {
  expect(effects(job()).some((e) => e === 'stop' || e === 'unknown')).toBe(true)
})
