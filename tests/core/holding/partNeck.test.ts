/** Sections between seat and tool: a hollow post by hand, and parts that grow narrow under the tool. */
import { describe, expect, test } from 'vitest'
import { cuttingAdvice } from '../../../src-core/cutting/advice.ts'
import { neckFindings } from '../../../src-core/holding/partNeck.ts'
import type { Job, Prism } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { block, bore, boreCut, jobWith, partOf, shelfExample } from '../../helpers/jobs.ts'

const AXIS = { x: 0, y: 0 }
const found = (job: Job) => neckFindings(mountSetup(job, job.setups[0]!.id)).map((f) => f.message)
/** A square post, bored to 12 from 10 by a cut of HSS. */
const post = (side: number, height: number): Job =>
  jobWith({
    part: partOf([block('post', AXIS, [side, side, height])], [bore('A', AXIS, 12, { start: 10 })]),
    setup: { centre: AXIS, packing: 0, cuts: [boreCut('A')] },
  })

test('σ of a hollow post: bent by what goes round at its top and by the feed beside its axis', () => {
  const job = post(24, 100)
  const row = cuttingAdvice(mountSetup(job, 'op10'))!.cuts[0]!
  const across = Math.hypot(1, 0.5) * row.tangential_force_N!
  const feed = 0.5 * row.tangential_force_N!
  const second = (side: number) => side ** 4 / 12 - (Math.PI * 12 ** 4) / 64
  // Bent most at its foot, in a corner of the square, √2 of half a side from the centre.
  const bent = (side: number, height: number) =>
    ((across * height + feed * 6) * (side / Math.SQRT2)) / second(side) + feed / (side ** 2 - 36 * Math.PI)
  const least = (height: number) => {
    let [low, high] = [17, 90]
    for (let i = 0; i < 50; i++) {
      const side = (low + high) / 2
      if (bent(side, height) > 60) low = side
      else high = side
    }
    return high
  }
  for (const height of [100, 300]) {
    expect(found(post(least(height) * 1.01, height))).toEqual([])
    expect(found(post(least(height) * 0.99, height))).toHaveLength(1)
  }
})

describe('a block on an angle plate', () => {
  const job = shelfExample('bearing-block')
  const withWeb = (change: Partial<Prism>): Job => ({
    ...job,
    part: {
      ...job.part,
      bodies: job.part.bodies.map((b) => (b.id === 'web' ? ({ ...b, ...change } as Prism) : b)),
    },
  })
  test('as shipped its web bears the cut', () => {
    expect(found(job)).toEqual([])
  })
  test.each([
    ['thin along the spindle', { thickness: 2 }],
    [
      'narrow across it',
      {
        outline: [
          { x: -1, y: -43.5 },
          { x: 1, y: -43.5 },
          { x: 1, y: -28 },
          { x: -1, y: -28 },
        ],
      },
    ],
  ])('a web %s leaves it not judged', (_, change) => {
    const thin = withWeb(change)
    expect(found(thin)[0]).toMatch(/^Whether the part bears the cut is not known: 20 mm from its seat/)
    expect(analyse(thin, 'op20').verdict.state).toBe('not-judged')
  })
})
