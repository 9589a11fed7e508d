/** Set-ups that once read go. */
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import type { Clamp, Hardware, Job } from '../../../src-core/job/schema.ts'
import { boreCut, disc, piece } from '../../helpers/jobs.ts'
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
const pad = (id: string, at: Point, height: number): Hardware =>
  piece(id, 0.05, at, { kind: 'packing', footprint: { rect: [20, 20] }, facing: 0, height })
const drill = (diameter: number) =>
  ({
    id: 'd',
    kind: 'drill',
    bore: 'A',
    diameter,
    tool: 'HSS',
    speed: 20,
    feed: 0.2,
    interrupted: false,
  }) as const
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
  ['a part 2 mm thick', () => heldBlock({ hardware: STRONG, height: 2, setup: { cuts: [boreCut('A')] } })],
  ['a drill that bends it', () => heldBlock({ hardware: STRONG, height: 6, setup: { cuts: [drill(28)] } })],
  ['loose packing too low for the part', () => and(pad('k', { x: 20, y: 38 }, 11))],
  ['loose packing beside the part', () => and(pad('k', { x: 90, y: 90 }, 12))],
  [
    'toes of a thin part over slivers of packing',
    () => {
      const job = heldBlock({ hardware: STRONG.map((c): Clamp => ({ ...c, packing: null })), height: 6 })
      // The toes end at 38; packing comes 0.5 mm under them.
      const slivers = [0, 1, 2, 3].map((i) => {
        const [x, y] = [
          [28.5, 0],
          [0, 28.5],
          [-28.5, 0],
          [0, -28.5],
        ][i]!
        return pad(`k${i}`, { x: x!, y: y! }, 12)
      })
      return { ...job, setups: job.setups.map((s) => ({ ...s, hardware: [...s.hardware, ...slivers] })) }
    },
  ],
  [
    'a bracket whose bolt stands beside it',
    () =>
      and(
        piece(
          'b1',
          0.4,
          { slot: 'S2', radius: 120 },
          {
            kind: 'bracket',
            footprint: { rect: [20, 20] },
            held: [
              { at: { x: -24, y: 0 }, stud: { thread: 'M12', class: '8.8', length: 'suit' }, torque: 45 },
            ],
          },
        ),
      ),
  ],
  ['studs too short', () => all((c) => ({ stud: { ...c.stud, length: 80 } }))],
]

test('set up as it should be it is go', () => {
  expect(new Set(effects(all(() => ({}))))).toEqual(new Set(['none']))
})

/** As near to each lie as may be, and no lie. */
const HONEST: readonly (readonly [string, () => Job])[] = [
  ['a part 10 mm thick', () => heldBlock({ hardware: STRONG, height: 10 })],
  ['packing that is bolted down', () => bolted(pad('k', { x: 0, y: 0 }, 11))],
  ['a bracket bolted through', () => bolted(piece('b1', 0.4, { x: 0, y: 0 }, { kind: 'bracket' }))],
]
/** Through a hole of the plate that is there for it. */
function bolted(h: Hardware): Job {
  const held = [{ stud: { thread: 'M12', class: '8.8', length: 'suit' as const }, torque: 45 }]
  const job = and({ ...h, at: { hole: 'Q' }, footprint: { circle: 40 }, held } as Hardware)
  return { ...job, plate: { ...job.plate, holes: [{ id: 'Q', x: 85, y: 85, diameter: 13 }] } }
}

test('packing that the others leave without load is told of', () => {
  const { findings } = analyse(and(pad('k', { x: 24, y: 0 }, 12)), 'op10')
  expect(findings.filter((f) => f.code === 'packing-unpressed').map((f) => f.item)).toEqual(['k'])
  expect(
    analyse(
      all(() => ({})),
      'op10',
    ).findings.map((f) => f.code),
  ).not.toContain('packing-unpressed')
})

test.each(HONEST)('%s is no lie', (_, job) => {
  expect(effects(job()).filter((e) => e !== 'none')).toEqual([])
})

test.each(LIES)('%s', (_, job) => {
  expect(effects(job()).some((e) => e === 'stop' || e === 'unknown')).toBe(true)
})
