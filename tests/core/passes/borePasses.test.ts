/** Passes to size: laws over invented bores, and one worked by hand. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  planPasses,
  replan,
  type BoreTask,
  type Pass,
  type PassPlan,
} from '../../../src-core/passes/borePasses.ts'
import { dialReading, perDivision, type Dial } from '../../../src-core/passes/dial.ts'
import { expectNear } from '../../helpers/near.ts'

const MM: Dial = { on: 'radius', division: 0.05, unit: 'mm' }

const dial = fc.oneof(
  fc.constantFrom<Dial | null>(null),
  fc.record({
    on: fc.constantFrom('radius' as const, 'diameter' as const),
    division: fc.constantFrom(0.01, 0.02, 0.05, 0.1),
    unit: fc.constant('mm' as const),
  }),
  fc.record({
    on: fc.constantFrom('radius' as const, 'diameter' as const),
    division: fc.constantFrom(0.0127, 0.0254, 0.0508),
    unit: fc.constant('thou' as const),
  }),
)
const task: fc.Arbitrary<BoreTask> = fc
  .record({
    start: fc.integer({ min: 5_000, max: 120_000 }).map((v) => v / 1000),
    stock: fc.integer({ min: 30, max: 12_000 }).map((v) => v / 1000),
    width: fc.integer({ min: 15, max: 300 }).map((v) => v / 1000),
    skin: fc.option(fc.integer({ min: 1, max: 20 }).map((v) => v / 10)),
    depth: fc.integer({ min: 2, max: 30 }).map((v) => v / 10),
    dial,
  })
  .map(({ start, stock, width, ...rest }) => ({
    ...rest,
    start,
    limits: [start + stock, start + stock + width] as const,
  }))

const passesOf = (plan: PassPlan): readonly Pass[] => (plan.state === 'cut' ? plan.passes : [])
const stepOf = (t: BoreTask) => (t.dial ? perDivision(t.dial) : 0.01)

describe('laws', () => {
  const each = (check: (t: BoreTask, passes: readonly Pass[]) => void) => {
    let planned = 0
    fc.assert(
      fc.property(task, (t) => {
        const plan = planPasses(t)
        if (plan.state !== 'cut') {
          expect(plan.state).toBe('cannot be set')
          return
        }
        planned++
        check(t, plan.passes)
      }),
      { numRuns: 400 },
    )
    expect(planned).toBeGreaterThan(250)
  }

  test('no pass goes over the upper limit, every one takes something, the last ends between the limits', () => {
    each((t, passes) => {
      let size = t.start
      for (const pass of passes) {
        expectNear(pass.size - size, 2 * pass.depth, { abs: 1e-9 })
        expect(pass.depth).toBeGreaterThan(0)
        expect(pass.size).toBeLessThanOrEqual(t.limits[1] + 1e-9)
        size = pass.size
      }
      expect(size).toBeGreaterThanOrEqual(t.limits[0] - 1e-9)
    })
  })

  test('the last passes are equal', () => {
    each((_, passes) => {
      const finish = passes.filter((p) => p.kind === 'finish')
      if (finish.length === 2) expectNear(finish[0]!.depth, finish[1]!.depth, { abs: 1e-12 })
      else expect(finish.length).toBeLessThan(2)
    })
  })

  test('the first pass gets under the skin, or takes all there is', () => {
    each((t, passes) => {
      if (t.skin === null) expect(passes.every((p) => p.kind !== 'skin')).toBe(true)
      else expect(passes[0]!.depth >= t.skin - 1e-9 || passes.length === 1).toBe(true)
    })
  })

  test('roughing is no deeper than wanted, and equal but for one step', () => {
    each((t, passes) => {
      const rough = passes.filter((p) => p.kind === 'rough').map((p) => p.depth)
      for (const depth of rough) expect(depth).toBeLessThanOrEqual(Math.max(t.depth, stepOf(t) / 2) + 1e-9)
      if (rough.length > 0)
        expect(Math.max(...rough) - Math.min(...rough)).toBeLessThanOrEqual(stepOf(t) / 2 + 1e-9)
    })
  })

  test('no roughing pass only rubs: it takes half of a last one at least, but for what a step leaves', () => {
    each((t, passes) => {
      const finish = passes.find((p) => p.kind === 'finish')
      if (!finish) return
      for (const { kind, depth } of passes)
        if (kind === 'rough') expect(depth).toBeGreaterThanOrEqual(finish.depth / 2 - stepOf(t) - 1e-9)
    })
  })

  test('the dial is set to marks, and its divisions come to what is cut', () => {
    each((t, passes) => {
      if (!t.dial) return
      for (const pass of passes)
        expectNear(pass.divisions * perDivision(t.dial), 2 * pass.depth, { abs: 1e-9 })
      expectNear(
        passes.at(-1)!.reads,
        passes.reduce((s, p) => s + p.divisions, 0),
        { abs: 1e-9 },
      )
    })
  })

  test('measured after every pass, a bar that springs never brings it over its limit', () => {
    fc.assert(
      fc.property(task, fc.double({ min: 0.7, max: 1, noNaN: true }), (t, share) => {
        let size = t.start
        let plan = planPasses(t)
        for (let n = 0; plan.state === 'cut' && n < 60; n++) {
          const [pass, ...rest] = plan.passes
          size += 2 * pass!.depth * share
          expect(size).toBeLessThanOrEqual(t.limits[1] + 1e-9)
          const finishing = pass!.kind === 'finish' && rest.length === 1
          plan = replan(t, { size, depth: pass!.depth, finishing })
        }
        expect(['in limits', 'cannot be set']).toContain(plan.state)
      }),
    )
  })
})

test('by hand: 40 H7 from a flame-cut hole of 34, skin 1.5, 1 mm a pass, dial 0.05 on the radius', () => {
  // 3.0 mm on the radius to 40.0, the only mark between 40.000 and 40.025: 1.5 under the skin, 1.0 left over two finish
  // passes of 0.25 each: one of 1.0.
  const plan = planPasses({ limits: [40, 40.025], start: 34, skin: 1.5, depth: 1, dial: MM })
  const rows = passesOf(plan).map((p) =>
    [p.kind, p.depth, p.divisions, p.size].map((v) =>
      typeof v === 'number' ? Math.round(v * 1e6) / 1e6 : v,
    ),
  )
  expect(rows).toEqual([
    ['skin', 1.5, 30, 37],
    ['rough', 1, 20, 39],
    ['finish', 0.25, 5, 39.5],
    ['finish', 0.25, 5, 40],
  ])
  expect(plan.words.join()).toMatch(/under the skin at once/)
})

test('by hand: thou on the diameter', () => {
  // 0.0005 in on the diameter a division: 0.0127 mm; three of them read 1.5 thou.
  const half: Dial = { on: 'diameter', division: 0.0127, unit: 'thou' }
  expectNear(perDivision(half), 0.0127, { rel: 1e-12 })
  expectNear(dialReading(half, 3), 1.5, { rel: 1e-12 })
  expectNear(perDivision({ on: 'radius', division: 0.0254, unit: 'thou' }), 0.0508, { rel: 1e-12 })
  expectNear(dialReading(MM, 3), 0.15, { rel: 1e-12 })
})

test('a size that is measured is taken up: within, over, and one more like the last', () => {
  const t: BoreTask = {
    limits: [40, 40.025],
    start: 38,
    skin: null,
    depth: 1,
    dial: { ...MM, division: 0.01 },
  }
  expect(replan(t, { size: 40.01, depth: 0.25, finishing: false }).state).toBe('in limits')
  expect(replan(t, { size: 40.03, depth: 0.25, finishing: false }).state).toBe('over size')
  const one = passesOf(replan(t, { size: 39.46, depth: 0.25, finishing: true }))
  expect(one).toHaveLength(1)
  expectNear(one[0]!.depth, 0.27, { abs: 0.011 })
  // Not the first of the two: two equal ones.
  expect(passesOf(replan(t, { size: 39.46, depth: 1, finishing: false }))).toHaveLength(2)
})

test('less to take than the skin is thick is told', () => {
  const plan = planPasses({ limits: [40, 40.02], start: 39, skin: 1, depth: 1, dial: null })
  expect(plan.words.join()).toMatch(/finished bore lies in hard skin/)
})
