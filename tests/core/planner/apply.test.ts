import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { isBox, type Job, type StockItem } from '../../../src-core/job/schema.ts'
import { applyPlan, type Appliable } from '../../../src-core/planner/apply.ts'
import { jobWith } from '../../helpers/jobs.ts'
import { expectNear } from '../../helpers/near.ts'

const disc: StockItem = { id: 'disc', mass: 0.2, count: 2, footprint: { circle: 40 }, height: 10 }
const slab: StockItem = { id: 'slab', mass: 0.6, count: 2, footprint: { rect: [90, 60] }, height: 30 }
/** Right triangle with its bolt in the corner: its centre is 10 mm along and 10 mm across. */
const wedge: StockItem = {
  id: 'wedge',
  mass: 0.45,
  count: 1,
  height: 10,
  footprint: {
    outline: [
      { x: 0, y: 0 },
      { x: 30, y: 0 },
      { x: 0, y: 30 },
    ],
  },
}
const job: Job = { ...jobWith(), stock: [disc, slab, wedge] }

const planOf = (stack: { stock: string; count: number }[], mass: number): Appliable => ({
  stations: [{ slot: 'S1', radius_mm: 90, stack, mass_kg: mass }],
  moves: [],
  turn_deg: null,
  replaces: [],
})
const added = (plan: Appliable) => {
  const piece = applyPlan(job, 'op10', plan).setups[0]!.hardware[0]!
  if (!isBox(piece)) throw new Error(piece.kind)
  return piece
}

test('a mixed stack lies widest undermost, with its mass at the height that makes', () => {
  // Slab 0.6 kg at 15, discs 0.4 kg at 30 + 10 = 40, bolt set 0.15 kg half-way up 50: (9 + 16 + 3.75) / 1.15.
  const stack = added(
    planOf(
      [
        { stock: 'disc', count: 2 },
        { stock: 'slab', count: 1 },
      ],
      1.15,
    ),
  )
  expect(stack).toMatchObject({ footprint: { rect: [90, 60] }, height: 50, base: 0, kind: 'counterweight' })
  expectNear(stack.massCentre!.z, (9 + 16 + 3.75) / 1.15, { rel: 1e-12 })
  expectNear(stack.massCentre!.x, 0, { abs: 1e-12 })
})

test('a piece off its bolt carries its centre along and across, less the bolt set’s share', () => {
  const stack = added(planOf([{ stock: 'wedge', count: 1 }], 0.6))
  expectNear(stack.massCentre!.x, (0.45 * 10) / 0.6, { rel: 1e-12 })
  expectNear(stack.massCentre!.y, (0.45 * 10) / 0.6, { rel: 1e-12 })
  // S1 lies along +x: 0.6 kg at (90 + 7.5, 7.5).
  const term = analyse(
    applyPlan(job, 'op10', planOf([{ stock: 'wedge', count: 1 }], 0.6)),
    'op10',
  ).terms.find((t) => t.item === 'cw1')!
  expectNear(term.unbalance_g_mm.x, 600 * 97.5, { rel: 1e-9 })
  expectNear(term.unbalance_g_mm.y, 600 * 7.5, { rel: 1e-9 })
})

test('one kind of even pieces needs no mass centre of its own', () => {
  expect(added(planOf([{ stock: 'disc', count: 2 }], 0.55)).massCentre).toBeUndefined()
})

test('a plan that names what the job has not is refused', () => {
  expect(() => added(planOf([{ stock: 'none', count: 1 }], 1))).toThrow(RangeError)
  const nowhere = { ...planOf([{ stock: 'disc', count: 1 }], 1) }
  expect(() =>
    applyPlan(job, 'op10', { ...nowhere, stations: [{ ...nowhere.stations[0]!, slot: 'S99' }] }),
  ).toThrow(RangeError)
})
