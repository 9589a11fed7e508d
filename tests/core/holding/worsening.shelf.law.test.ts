/** What makes a set-up on a shelf or in a vee worse, or takes from what is known of it, never makes its holding read better. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { checkJob } from '../../../src-core/job/parse.ts'
import {
  isPrism,
  isShelf,
  type Clamp,
  type Hardware,
  type Job,
  type Setup,
  type Shelf,
} from '../../../src-core/job/schema.ts'
import { polar } from '../../../src-core/geometry/angles.ts'
import { randomShelfJob } from '../../helpers/randomShelfJob.ts'

const withSetup =
  (change: (s: Setup) => Partial<Setup>) =>
  (job: Job): Job => ({
    ...job,
    setups: job.setups.map((s) => ({ ...s, ...change(s) })),
  })
const pieces = (change: (h: Hardware) => Hardware | null) =>
  withSetup((s) => ({ hardware: s.hardware.flatMap((h) => change(h) ?? []) }))
const shelf = (change: (s: Shelf) => Partial<Shelf>) =>
  pieces((h) => (isShelf(h) ? ({ ...h, ...change(h) } as Shelf) : h))
type Pressing = Clamp | Extract<Hardware, { kind: 'bolt' }>
const isPressing = (h: Hardware): h is Pressing => h.kind === 'clamp' || h.kind === 'bolt'
const press = (change: (p: Pressing) => Partial<Pressing> | null) =>
  pieces((h) => {
    if (!isPressing(h)) return h
    const now = change(h)
    return now && ({ ...h, ...now } as Pressing)
  })
const strap = (change: (c: Clamp) => Partial<Clamp>) =>
  pieces((h) => (h.kind === 'clamp' ? { ...h, ...change(h) } : h))
const cuts = (change: (c: NonNullable<Setup['cuts']>[number]) => object) =>
  withSetup((s) => ({ cuts: s.cuts && s.cuts.map((c) => ({ ...c, ...change(c) })) }))
const body =
  (id: string, times: number) =>
  (job: Job): Job => ({
    ...job,
    part: {
      ...job.part,
      bodies: job.part.bodies.map((b) =>
        b.id === id && isPrism(b) ? { ...b, thickness: times * b.thickness } : b,
      ),
    },
  })
const movedBy = (by: number, way: number) =>
  shelf((s) => {
    if (!('x' in s.at)) return {}
    const to = polar(by, s.facing + way)
    return { at: { x: s.at.x + to.x, y: s.at.y + to.y } }
  })
const out = (by: number) =>
  withSetup((s) => ({ seat: s.seat && { ...s.seat, standOff: (s.seat.standOff ?? 0) + by } }))

const WORSENINGS: Record<string, (job: Job) => Job> = {
  'a press gone': press((p) => (p.id.endsWith('1') ? null : {})),
  'its torque gone': press((p) => (p.id.endsWith('1') ? { torque: null } : {})),
  'next to no torque': press((p) => (p.id.endsWith('1') ? { torque: 0.1 } : {})),
  'a stud of no class': press((p) => ({ stud: { ...p.stud, class: null } })),
  'a weaker stud': press((p) => ({ stud: { ...p.stud, class: '4.6' } })),
  'a stud too short': press((p) => ({ stud: { ...p.stud, length: 30 } })),
  'straps too thin': strap((c) => ({ strap: { ...c.strap, thickness: 8 } })),
  'a heel gone': strap(() => ({ heel: null })),
  'a strap turned away': strap((c) => ({ facing: c.facing + 90 })),
  'bolts of the foot nearly loose': shelf((s) => ({ bolts: s.bolts.map((b) => ({ ...b, torque: 0.1 })) })),
  'a bolt of the foot gone': shelf((s) => ({ bolts: s.bolts.slice(1) })),
  'no bolts in the foot': shelf(() => ({ bolts: [] })),
  'a bolt beside the foot': shelf((s) => ({
    bolts: s.bolts.map((b, i) => (i === 0 ? { ...b, at: { x: 20, y: b.at?.y ?? 0 } } : b)),
  })),
  'no slot or hole in the shelf': shelf((s) => ({ holes: [], ...('slots' in s ? { slots: [] } : {}) })),
  'thin walls': shelf((s) =>
    s.kind === 'anglePlate' ? { thickness: s.thickness / 2 } : { foot: { ...s.foot, thickness: 5 } },
  ),
  'no webs': shelf((s) => (s.kind === 'anglePlate' ? { webs: { ...s.webs, count: 0 } } : {})),
  'the shelf too high': movedBy(3, 0),
  'the shelf too low': movedBy(3, 180),
  'the shelf turned': shelf((s) => ({ facing: s.facing + 3 })),
  'the part turned on it': withSetup((s) => ({ turn: s.turn + 3 })),
  'the part further out': out(40),
  'the part off its shelf': out(110),
  'a wider vee': shelf((s) => (s.kind === 'vee' ? { opening: s.opening + 2 } : {})),
  'less friction': withSetup(() => ({ frictionCoefficient: 0.04 })),
  'what is cut not known': withSetup(() => ({ cuts: null })),
  'a deeper cut': cuts((c) => ('depth' in c ? { depth: 4 * c.depth } : {})),
  'a coarser feed': cuts((c) => ({ feed: 4 * c.feed })),
  'packing that is not there': withSetup(() => ({ packing: 3 })),
  'a thin base': body('base', 0.1),
  'a long boss': body('boss', 3),
  'a long round': body('body', 3),
  'a quicker brake': (job) => ({ ...job, lathe: { ...job.lathe, brakeTime: 0.05 } }),
}

/** Not of holding; and what is pressed too hard, which less may mend. */
const OTHERS: ReadonlySet<string> = new Set([
  ...['hardware-clash', 'drilling-not-checked', 'unbalance-over-limit', 'speed-above-ceiling'],
  ...['over-plate-rating', 'over-spindle-speed', 'strap-yields', 'toe-bends-part', 'over-proof-load'],
])

/** 0: stop, 1: not judged, 2: nothing against it; by what holds alone. */
function standing(job: Job): number {
  const a = analyse(job, 'op10')
  const rpm = job.setups[0]!.speed ?? 0
  const above = a.findings.filter((f) => !OTHERS.has(f.code) && (f.fromRpm === 0 || rpm > f.fromRpm))
  if (above.some((f) => f.effect === 'stop')) return 0
  return above.some((f) => f.effect === 'unknown') ? 1 : 2
}

const jobs = fc.sample(randomShelfJob, { numRuns: 14, seed: 3 }).map((job) => ({ job, was: standing(job) }))

test('some of them hold and some do not', () => {
  expect(jobs.filter((j) => j.was === 2).length).toBeGreaterThan(2)
  expect(jobs.filter((j) => j.was < 2).length).toBeGreaterThan(2)
})

test.each(Object.entries(WORSENINGS))('%s', (_, worsen) => {
  for (const { job, was } of jobs) {
    const worse = worsen(job)
    if (was < 2 && checkJob(worse).ok) expect(standing(worse)).toBeLessThan(2)
  }
})

/** Of these nothing is left that could hold. */
test.each([
  'its torque gone',
  'no bolts in the foot',
  'the shelf too high',
  'the shelf too low',
  'the part off its shelf',
  'what is cut not known',
  'a stud too short',
])('with %s none may run', (name) => {
  for (const { job, was } of jobs) if (was === 2) expect(standing(WORSENINGS[name]!(job))).toBeLessThan(2)
})
