/** Mean pressure under packing, toe and seat by hand, on one block under two straps. */
import { expect, test } from 'vitest'
import { rectRing } from '../../../src-core/geometry/edges.ts'
import { clampStates } from '../../../src-core/holding/clampState.ts'
import { crushFindings } from '../../../src-core/holding/crushing.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { block, partOf } from '../../helpers/jobs.ts'
import { clampedJob, strapClamp } from '../../helpers/clamped.ts'
import {
  BEARING_BLOCK,
  bearingBlock,
  CASTING,
  castingInVee,
  CENTRE_HEIGHT,
  overCrown,
  VEE,
} from '../../helpers/shelfJobs.ts'

function crushed(job: Job) {
  const mounted = mountSetup(job, 'op10')
  return crushFindings(mounted, clampStates(mounted)).map((f) => ({ item: f.item, message: f.message }))
}

// 20 N·m on M12, K 0.2: 8333 N, at most 8333 · 1.25 at the stud. The toe's pad begins 32 from the bolt, the heel's middle
// is 45 off: 10 417 · 45/(32 + 45) = 6088 N at most on the work.
const HIGH = (20_000 / (0.2 * 12)) * 1.25

test('packing is crushed where less of it than force over yield lies under the part', () => {
  const force = (8 * HIGH * 45) / 77
  const least = force / 225 / 40
  const packed = (length: number) =>
    crushed(clampedJob({ clamp: { torque: 160, packing: { size: [length, 40] } } }))
  expect(packed(least * 1.01)).toEqual([])
  const [found] = packed(least * 0.99)
  expect(found).toMatchObject({ item: 'c1' })
  expect(found!.message).toMatch(
    /^The packing of c1 is crushed: .* N\/mm², where mild steel yields at 225 N\/mm²\./,
  )
})

test('a narrow strap sinks in with its toe', () => {
  const narrow = { ...strapClamp().strap, width: 15 }
  expect(crushed(clampedJob({ clamp: { strap: narrow, torque: 20 } }))).toEqual([])
  const found = crushed(clampedJob({ clamp: { strap: narrow, torque: 200 } }))
  expect(found.map((f) => f.message.slice(0, 24))).toEqual(['The toe of c1 is crushed'])
})

test('a part that stands on a point crushes it, whatever presses', () => {
  const feet = partOf([
    block('body', { x: 0, y: 0 }, [120, 80, 20], { base: 2 }),
    block('foot', { x: 50, y: 30 }, [5, 5, 2]),
    block('toe', { x: -50, y: -30 }, [5, 5, 2]),
  ])
  const flat = { part: feet, setup: { packing: 0 } }
  const [found] = crushed(clampedJob(flat))
  expect(found).toMatchObject({ item: 'setup' })
  expect(found!.message).toContain('on 50 mm²')
})

test('so does one that stands on points of a shelf', () => {
  const foot = (x: number) => ({
    ...BEARING_BLOCK[0]!,
    id: `foot at ${x}`,
    thickness: 2,
    outline: rectRing({ x, y: 40 }, 5, 5, 0),
    holes: [],
  })
  const raised = { ...BEARING_BLOCK[0]!, base: 2 - CENTRE_HEIGHT, thickness: 18 }
  const job = bearingBlock()
  const on = (bodies: Job['part']['bodies']) => crushed({ ...job, part: { ...job.part, bodies } })
  expect(on(BEARING_BLOCK)).toEqual([])
  const [found] = on([raised, ...[-40, 40].map(foot), ...BEARING_BLOCK.slice(1)])
  expect(found).toMatchObject({ item: 'setup' })
  expect(found!.message).toContain('on 50 mm²')
})

test('a toe that sinks in over a vee is shown where it presses, as seen from in front', () => {
  const job = castingInVee()
  const hardware = job.setups[0]!.hardware.map((h) => {
    const c1 = overCrown('c1', 'H1', 0, { torque: 300 })
    return h.id === 'c1' ? { ...c1, strap: { ...c1.strap, width: 16 } } : h
  })
  const mounted = mountSetup({ ...job, setups: [{ ...job.setups[0]!, hardware }] }, 'op10')
  const [found] = crushFindings(mounted, clampStates(mounted))
  expect(found!.message).toMatch(/^The toe of c1 is crushed/)
  // The lands, below the axis: the middle over them of a round on flanks at 45 degrees less that of the bore.
  const lands = CASTING.off - (CASTING.diameter * Math.SQRT1_2 - VEE.opening / 2)
  expect(found!.at!.y).toBeCloseTo(lands, 9)
})
