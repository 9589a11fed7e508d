/** Toes on a part that is hollow under them. The block is 30 thick, its straps press some 15 mm in from its edges. */
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Job, Prism } from '../../../src-core/job/schema.ts'
import { bendingStress } from '../../../src-core/holding/support.ts'
import { block } from '../../helpers/jobs.ts'
import { heldBlock } from '../../helpers/heldJobs.ts'

const O = { x: 0, y: 0 }
const hollowed = (...voids: Prism[]): Job => {
  const job = heldBlock()
  return { ...job, part: { ...job.part, bodies: [...job.part.bodies, ...voids] } }
}
const cavity = (base: number, height: number, side = 90): Prism =>
  block('cavity', O, [side, side, height], { effect: 'removes', base })
const found = (job: Job) =>
  analyse(job, 'op10').findings.filter((f) => f.code === 'toe-bends-part' || f.code === 'toe-unsupported')

test('a solid part is carried', () => {
  expect(found(heldBlock())).toEqual([])
})

test('a closed cavity under a thin roof bends, though the floor lies on its packing', () => {
  const [first, ...more] = found(hollowed(cavity(3, 24)))
  expect(first).toMatchObject({ code: 'toe-bends-part', effect: 'stop', fromRpm: 0 })
  expect(first?.message).toMatch(/it is hollow there/)
  expect(more.length).toBe(3)
})

test('under a thick roof it is told of', () => {
  expect(new Set(found(hollowed(cavity(3, 5))).map((f) => f.code))).toEqual(new Set(['toe-unsupported']))
})

test('a cavity that no toe lies over does not matter', () => {
  expect(found(hollowed(cavity(3, 24, 32)))).toEqual([])
})

test('a rib under a bridge: the gap between bodies is seen as a cavity is', () => {
  const job = heldBlock()
  const floor = block('floor', O, [100, 100, 6])
  const wall = block('wall', O, [40, 40, 22], { base: 6 })
  const roof = block('roof', O, [100, 100, 2], { base: 28 })
  const built: Job = { ...job, part: { ...job.part, bodies: [floor, wall, roof] } }
  expect(found(built).some((f) => f.effect === 'stop')).toBe(true)
})

test('a cantilever by hand: 1000 N, 10 mm out, 30 + 10 wide, 5 thick: 60 N/mm²', () => {
  expect(bendingStress(1000, 10, 30, 5)).toBeCloseTo(60, 9)
})
