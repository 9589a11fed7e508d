/** What a clamp presses with and whether it counts at all. Figures by hand. */
import { describe, expect, test } from 'vitest'
import { preloadOf } from '../../../src-core/holding/preloadOf.ts'
import { UNCERTAINTY_DEFAULTS } from '../../../src-core/doubt/defaults.ts'
import type { Clamp, Hardware } from '../../../src-core/job/schema.ts'
import { block, disc, partOf } from '../../helpers/jobs.ts'
import { look, plainPart } from '../../helpers/clamped.ts'

test('a clamp set up as it should be holds and has nothing to be said of it', () => {
  const { states, found } = look()
  expect(states.map((s) => s.state)).toEqual(['holds', 'holds'])
  expect(found).toEqual([])
})

test('force on the work: T/(K·d), its low side, by the lever of 45 to heel over 85 in all', () => {
  const { low, high, preload, at } = look().c1
  expect(preload!.low).toBeCloseTo((20_000 / (0.2 * 12)) * 0.75, 9)
  expect(low).toBeCloseTo((20_000 / (0.2 * 12)) * 0.75 * (45 / 85), 9)
  // The high side from where the pad begins, 32 from the bolt.
  expect(high).toBeCloseTo((20_000 / (0.2 * 12)) * 1.25 * (45 / 77), 9)
  expect(at.x).toBeCloseTo(49, 9)
})

test('oiled threads pull harder; never less than proof load is credited', () => {
  const of = (torque: number, lubricated: boolean) =>
    preloadOf({ stud: { thread: 'M12', class: '8.8' }, torque, lubricated }, UNCERTAINTY_DEFAULTS).preload!
  expect(of(20, true).mean / of(20, false).mean).toBeCloseTo(0.2 / 0.15, 12)
  expect(of(500, false).low).toBe(48_900)
  expect(of(500, false).high).toBeGreaterThan(48_900)
})

describe('what is not given', () => {
  const without: [string, Partial<Clamp>, string][] = [
    ['thread', { stud: { class: '8.8', length: 'suit' } }, 'thread not given'],
    ['class', { stud: { thread: 'M12', length: 'suit' } }, 'strength class not given'],
    [
      'class that is none',
      { stud: { thread: 'M12', class: 'constructor', length: 'suit' } },
      'constructor is not in',
    ],
    [
      'thread that is none',
      { stud: { thread: 'M13', class: '8.8', length: 'suit' } },
      'M13 is not in the table',
    ],
    ['torque', { torque: null }, 'torque not given'],
    ['length', { stud: { thread: 'M12', class: '8.8' } }, "the stud's length not given"],
    ['heel', { heel: null }, 'heel not given'],
    ["heel's height", { heel: { kind: 'block', size: [30, 40] } }, "the heel's height not given"],
  ]
  test.each(without)('%s: the clamp is unknown, holds nothing, and is said to', (_, clamp, words) => {
    const { c1, message } = look({ clamp })
    expect([c1.state, c1.low]).toEqual(['unknown', 0])
    expect(message('clamp-not-judged')).toContain(words)
  })

  test('off the part and not given: off the part', () => {
    expect(look({ clamp: { torque: null, at: { slot: 'S1', radius: 125 } } }).c1.state).toBe('nothing')
  })

  test('an outline that is being drawn badly leaves every clamp unknown', () => {
    const bow = block('body', { x: 0, y: 0 }, [120, 80, 20], {
      outline: [
        { x: -60, y: -40 },
        { x: 60, y: 40 },
        { x: 60, y: -40 },
        { x: -60, y: 40 },
      ],
    })
    const { states, found } = look({ part: partOf([bow]) })
    expect(states.map((s) => s.state)).toEqual(['unknown', 'unknown'])
    expect(found).toEqual([])
  })
})

describe('a clamp of which only a box and levers are known', () => {
  const press = (nose: { x: number; y: number } | null, base = 32): Hardware => ({
    id: 'p',
    kind: 'press',
    mass: 0.5,
    at: { slot: 'S2', radius: 70 },
    facing: 270,
    footprint: { rect: [80, 28] },
    base,
    height: 30,
    fixed: true,
    press: { thread: 'M12', class: '8.8', torque: 45, boltToWork: 35, boltToHeel: 40, nose },
  })
  const state = (hardware: Hardware, part = plainPart()) => {
    const { states, found } = look({ hardware: [hardware], part })
    return [states[2]!.state, found.includes('stop press-off p')]
  }
  test('over solid material it is unknown, whatever is typed of it', () => {
    expect(state(press({ x: 0, y: 30 }))).toEqual(['unknown', false])
    expect(state(press(null))).toEqual(['unknown', false])
  })
  test('beside the part, over its hole, off the plate or 20 mm above it, it presses on nothing', () => {
    expect(state(press({ x: 0, y: 45 }))).toEqual(['nothing', true])
    expect(state(press({ x: 0, y: 500 }))).toEqual(['nothing', true])
    expect(state(press({ x: 0, y: 30 }, 52))).toEqual(['nothing', true])
    const holed = partOf([
      block('body', { x: 0, y: 0 }, [120, 80, 20]),
      disc('pocket', { x: 0, y: 30 }, 12, 20, { effect: 'removes' }),
    ])
    expect(state(press({ x: 0, y: 30 }), holed)).toEqual(['nothing', true])
  })
})

describe('a bolt through the part', () => {
  const bolt = (x: number, y: number): Hardware => ({
    id: 'b',
    kind: 'bolt',
    throughPart: { x, y },
    stud: { thread: 'M12', class: '8.8', length: 'suit' },
    torque: 20,
    fixed: true,
  })
  const drilled = (diameter: number, at = { x: 0, y: 25 }) =>
    partOf([
      block('body', { x: 0, y: 0 }, [120, 160, 20]),
      disc('drilled', { x: at.x, y: at.y }, diameter, 20, { effect: 'removes' }),
    ])
  const state = (hardware: Hardware, part = drilled(13, { x: 0, y: 65 })) => {
    const { states, found } = look({
      hardware: [hardware],
      part,
      setup: { packing: 0 },
      clamp: { packing: null },
    })
    return [states[2]!.state, found.filter((f) => f.endsWith(' b'))]
  }
  test('in a hole of its size over a slot it presses with all its pull', () => {
    expect(state(bolt(0, 65))).toEqual(['holds', []])
    const { states } = look({
      hardware: [bolt(0, 65)],
      part: drilled(13, { x: 0, y: 65 }),
      setup: { packing: 0 },
    })
    expect(states[2]!.low).toBeCloseTo(6250, 9)
  })
  test('where the part has no hole it cannot go, and in one as wide as its washer it finds no hold', () => {
    expect(state(bolt(0, 65), partOf([block('body', { x: 0, y: 0 }, [120, 160, 20])]))[0]).toBe('nothing')
    expect(state(bolt(0, 65), drilled(24, { x: 0, y: 65 }))).toEqual(['nothing', ['stop washer-off b']])
  })
  test('half over the edge its washer tips; over solid plate there is nothing behind it', () => {
    expect(state(bolt(0, 79), drilled(13, { x: 0, y: 79 }))[1]).toContain('stop washer-off b')
    expect(state(bolt(30, 65), drilled(13, { x: 30, y: 65 }))).toEqual(['nothing', ['stop bolt-in-solid b']])
  })
})
