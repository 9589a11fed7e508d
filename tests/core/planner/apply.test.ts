import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Job, StockItem } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
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

const fasteners = { thread: 'M12', class: '8.8', length_mm: 110, stud: null, torque_N_m: 88 }
const planOf = (
  stack: { stock: string; count: number }[],
  more: { stud?: string; length_mm?: number } = {},
): Appliable => ({
  stations: [{ slot: 'S1', radius_mm: 90, stack, fasteners: { ...fasteners, ...more } }],
  moves: [],
  turn_deg: null,
  replaces: [],
})
const added = (plan: Appliable) => {
  const mounted = mountSetup(applyPlan(job, 'op10', plan), 'op10')
  const piece = mounted.pieces[0]!
  if (piece.item.kind !== 'weight') throw new Error(piece.item.kind)
  return { item: piece.item, piece }
}

test('a stack is bolted on as it is listed, undermost first, with its stud, nuts and washer', () => {
  const { item, piece } = added(
    planOf([
      { stock: 'slab', count: 1 },
      { stock: 'disc', count: 2 },
    ]),
  )
  expect(item).toMatchObject({
    at: { slot: 'S1', radius: 90 },
    torque: 88,
    stud: { thread: 'M12', length: 'suit' },
  })
  expect(piece.solids.map((s) => [s.role, s.z0, s.z1]).slice(0, 2)).toEqual([
    ['weight', 0, 30],
    ['weight', 30, 50],
  ])
  // A plate of 28 mm with a nut of 10.8, 2.4 and two pitches of 1.75 behind it; 50 mm of stack, washer, nut, two pitches.
  const needed = 28 + 10.8 + 2.4 + 3.5 + 50 + 2.5 + 10.8 + 3.5
  expectNear(piece.fastenings[0]!.needed, needed, { rel: 1e-12 })
  expect(piece.fastenings[0]!.length).toBe(115)
})

test('a stud of the kit is put in at its own length', () => {
  const plan = planOf([{ stock: 'disc', count: 1 }], { stud: 'k1', length_mm: 140 })
  expect(added(plan).item.stud.length).toBe(140)
})

test('a piece off its bolt carries its centre along and across, the stud on the line', () => {
  const plan = planOf([{ stock: 'wedge', count: 1 }])
  const { piece } = added(plan)
  const bolts = piece.mass - 0.45
  expect(bolts).toBeGreaterThan(0.05)
  const term = analyse(applyPlan(job, 'op10', plan), 'op10').terms.find((t) => t.item === 'cw1')!
  expectNear(term.unbalance_g_mm.x, 450 * 100 + bolts * 1000 * 90, { rel: 1e-9 })
  expectNear(term.unbalance_g_mm.y, 450 * 10, { rel: 1e-9 })
})

test('a plan that names what the job has not is refused', () => {
  expect(() => added(planOf([{ stock: 'none', count: 1 }]))).toThrow(RangeError)
  const nowhere = planOf([{ stock: 'disc', count: 1 }])
  expect(() =>
    applyPlan(job, 'op10', { ...nowhere, stations: [{ ...nowhere.stations[0]!, slot: 'S99' }] }),
  ).toThrow(RangeError)
})
