/** Stops and dowels on the shelf that carries the part: they count as on the plate, and never where nothing is. By hand. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { capacityAt } from '../../../src-core/holding/backing.ts'
import { backingsOf } from '../../../src-core/holding/backings.ts'
import { isMaterial } from '../../../src-core/holding/trueSide.ts'
import type { AnglePlate, Dowel, Hardware, Job, Prism, StopBlock } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { assemble } from '../../../src-core/unbalance/assembly.ts'
import { uncertaintiesOf } from '../../../src-core/doubt/defaults.ts'
import { polar } from '../../../src-core/geometry/angles.ts'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import { dowelPin, stopBlock } from '../../helpers/heldJobs.ts'
import { expectNear } from '../../helpers/near.ts'
import {
  ANGLE_PLATE,
  BEARING_BLOCK,
  bearingBlock,
  castingInVee,
  CENTRE_HEIGHT,
} from '../../helpers/shelfJobs.ts'

/** As that of the bearing block, 260 along, with a slot beside the base's end and a hole for a pin. */
const WIDE: AnglePlate = {
  ...ANGLE_PLATE,
  size: [260, 100, 125],
  slots: [...ANGLE_PLATE.slots, { id: 'G3', x: 100, y: 65, angle: 90, length: 90, width: 13 }],
  holes: [
    { id: 'P', x: -81, y: 54, diameter: 12 },
    { id: 'Q', x: 0, y: 84, diameter: 12 },
  ],
}

/** Hard against the base's end, 75 along; that reaches from 14 to 94 out from the plate. */
const stop = (more: Partial<StopBlock> = {}) =>
  stopBlock({ on: 'A1', along: 100, out: 54 }, [50, 24, 18], more)
const dowel = (more: Partial<Dowel> = {}) => dowelPin({ on: 'A1', hole: 'P' }, 15, more)

/** Nothing is bored; the base's bolts are light, so that the part slides first. */
function jobOf(hardware: readonly Hardware[], bodies: readonly Prism[] = BEARING_BLOCK): Job {
  const job = bearingBlock(hardware, { cuts: [], speed: 110, frictionCoefficient: 0.1 })
  return {
    ...job,
    part: { ...job.part, bodies: bodies as Job['part']['bodies'] },
    setups: job.setups.map((s) => ({
      ...s,
      hardware: s.hardware.map((h) => (h.id === 'A1' ? WIDE : h.kind === 'bolt' ? { ...h, torque: 12 } : h)),
    })),
  }
}

const of = (job: Job) => analyse(job, 'op10')
const note = (job: Job, code: string) => of(job).findings.filter((f) => f.code === code)
const part = (job: Job) => of(job).joints.find((j) => j.id === 'part')!
const capacity = (job: Job, rpm: number) => {
  const mounted = mountSetup(job, 'op10')
  const [backed] = backingsOf(mounted, assemble(mounted, uncertaintiesOf(job)).pieces)
  return backed?.backing ? capacityAt(backed.backing, rpm) : 0
}

