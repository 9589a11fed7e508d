/** A long part while it is dragged: its figures follow between the frames, those of any other part with each of them. */
import { expect, test } from 'vitest'
import type { Analysis } from '../../src-core/analysis/result.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import { bearingBlock } from '../helpers/shelfJobs.ts'
import { dragJob } from '../../bench/dragJob.ts'
import { PacedAnalysis } from '../../src-renderer/state/pacedAnalysis.ts'

const moved = (job: Job, x: number) =>
  mountSetup({ ...job, setups: job.setups.map((s) => ({ ...s, centre: { x, y: 0 } })) }, job.setups[0]!.id)

function bench() {
  const frames: (() => void)[] = []
  const done: number[] = []
  let published = 0
  const paced = new PacedAnalysis(
    ({ placement }) => {
      done.push(placement.x)
      return { of: placement.x } as unknown as Analysis
    },
    () => published++,
    (run) => frames.push(run),
  )
  const place = (analysis: Analysis) => (analysis as unknown as { of: number }).of
  return {
    of: (mounted: ReturnType<typeof moved>, dragged: boolean) => place(paced.of(mounted, dragged)),
    /** Until something is shown, or nothing more is to come. */
    toNext: () => {
      const before = published
      while (frames.length > 0 && published === before) frames.splice(0).forEach((run) => run())
      return published > before
    },
    done,
  }
}

test('of a long part that is dragged it is that of before, until it is worked out for where the part is', () => {
  const job = dragJob(500)
  const { of, toNext, done } = bench()
  expect(of(moved(job, -1), false)).toBe(1)
  const there = moved(job, -2)
  expect(of(there, true)).toBe(1)
  expect(of(moved(job, -3), true)).toBe(1)
  const last = moved(job, -4)
  expect(of(last, true)).toBe(1)
  expect(done).toEqual([1])
  expect(toNext()).toBe(true)
  // What lay between was never worked out.
  expect(done).toEqual([1, 4])
  expect(of(last, true)).toBe(4)
  expect(toNext()).toBe(false)
})

test('let go, it is that of where the part is at once, and nothing older comes after it', () => {
  const job = dragJob(500)
  const { of, toNext } = bench()
  of(moved(job, -1), false)
  of(moved(job, -2), true)
  const end = moved(job, -3)
  expect(of(end, false)).toBe(3)
  expect(toNext()).toBe(false)
  expect(of(end, false)).toBe(3)
})

test('of a part on a shelf it follows as that of a long one does', () => {
  const { of, toNext } = bench()
  const job = bearingBlock()
  of(moved(job, -1), false)
  const there = moved(job, -2)
  expect(of(there, true)).toBe(1)
  expect(toNext()).toBe(true)
  expect(of(there, true)).toBe(2)
})

test('of a flat part with few vertices, and where a piece comes or goes, it is worked out at once', () => {
  const few = bench()
  few.of(moved(dragJob(200), -1), false)
  expect(few.of(moved(dragJob(200), -2), true)).toBe(2)
  const job = dragJob(500)
  const long = bench()
  long.of(moved(job, -1), false)
  const fewer = { ...job, setups: job.setups.map((s) => ({ ...s, hardware: s.hardware.slice(1) })) }
  expect(long.of(moved(fewer, -2), true)).toBe(2)
})
