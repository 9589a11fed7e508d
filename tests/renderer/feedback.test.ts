import { expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { broughtBy } from '../../src-renderer/state/freshFindings.ts'
import { arrowReach } from '../../src-renderer/scene/overlay.ts'
import { blankJob, START } from '../../src-renderer/state/blankJob.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { exampleJob } from './example.ts'

test('the arrow grows with the pull at each faster speed, within the plate', () => {
  const { speeds } = analyse(exampleJob(), 'op10')
  const ends = speeds.map((s) => arrowReach({ speeds }, s.rpm))
  for (const [i, end] of ends.entries()) {
    expect(end).toBeGreaterThan(i === 0 ? 0.3 : ends[i - 1]!)
    expect(end).toBeLessThan(0.92)
  }
  expect(arrowReach({ speeds }, null)).toBe(ends[0])
})

test('what a change brought is new until the next change brings or takes something', () => {
  const first = broughtBy(new Set(['a', 'b']), new Set(['b', 'c']), new Set())
  expect([...first]).toEqual(['c'])
  expect([...broughtBy(new Set(['b', 'c']), new Set(['c', 'b']), first)]).toEqual(['c'])
  expect([...broughtBy(new Set(['b', 'c']), new Set(['b']), first)]).toEqual([])
})

test('the cut is on when the bore is smaller than its finish, with a drill first where it is solid', () => {
  const kinds = (boreStart: number) => {
    const job = { ...blankJob({ ...START, boreStart }), title: 'x' }
    expect(parseJob(serialiseJob(job)).ok).toBe(true)
    return job.setups[0]!.cuts?.map((c) => c.kind) ?? null
  }
  expect(kinds(0)).toEqual(['drill', 'bore'])
  expect(kinds(30)).toEqual(['bore'])
  expect(kinds(START.boreDiameter)).toBeNull()
})
