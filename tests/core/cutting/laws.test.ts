/** Laws of speeds and forces, whatever the lathe and the cut. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { drillingLoad } from '../../../src-core/cutting/drilling.ts'
import { boringForce, reamingForce } from '../../../src-core/cutting/forces.ts'
import { CUTTING_GROUPS } from '../../../src-core/cutting/groups.ts'
import { CUTTING_MARGIN, cuttingRpm, speedToSet } from '../../../src-core/cutting/rpm.ts'
import type { Lathe } from '../../../src-core/job/schema.ts'
import { jobWith } from '../../helpers/jobs.ts'

const rpm = fc.integer({ min: 1, max: 3000 })
const lathe = fc
  .record({
    steps: fc.array(rpm, { minLength: 1, maxLength: 12 }),
    range: fc.option(fc.tuple(rpm, rpm).map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const)),
  })
  .map(({ steps, range }): Lathe => {
    const speeds = { steps: steps.map((n) => ({ rpm: n })), stepless: range }
    return { ...jobWith({}).lathe, speeds }
  })
const ideal = fc.integer({ min: 1, max: 40_000 }).map((n) => n / 10)
/** Rounding of a quotient at the margin itself. */
const ROUNDED = 1 + 1e-9

describe('the speed to set', () => {
  test('is one that the spindle turns at, never more than a fifth too fast, and none of the others is nearer', () => {
    fc.assert(
      fc.property(lathe, ideal, (own, wanted) => {
        const { steps, stepless } = own.speeds
        const set = speedToSet(own, wanted)
        const fits = (n: number) => n <= wanted * (1 + CUTTING_MARGIN) * ROUNDED
        const slowest = Math.min(...steps.map((s) => s.rpm), stepless?.[0] ?? Infinity)
        if (set === null) {
          expect(fits(slowest)).toBe(false)
          return
        }
        expect(fits(set)).toBe(true)
        const turns =
          steps.some((s) => s.rpm === set) || (stepless !== null && set >= stepless[0] && set <= stepless[1])
        expect(turns).toBe(true)
        const off = (n: number) => Math.abs(Math.log(n / wanted))
        for (const s of steps)
          if (fits(s.rpm / ROUNDED)) expect(off(set)).toBeLessThanOrEqual(off(s.rpm) + 1e-9)
        if (stepless && wanted >= stepless[0] && wanted <= stepless[1]) expect(off(set)).toBeLessThan(1e-9)
      }),
    )
  })

  test('one more gear never makes it worse', () => {
    fc.assert(
      fc.property(lathe, rpm, ideal, (own, more, wanted) => {
        const off = (n: number | null) => (n === null ? Infinity : Math.abs(Math.log(n / wanted)))
        const { speeds } = own
        const richer = { ...own, speeds: { ...speeds, steps: [...speeds.steps, { rpm: more }] } }
        expect(off(speedToSet(richer, wanted))).toBeLessThanOrEqual(off(speedToSet(own, wanted)) + 1e-12)
      }),
    )
  })

  test('twice the diameter wants half the speed', () => {
    fc.assert(
      fc.property(ideal, ideal, (speed, diameter) => {
        expect(cuttingRpm(speed, 2 * diameter) * 2).toBeCloseTo(cuttingRpm(speed, diameter), 6)
      }),
    )
  })
})

describe('forces', () => {
  const group = fc.constantFrom(...CUTTING_GROUPS)
  const feed = fc.integer({ min: 2, max: 100 }).map((n) => n / 100)
  const depth = fc.integer({ min: 1, max: 80 }).map((n) => n / 10)
  const more = fc.integer({ min: 101, max: 300 }).map((n) => n / 100)

  test('a deeper cut or more feed never takes less force', () => {
    fc.assert(
      fc.property(group, depth, feed, more, (g, d, f, by) => {
        for (const force of [boringForce, reamingForce]) {
          expect(force(g, d * by, f)).toBeGreaterThanOrEqual(force(g, d, f) * (1 - 1e-12))
          expect(force(g, d, f * by)).toBeGreaterThanOrEqual(force(g, d, f) * (1 - 1e-12))
        }
      }),
    )
  })

  test('a larger drill or more feed never pushes or turns with less', () => {
    fc.assert(
      fc.property(group, depth, feed, more, (g, d, f, by) => {
        const [at, larger, faster] = [
          drillingLoad(g, 4 * d, f),
          drillingLoad(g, 4 * d * by, f),
          drillingLoad(g, 4 * d, f * by),
        ]
        for (const next of [larger, faster]) {
          expect(next.thrust).toBeGreaterThanOrEqual(at.thrust * (1 - 1e-12))
          expect(next.torque).toBeGreaterThanOrEqual(at.torque * (1 - 1e-12))
        }
      }),
    )
  })
})
