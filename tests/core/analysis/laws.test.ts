import fc from 'fast-check'
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { centrifugalForce } from '../../../src-core/unbalance/static.ts'
import { expectNear } from '../../helpers/near.ts'
import { exampleJob, jobWith, partOf, piece, block } from '../../helpers/jobs.ts'
import type { Job } from '../../../src-core/job/schema.ts'

const freeze = <T>(value: T): T => {
  if (typeof value === 'object' && value !== null) {
    Object.freeze(value)
    Object.values(value).forEach(freeze)
  }
  return value
}

const offset = (mass: number, angle: number): Job =>
  jobWith({
    part: partOf([block('b', { x: 40, y: 0 }, [100, 40, 20])]),
    setup: {
      hardware: [
        piece(
          'w',
          mass,
          { x: 130 * Math.cos(angle), y: 130 * Math.sin(angle) },
          { footprint: { circle: 10 } },
        ),
      ],
    },
  })

test('the job is not changed, and the same job gives the same result', () => {
  for (const name of ['flat-link', 'bearing-bracket'] as const) {
    const job = freeze(exampleJob(name))
    for (const s of job.setups) expect(analyse(job, s.id)).toEqual(analyse(structuredClone(job), s.id))
  }
})

test('more speed never lowers the force, the grade or the worse verdict', () => {
  const rank = { go: 0, caution: 1, 'not-judged': 2, stop: 3 }
  for (const name of ['flat-link', 'bearing-bracket'] as const) {
    const { speeds } = analyse(exampleJob(name), 'op10')
    for (let i = 1; i < speeds.length; i++) {
      expect(speeds[i]!.force_N).toBeGreaterThan(speeds[i - 1]!.force_N)
      expect(speeds[i]!.grade_mm_s).toBeGreaterThan(speeds[i - 1]!.grade_mm_s)
      expect(rank[speeds[i]!.verdict]).toBeGreaterThanOrEqual(rank[speeds[i - 1]!.verdict])
    }
  }
})

test('a heavier counterweight on the heavy side never helps', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 1, noNaN: true }),
      fc.double({ min: 0.01, max: 2, noNaN: true }),
      fc.double({ min: -1.5, max: 1.5, noNaN: true }),
      (mass, more, angle) => {
        const [light, heavy] = [
          analyse(offset(mass, angle), 'op10'),
          analyse(offset(mass + more, angle), 'op10'),
        ]
        expect(heavy.unbalance.static_g_mm).toBeGreaterThan(light.unbalance.static_g_mm)
        expect(heavy.unbalance.upper95_g_mm).toBeGreaterThan(light.unbalance.upper95_g_mm)
      },
    ),
    { numRuns: 40 },
  )
})

test('unbalance is the sum of its terms, and linear in each mass', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 2, noNaN: true }),
      fc.double({ min: 0, max: 6.28, noNaN: true }),
      (mass, angle) => {
        const vector = (m: number) => {
          const terms = analyse(offset(m, angle), 'op10').terms
          return terms.reduce((s, t) => ({ x: s.x + t.unbalance_g_mm.x, y: s.y + t.unbalance_g_mm.y }), {
            x: 0,
            y: 0,
          })
        }
        const [one, two, three] = [vector(mass), vector(2 * mass), vector(3 * mass)]
        expectNear(three.x - two.x, two.x - one.x, { abs: 1e-6 })
        expectNear(three.y - two.y, two.y - one.y, { abs: 1e-6 })
        const a = analyse(offset(mass, angle), 'op10')
        expectNear(Math.hypot(one.x, one.y), a.unbalance.static_g_mm, { rel: 1e-12 })
        expectNear(a.speeds[2]!.force_N, centrifugalForce(a.unbalance.static_g_mm, a.speeds[2]!.rpm), {
          rel: 1e-12,
        })
      },
    ),
    { numRuns: 30 },
  )
})

test('turning the part about the axis turns its unbalance and nothing else', () => {
  const job = exampleJob('flat-link')
  const bare = (turn: number): Job => ({
    ...job,
    setups: job.setups.map((s) => ({ ...s, turn, hardware: [] })),
  })
  const still = analyse(bare(0), 'op10')
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 359 }), (turn) => {
      const a = analyse(bare(turn), 'op10')
      expectNear(a.unbalance.static_g_mm, still.unbalance.static_g_mm, { rel: 1e-9 })
      expectNear(a.unbalance.couple_g_mm2, still.unbalance.couple_g_mm2, { rel: 1e-9 })
      expectNear(
        Math.cos(((a.unbalance.static_angle_deg - still.unbalance.static_angle_deg - turn) * Math.PI) / 180),
        1,
        { abs: 1e-12 },
      )
    }),
    { numRuns: 25 },
  )
})

test('couple: two equal weights opposite each other at different heights (m·r·Δz)', () => {
  const job = jobWith({
    setup: {
      hardware: [
        piece('a', 1, { x: 100, y: 0 }, { base: 0, height: 20 }),
        piece('b', 1, { x: -100, y: 0 }, { base: 60, height: 20 }),
      ],
    },
  })
  const { unbalance } = analyse(job, 'op10')
  expectNear(unbalance.static_g_mm, 0, { abs: 1e-6 })
  expectNear(unbalance.couple_g_mm2, 1000 * 100 * 60, { rel: 1e-9 })
  expectNear(unbalance.couple_angle_deg, 180, { abs: 1e-9 })
})