describe('a stop on the shelf, hard against the base', () => {
  const job = jobOf([stop()])

  test('is counted, and says which way it holds', () => {
    expect(note(job, 'stop-not-counted')).toEqual([])
    // Looked at against the shelf's normal, along it goes to the left.
    expect(note(job, 'stop-bears')[0]!.message).toMatch(
      /^Stop s1 keeps the part from sliding towards 9 o'clock/,
    )
  })

  test('bears what its own friction leaves when its own weight counts double', () => {
    const grip = 0.1 * (45_000 / (0.2 * 12)) * 0.75
    const mass = of(job).terms.find((t) => t.item === 's1')!.mass_kg
    // At rest, weight pulls across the shelf or off it by turns.
    expect(capacity(job, 0)).toBeLessThan(grip)
    expect(capacity(job, 0)).toBeGreaterThan(grip * 0.75 - 2 * mass * 9.80665 * 1.1)
  })

  test('the part slides less easily, and no less easily than without it', () => {
    const without = part(jobOf([]))
    expect(part(job).sliding!).toBeGreaterThan(without.sliding! * (1 - 3e-3))
    // One from either side, so that whichever way it slides along one is in its way.
    const both = jobOf([stop(), stop({ id: 's2', at: { on: 'A1', along: -100, out: 54 }, facing: 0 })])
    const slotted = withShelf(both, {
      slots: [...WIDE.slots, { id: 'G4', x: -100, y: 65, angle: 90, length: 90, width: 13 }],
    })
    expect(note(slotted, 'stop-bears')).toHaveLength(2)
    expect(part(slotted).factor!).toBeGreaterThanOrEqual(part(job).factor! * (1 - 3e-3))
    expect(of(slotted).verdict.state).toBe(of(jobOf([])).verdict.state)
  })

  test('towards the plate it says so', () => {
    const before = stop({ at: { on: 'A1', along: 0, out: 119 }, facing: 270, size: [50, 24, 18] })
    const slot = { id: 'G5', x: 0, y: 112, angle: 90, length: 26, width: 13 }
    const held = withShelf(jobOf([before]), { slots: [...WIDE.slots, slot] })
    expect(note(held, 'stop-bears')[0]!.message).toContain('out from the plate')
  })
})

const withShelf = (job: Job, more: Partial<AnglePlate>): Job => ({
  ...job,
  setups: job.setups.map((s) => ({
    ...s,
    hardware: s.hardware.map((h) => (h.kind === 'anglePlate' ? { ...h, ...more } : h)),
  })),
})

test('turned about the axis with plate, fixture and part a stop bears as much', () => {
  const turn = 41
  const job = jobOf([stop()])
  const turned: Job = {
    ...job,
    plate: { ...job.plate, slots: job.plate.slots.map((s) => ({ ...s, angle: s.angle + turn })) },
    setups: job.setups.map((s) => ({
      ...s,
      turn,
      hardware: s.hardware.map((h): Hardware => {
        if (h.kind !== 'anglePlate') return h
        return { ...h, at: polar(CENTRE_HEIGHT, 270 + turn), facing: h.facing + turn }
      }),
    })),
  }
  expect(note(turned, 'stop-not-counted')).toEqual([])
  expect(capacity(job, 110)).toBeGreaterThan(0)
  expectNear(capacity(turned, 110), capacity(job, 110), { rel: 5e-3 })
})

describe('a dowel on the shelf', () => {
  test('against the base’s end: one way, up to what bends and shears it', () => {
    const job = jobOf([dowel()])
    expect(note(job, 'stop-bears')[0]!.message).toContain('towards 3 o')
    // 12 mm of the weakest steel, 225 N/mm², the push up to 15 over the shelf: its middle 7.5. Z 169.6 mm³, A 113.1 mm².
    const bears = 225 / Math.hypot(7.5 / 169.646, Math.sqrt(3) / 113.097)
    expect(capacity(job, 0)).toBeLessThan(bears)
    expectNear(capacity(job, 0), bears, { rel: 5e-3 })
  })
  test('in a hole of the base: whichever way', () => {
    const [base, ...rest] = BEARING_BLOCK
    // Seen along the shelf's normal the hole lies at 0, 70 from the part's back.
    const holed = { ...base!, holes: [...base!.holes, circleRing({ x: 0, y: 70 }, 12.1)] }
    const job = jobOf([dowel({ at: { on: 'A1', hole: 'Q' } })], [holed, ...rest])
    expect(note(job, 'stop-bears')[0]!.message).toContain('whichever way')
    const loose = { ...base!, holes: [...base!.holes, circleRing({ x: 0, y: 70 }, 14)] }
    const not = jobOf([dowel({ at: { on: 'A1', hole: 'Q' } })], [loose, ...rest])
    expect(note(not, 'stop-not-counted')).toHaveLength(1)
    expect(part(not).factor).toBe(part(jobOf([], [loose, ...rest])).factor)
  })
  test('without a hole of the shelf for it: nothing', () => {
    const job = jobOf([dowel({ at: { on: 'A1', along: -81, out: 30 } })])
    expect(note(job, 'stop-not-counted')[0]!.message).toContain(
      'has no hole of the shelf of A1 that takes it',
    )
  })
})

