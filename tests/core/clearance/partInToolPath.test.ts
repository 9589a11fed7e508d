/** A tool that faces or turns meets what of the part stands beside or before its cut. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Cut, Job, Part } from '../../../src-core/job/schema.ts'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import { block, bore, boreCut, disc, jobWith, partOf } from '../../helpers/jobs.ts'
import { bearingBlock } from '../../helpers/shelfJobs.ts'

const O = { x: 0, y: 0 }
const TOOLING = { tool: 'HSS', speed: 20, feed: 0.1, depth: 1, interrupted: false } as const
const turn = (start: number, z: readonly [number, number] | null): Cut => ({
  id: 'k',
  kind: 'turn',
  start,
  diameter: start - 4,
  z: z && [z[0], z[1]],
  ...TOOLING,
})
const face = (z: readonly [number, number]): Cut => ({
  id: 'k',
  kind: 'face',
  from: 39,
  to: 22,
  z: [z[0], z[1]],
  ...TOOLING,
})
const said = (job: Job, code: string) =>
  analyse(job, 'op10')
    .findings.filter((f) => f.code === code)
    .map((f) => f.message)
const cutting = (part: Part, ...cuts: Cut[]) => jobWith({ part, setup: { cuts } })

describe('a boss of 60 on a plate, 30 high over 20', () => {
  const bossed = partOf([block('plate', O, [120, 100, 20]), disc('boss', O, 60, 30, { base: 20 })])

  test('is turned down to the plate, no further', () => {
    expect(said(cutting(bossed, turn(60, [20, 50])), 'in-tool-path')).toEqual([])
    expect(said(cutting(bossed, turn(60, [18, 50])), 'in-tool-path')[0]).toMatch(
      /^Turning k, the tool runs into body plate of the part: between /,
    )
    expect(said(cutting(bossed, turn(60, null)), 'in-tool-path')).toHaveLength(1)
  })

  test('of which the diameter to start from is said too small', () => {
    expect(said(cutting(bossed, turn(56, [20, 50])), 'in-tool-path')[0]).toMatch(/body boss/)
    expect(said(cutting(bossed, turn(59.4, [20, 50])), 'in-tool-path')).toEqual([])
  })
})

test('on a shelf the web that carries a boss stands in the way', () => {
  const of = (cut: Cut) => bearingBlock([], { cuts: [cut] })
  expect(said(of(turn(80, [72, 80])), 'in-tool-path')).toEqual([])
  expect(said(of(turn(80, [60, 80])), 'in-tool-path')[0]).toMatch(/body web/)
  expect(said(of(face([79, 80])), 'in-tool-path')).toEqual([])
  expect(said(of(face([40, 41])), 'in-tool-path')[0]).toMatch(/^Facing k, the tool runs into body boss/)
})

test('a recess through the wall parts what is in front of it', () => {
  const recess = (diameter: number, z: [number, number]): Cut => ({
    id: 'k',
    kind: 'recess',
    start: 38,
    diameter,
    z,
    ...TOOLING,
  })
  const of = (cut: Cut) => bearingBlock([], { cuts: [cut] })
  // The web, up to 70, holds both sides of one that is cut where it is.
  expect(said(of(recess(70, [71, 74])), 'part-in-pieces')).toEqual([])
  expect(said(of(recess(82, [50, 60])), 'part-in-pieces')).toEqual([])
  expect(said(of(recess(82, [71, 74])), 'part-in-pieces')[0]).toMatch(/^The cut parts the work: body boss/)
})

describe('a recess from within', () => {
  const boss = partOf(
    [disc('boss', O, 80, 40, { holes: [circleRing(O, 38)] })],
    [bore('A', O, 42, { start: 38 })],
  )
  const recess = (start: number, z: [number, number]): Cut => ({
    id: 'k',
    kind: 'recess',
    start,
    diameter: start + 4,
    z,
    ...TOOLING,
  })
  const at = (...cuts: Cut[]) => {
    const job = jobWith({ part: boss, setup: { centre: { bore: 'A' }, cuts } })
    return said(job, 'in-tool-path').filter((m) => m.includes('body boss'))
  }
  test('begins where the hole ends, or where it is bored to first', () => {
    expect(at(recess(38, [10, 20]))).toEqual([])
    expect(at(boreCut('A'), recess(42, [10, 20]))).toEqual([])
    expect(at(recess(60, [10, 20]))[0]).toMatch(/^Recessing k, the tool runs into body boss/)
    expect(at(boreCut('A'), recess(60, [10, 20]))).toHaveLength(1)
  })
  test('or is cut into the front, from the front', () => {
    expect(at(recess(60, [37, 40]))).toEqual([])
  })
})
