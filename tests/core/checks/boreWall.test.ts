/** What bores leave standing round them, by hand. */
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Bore, Prism } from '../../../src-core/job/schema.ts'
import {
  block,
  bore,
  boreCut,
  disc,
  EXAMPLES,
  jobWith,
  partOf,
  SHELF_EXAMPLES,
  shelfExample,
  shippedJob,
} from '../../helpers/jobs.ts'

const O = { x: 0, y: 0 }
const boss = disc('boss', O, 80, 40)
const base = block('base', O, [200, 120, 20])
const on = disc('boss', O, 80, 40, { base: 20 })
const key = block('key', { x: 24, y: 0 }, [12, 10, 40], { effect: 'removes' })
const slit = block('slit', { x: 30, y: 0 }, [60, 6, 40], { effect: 'removes' })

const found = (bodies: readonly Prism[], hole: Bore) => {
  const job = jobWith({
    part: partOf(bodies, [hole]),
    setup: { centre: { bore: 'A' }, cuts: [boreCut('A')] },
  })
  return analyse(job, job.setups[0]!.id).findings.filter((f) => f.code === 'bore-wall')
}
const TURNING = {
  id: 't',
  kind: 'turn',
  start: 80,
  z: [20, 40] as [number, number],
  tool: 'HSS',
  speed: 20,
  feed: 0.1,
  interrupted: false,
  depth: 0.5,
} as const
const bored = (diameter: number, more: Partial<Bore> = {}) => bore('A', O, diameter, more)

test.each<[string, readonly Prism[], Bore, 'stop' | 'caution' | null]>([
  ['a boss with 4 mm of wall', [boss], bored(72), null],
  ['a bore a millimetre wider than its boss', [boss], bored(81), 'stop'],
  ['one with half a millimetre of wall all round', [boss], bored(79), 'stop'],
  ['one wider than the boss, in the base below too', [base, on], bored(90), 'caution'],
  ['a bore beside an edge, open over a quarter of its way', [base], bore('A', { x: 0, y: 45 }, 40), null],
  [
    'one that only grazes the wall of a hollow',
    [boss, disc('core', O, 60, 40, { effect: 'removes' })],
    bore('A', { x: 20, y: 0 }, 24),
    null,
  ],
  ['a hollow boss, bored away', [boss, disc('core', O, 20, 40, { effect: 'removes' })], bored(81), 'stop'],
  ['a keyway in its wall', [boss, key], bored(40), null],
  ['a starting hole that is open to a side', [boss, slit], bored(79, { start: 20 }), null],
])('%s', (_, bodies, hole, severity) => {
  expect(found(bodies, hole).map((f) => f.severity)).toEqual(severity ? [severity] : [])
})

/** Of the boss of 80 bored on the axis, its outside turned down over half its height. */
const turnedTo = (diameter: number) => {
  const job = jobWith({
    part: partOf([boss], [bored(42)]),
    setup: {
      centre: { bore: 'A' },
      cuts: [boreCut('A'), { ...TURNING, diameter }],
    },
  })
  return analyse(job, job.setups[0]!.id)
    .findings.filter((f) => f.code === 'bore-wall')
    .map((f) => f.severity)
}

test('turned outside down to its bore it has no wall there', () => {
  expect(turnedTo(60)).toEqual([])
  expect(turnedTo(44.1)).toEqual([])
  expect(turnedTo(43)).toEqual(['caution'])
})

test('a wall that is thin in one place is a caution', () => {
  const codes = (bodies: readonly Prism[], hole: Bore) => {
    const job = jobWith({
      part: partOf(bodies, [hole]),
      setup: { centre: { bore: 'A' }, cuts: [boreCut('A')] },
    })
    return analyse(job, job.setups[0]!.id).findings.flatMap((f) =>
      f.code === 'bore-wall-thin' ? [f.effect] : [],
    )
  }
  // Its side lies 21 from the axis: half a millimetre beside a bore of 41, 3 beside one of 36.
  const flat = disc('flat', { x: 56, y: 0 }, 70, 40, { effect: 'removes' })
  expect(codes([boss, flat], bored(36))).toEqual([])
  expect(codes([boss, flat], bored(41))).toEqual(['none'])
})

test('it stands in the verdict', () => {
  const job = shelfExample('bearing-block')
  const wide = (diameter: number) => ({
    ...job,
    part: { ...job.part, bores: job.part.bores.map((b) => ({ ...b, diameter })) },
  })
  expect(analyse(wide(100), job.setups[0]!.id).verdict.state).not.toBe('go')
})

test('the examples have walls', () => {
  for (const job of [...EXAMPLES.map((e) => shippedJob(e)), ...SHELF_EXAMPLES.map((e) => shelfExample(e))])
    for (const s of job.setups)
      expect(analyse(job, s.id).findings.map((f) => f.code)).not.toContain('bore-wall')
})