/** A block of 150 along with other ends, drawn upright, so that from the shelf they are seen as stairs. */
const endedBy = (ends: readonly { x: number; y: number; bulge?: number }[]): Prism[] => [
  { id: 'block', effect: 'adds', base: 0, thickness: 80, holes: [], outline: [...ends] } as unknown as Prism,
]
const low = -CENTRE_HEIGHT
const top = low + 40

describe('counts nothing, and says so', () => {
  const square = endedBy([
    { x: -75, y: low },
    { x: 75, y: low },
    { x: 75, y: top },
    { x: -75, y: top },
  ])
  // Along the shelf x runs to the left, so its end at 75 along is the one at −75.
  const cases: readonly (readonly [string, Job, RegExp | null])[] = [
    ['a square end is met', jobOf([stop()], square), null],
    ['3 mm off', jobOf([stop({ at: { on: 'A1', along: 103, out: 54 } })]), /stands 3(\.0)? mm off the part/],
    [
      'on the plate',
      jobOf([stop({ at: { x: 100, y: -54 } })]),
      /does not stand on the shelf of A1, which carries/,
    ],
    ['facing away', jobOf([stop({ facing: 0 })]), /faces no edge of the part/],
    ['its torque not given', jobOf([stop({ torque: null })]), /not held for certain/],
    ['through solid shelf', jobOf([stop({ at: { on: 'A1', along: 100, out: 8 } })]), /./],
    [
      'an end that leans back, at its foot',
      jobOf(
        [stop()],
        endedBy([
          { x: -75, y: low },
          { x: 75, y: low },
          { x: 75, y: top },
          { x: -60, y: top },
        ]),
      ),
      /./,
    ],
    [
      'an end that leans out, at its foot',
      jobOf(
        [stop()],
        endedBy([
          { x: -75, y: low },
          { x: 75, y: low },
          { x: 75, y: top },
          { x: -90, y: top },
        ]),
      ),
      /no side of the part that stands square/,
    ],
    [
      'a round end, where it is outermost',
      jobOf(
        [stop({ size: [50, 24, 30] })],
        endedBy([
          { x: -55, y: low },
          { x: 75, y: low },
          { x: 75, y: top },
          { x: -55, y: top, bulge: 1 },
        ]),
      ),
      /./,
    ],
    [
      'in a vee',
      castingInVee([stop({ at: { on: 'V1', along: 100, out: 54 } })], { cuts: [], speed: 110 }),
      /where the part lies in a vee/,
    ],
  ]
  test.each(cases)('%s', (_, job, words) => {
    const notes = note(job, 'stop-not-counted')
    if (!words) return expect(notes).toEqual([])
    expect(notes.map((f) => f.message).join()).toMatch(words)
    expect(note(job, 'stop-bears')).toEqual([])
    const bare = {
      ...job,
      setups: job.setups.map((s) => ({ ...s, hardware: s.hardware.filter((h) => h.kind !== 'stop') })),
    }
    expectNear(part(job).factor!, part(bare).factor!, { rel: 1e-9 })
  })
})

test('whether a place is in the part: upright, across, in a hole, in a bore', () => {
  const mounted = mountSetup(bearingBlock(), 'op10')
  const at = (x: number, y: number, z: number) => isMaterial(mounted, { x, y, z })
  expect(at(0, -60, 14 + 40)).toBe(true)
  expect(at(74.9, -60, 14 + 40)).toBe(true)
  expect(at(75.1, -60, 14 + 40)).toBe(false)
  expect(at(56, -60, 14 + 40)).toBe(false)
  expect(at(0, 30, 14 + 40)).toBe(true)
  expect(at(0, 10, 14 + 40)).toBe(false)
  // To be bored to 42: no longer there after it.
  expect(at(0, 20, 14 + 40)).toBe(false)
  expect(at(0, 21.1, 14 + 40)).toBe(true)
})
