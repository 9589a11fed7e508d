/** Making a set-up worse never takes its last stop away, and never makes a clamp hold that did not. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Clamp } from '../../../src-core/job/schema.ts'
import { look, plainPart, strapClamp, type Looked } from '../../helpers/clamped.ts'

interface Scene {
  readonly radius: number
  readonly turn: number
  readonly thickness: number
  readonly heel: number
  readonly boltFrom: number
  readonly torque: number
  readonly steel: number
}

const scene: fc.Arbitrary<Scene> = fc.record({
  radius: fc.double({ min: 60, max: 125, noNaN: true }),
  turn: fc.double({ min: -25, max: 25, noNaN: true }),
  thickness: fc.double({ min: 6, max: 40, noNaN: true }),
  heel: fc.double({ min: -15, max: 15, noNaN: true }),
  boltFrom: fc.double({ min: 20, max: 60, noNaN: true }),
  torque: fc.double({ min: 1, max: 120, noNaN: true }),
  steel: fc.double({ min: 8, max: 40, noNaN: true }),
})

function at({ radius, turn, thickness, heel, boltFrom, torque, steel }: Scene): Looked {
  const clamp: Partial<Clamp> = {
    at: { slot: 'S1', radius },
    facing: 180 + turn,
    torque,
    strap: { ...strapClamp().strap, boltFrom, thickness: steel },
    heel: { kind: 'block', size: [20, 40], height: 12 + thickness + heel },
  }
  return look({ clamp, part: plainPart(thickness) })
}

const stops = (l: Looked) => l.found.filter((f) => f.startsWith('stop') && f.endsWith('c1'))

/** Each makes one thing worse, all else the same. */
const worse: readonly (readonly [string, (s: Scene, by: number) => Scene])[] = [
  // Its toe leaves the part outward: the edge is at 60.
  ['toe off', (s) => ({ ...s, radius: 60 + s.boltFrom + 30 })],
  ['heel farther from level', (s, by) => ({ ...s, heel: s.heel + Math.sign(s.heel || 1) * by })],
  // Up to near the middle between work and heel, 45 mm from either: past it the work is pressed, and the strap bent, less.
  [
    'longer lever',
    (s, by) => {
      const longer = Math.min(by, Math.max(0, 40 - s.boltFrom))
      return { ...s, boltFrom: s.boltFrom + longer, radius: s.radius + longer }
    },
  ],
  ['tightened harder', (s, by) => ({ ...s, torque: s.torque * (1 + by / 10) })],
  ['thinner strap', (s, by) => ({ ...s, steel: s.steel / (1 + by / 10) })],
  [
    'thinner part under the same heel',
    (s, by) => ({ ...s, thickness: s.thickness - by / 3, heel: Math.abs(s.heel) + by / 3 }),
  ],
]

test.each(worse)('%s', (_, change) => {
  fc.assert(
    fc.property(scene, fc.double({ min: 0.1, max: 15, noNaN: true }), (s, by) => {
      const before = at(s)
      const changed = change(s, by)
      fc.pre(changed.radius <= 135 && changed.thickness > 1)
      const after = at(changed)
      if (stops(before).length > 0) expect(stops(after).length).toBeGreaterThan(0)
      if (before.c1.state === 'nothing') expect(after.c1.state).toBe('nothing')
    }),
    { numRuns: 60 },
  )
})

test('a toe moved off the part anywhere holds nothing and is stopped', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 61, max: 140, noNaN: true }),
      fc.double({ min: -60, max: 60, noNaN: true }),
      (x, y) => {
        // Its end beyond the edge at 60 by no matter how much.
        const { c1, found } = look({ clamp: { at: { x: x + 32, y } } })
        expect(c1.state).toBe('nothing')
        expect(found).toContain('stop toe-off c1')
      },
    ),
    { numRuns: 60 },
  )
})
