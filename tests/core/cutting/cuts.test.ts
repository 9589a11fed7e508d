import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { usualBar } from '../../../src-core/cutting/barFits.ts'
import { cutPlaces } from '../../../src-core/cutting/cutPlace.ts'
import { findGroup, specificCuttingForce } from '../../../src-core/cutting/groups.ts'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { settingWords } from '../../../src-core/verdict/toolSpeed.ts'
import { formatter } from '../../../src-core/units/format.ts'
import { toeLies } from '../../../src-core/mounting/toeLies.ts'
import { removedAfter } from '../../../src-core/mounting/cutAway.ts'
import type { Bore, Cut, Job, Part, Setup } from '../../../src-core/job/schema.ts'
import { block, bore, boreCut, disc, drillCut, jobWith, partOf, piece, steps } from '../../helpers/jobs.ts'
import { strapClamp } from '../../helpers/heldJobs.ts'
import { expectNear } from '../../helpers/near.ts'

const AXIS = { x: 0, y: 0 }
const STEEL = 7850e-9
const edge = { tool: 'HSS', speed: 20, feed: 0.1, depth: 1, interrupted: false } as const
const face = (from: number, to: number, more = {}): Cut => ({
  id: 'f',
  kind: 'face',
  from,
  to,
  ...edge,
  ...more,
})
const turn = (start: number, diameter: number, more = {}): Cut => ({
  id: 't',
  kind: 'turn',
  start,
  diameter,
  ...edge,
  ...more,
})
const recess = (start: number, diameter: number, more = {}): Cut => ({
  id: 'r',
  kind: 'recess',
  start,
  diameter,
  ...edge,
  ...more,
})
const DISC = partOf([disc('d', AXIS, 200, 30)])
const of = (cuts: readonly Cut[], part: Part = DISC, setup: Partial<Setup> = {}): Job =>
  jobWith({ part, setup: { cuts, ...setup } })
const look = (job: Job, setup = 'op10') => {
  const a = analyse(job, setup)
  return { a, rows: a.cutting?.cuts ?? [], found: (code: string) => a.findings.find((f) => f.code === code) }
}

describe('force and arm of a cut', () => {
  const kc = specificCuttingForce(findGroup('low-carbon steel')!, 0.1)

  test.each([
    ['a face at its larger radius, whichever way it goes', face(90, 20), 180],
    ['a face outward', face(20, 90), 180],
    ['the outside at the diameter it starts from', turn(200, 190), 200],
    ['a recess at the diameter it is cut to', recess(40, 70), 70],
  ])('%s', (_, cut, diameter) => {
    const [row] = look(of([cut])).rows
    expect(row!.diameter_mm).toBe(diameter)
    expectNear(row!.ideal_rpm, 20_000 / (Math.PI * diameter), { rel: 1e-12 })
    expectNear(row!.tangential_force_N!, kc * 0.1, { rel: 1e-12 })
    expectNear(row!.torque_N_m!, (kc * 0.1 * diameter) / 2000, { rel: 1e-12 })
    expect(row!.thrust_N).toBeNull()
  })

  test('a reamer has torque and thrust, and no side force', () => {
    const part = partOf(
      [disc('d', AXIS, 200, 30, { holes: [circleRing(AXIS, 29.6)] })],
      [bore('A', AXIS, 30, { start: 29.6 })],
    )
    const ream: Cut = { ...edge, id: 'c', kind: 'ream', bore: 'A', depth: 0.2, feed: 0.4 }
    const [row] = look(of([ream], part, { centre: { bore: 'A' } })).rows
    expectNear(row!.torque_N_m!, row!.tangential_force_N! * 0.015, { rel: 1e-12 })
    expectNear(row!.thrust_N!, row!.tangential_force_N! / 2, { rel: 1e-12 })
  })

  test('a skin that the first depth has to get under counts, and is said', () => {
    const thin = look(of([face(20, 90, { skin: 0.8 })]))
    expect(thin.rows[0]!.depth_mm).toBe(1)
    expect(thin.found('cut-in-skin')).toBeUndefined()
    const thick = look(of([face(20, 90, { skin: 2 })]))
    expect(thick.found('cut-in-skin')!.message).toContain('2 mm')
    expectNear(thick.rows[0]!.tangential_force_N!, 2 * thin.rows[0]!.tangential_force_N!, { rel: 1e-12 })
    const cored = partOf(
      [disc('d', AXIS, 200, 30, { holes: [circleRing(AXIS, 40)] })],
      [bore('A', AXIS, 50, { start: 40, skin: 3 } as Partial<Bore>)],
    )
    expect(look(of([boreCut('A')], cored, { centre: { bore: 'A' } })).rows[0]!.depth_mm).toBe(3)
  })

  test('a bar that stands out more than four of its diameters is slender', () => {
    const bar = (overhang: number) => recess(40, 70, { bar: { diameter: 20, overhang } })
    expect(look(of([bar(80)])).found('bar-slender')).toBeUndefined()
    expect(look(of([bar(81)])).found('bar-slender')!.message).toContain('a steel bar carries 4')
  })

  test('a bar goes into its hole, opened by a drill if need be, and reaches to the bottom of it', () => {
    const part = (start: number) =>
      partOf(
        [disc('d', AXIS, 200, 30, start > 0 ? { holes: [circleRing(AXIS, start)] } : {})],
        [bore('A', AXIS, 50, { start })],
      )
    const drill: Cut = {
      id: 'd',
      kind: 'drill',
      bore: 'A',
      diameter: 30,
      tool: 'HSS',
      speed: 20,
      feed: 0.2,
      interrupted: false,
    }
    const unfit = (diameter: number, overhang: number, start: number, ...before: Cut[]) => {
      const cut: Cut = { ...boreCut('A'), bar: { diameter, overhang } } as Cut
      return look(of([...before, cut], part(start), { centre: { bore: 'A' } })).found('bar-unfit')?.message
    }
    expect(unfit(20, 60, 40)).toBeUndefined()
    expect(unfit(40, 60, 40)).toMatch(/^Boring A, the bar does not go into the hole/)
    expect(unfit(20, 29, 40)).toMatch(/^Boring A, the bar's holder runs into the work/)
    expect(unfit(20, 30, 40)).toBeUndefined()
    expect(unfit(29, 60, 0, drill)).toBeUndefined()
    expect(unfit(30, 60, 0, drill)).toMatch(/does not go into the hole/)
  })

  test('the bar to begin with goes into its hole, and reaches its bottom', () => {
    const usual = (start: number, thick: number, units: 'mm' | 'in') => {
      const part = partOf([disc('d', AXIS, 200, thick)], [bore('A', AXIS, 50, { start })])
      const job = of([boreCut('A')], part, { centre: { bore: 'A' } })
      const places = cutPlaces(mountSetup(job, 'op10'))
      return usualBar(units, places, places[0]!)
    }
    expect(usual(40, 30, 'mm')).toEqual({ diameter: 20, overhang: 80 })
    expect(usual(12, 30, 'mm')).toEqual({ diameter: 7, overhang: 80 })
    expect(usual(0, 120, 'mm')).toEqual({ diameter: 20, overhang: 121 })
    // 0.6 of 12 mm are 4.5 sixteenths of an inch.
    expect(usual(12, 30, 'in').diameter / 25.4).toBeCloseTo(1 / 4, 6)
    expect(usualBar('in', [], null).overhang / 25.4).toBeCloseTo(3, 6)
  })
})

describe('interrupted', () => {
  const share = (part: Part, cut: Cut, setup: Partial<Setup> = {}) => look(of([cut], part, setup)).rows[0]!

  test('as drawn: over a hole, off an edge, on an eccentric; not round a whole disc', () => {
    expect(share(DISC, face(20, 90)).interrupted).toBe(false)
    expect(share(DISC, turn(200, 190)).interrupted).toBe(false)
    const holed = partOf([disc('d', AXIS, 200, 30, { holes: [circleRing({ x: 70, y: 0 }, 30)] })])
    expect(share(holed, face(20, 70)).interrupted).toBe(true)
    expect(share(holed, face(20, 50)).interrupted).toBe(false)
    expect(share(partOf([block('b', AXIS, [100, 100, 30])]), face(10, 60)).interrupted).toBe(true)
    expect(share(DISC, turn(220, 180), { centre: { x: 10, y: 0 } }).interrupted).toBe(true)
    const bored = partOf([block('b', AXIS, [60, 60, 20])], [bore('A', { x: 20, y: 0 }, 40)])
    expect(share(bored, boreCut('A'), { centre: { bore: 'A' } }).interrupted).toBe(true)
  })

  test('a pocket counts at its own heights alone, a bore of an earlier setup as what it is', () => {
    const pocket = block('p', { x: 60, y: 0 }, [20, 20, 10], { effect: 'removes', base: 20 })
    const part = partOf([disc('d', AXIS, 200, 30), pocket])
    expect(share(part, face(20, 90, { z: [25, 30] })).interrupted).toBe(true)
    expect(share(part, face(20, 90, { z: [10, 20] })).interrupted).toBe(false)
    const two = jobWith({
      part: partOf([disc('d', AXIS, 200, 30)], [bore('A', { x: 60, y: 0 }, 20)]),
      setups: [{ centre: { bore: 'A' }, cuts: [boreCut('A')] }, { cuts: [face(20, 60)] }],
    })
    expect(look(two, 'op20').rows[0]!.interrupted).toBe(true)
  })

  test('it raises the force, also by word alone, and never lowers it', () => {
    const plain = share(DISC, face(20, 90))
    const said = share(DISC, face(20, 90, { interrupted: true }))
    expect(said.interrupted).toBe(true)
    expectNear(said.tangential_force_N! / plain.tangential_force_N!, 1.5, { rel: 1e-12 })
    expectNear(said.torque_N_m! / plain.torque_N_m!, 1.5, { rel: 1e-12 })
    expect(look(of([face(20, 90, { interrupted: true })])).found('cut-interrupted')).toBeDefined()
  })
})

describe('what cuts take away', () => {
  const ring = (outer: number, inner: number, high: number) =>
    (Math.PI / 4) * (outer ** 2 - inner ** 2) * high * STEEL
  const left = (cuts: readonly Cut[], part = DISC, setup: Partial<Setup> = {}) => {
    const job = jobWith({
      part,
      setups: [
        { cuts, ...setup },
        { ...setup, hardware: [] },
      ],
    })
    return { lost: look(job).a.part.mass_kg - look(job, 'op20').a.part.mass_kg, job }
  }

  test.each([
    ['a face', face(20, 90), ring(180, 40, 1)],
    ['a face to a height', face(20, 90, { z: [26, 30] }), ring(180, 40, 4)],
    ['the outside, all of it', turn(200, 190), ring(200, 190, 30)],
    ['the outside, in part', turn(200, 190, { z: [10, 30] }), ring(200, 190, 20)],
    ['a recess', recess(0, 60, { z: [25, 30] }), ring(60, 0, 5)],
    ['no more than is there', face(20, 300, { z: [29, 50] }), ring(200, 40, 1)],
  ])('%s', (_, cut, kg) => expectNear(left([cut]).lost, kg, { rel: 1e-9 }))

  test('the same twice, or a drill before its bore, is taken once', () => {
    expectNear(left([face(20, 90), { ...face(20, 90), id: 'g' }]).lost, ring(180, 40, 1), { rel: 1e-9 })
    const part = partOf([disc('d', AXIS, 200, 30)], [bore('A', AXIS, 50)])
    const at = { centre: { bore: 'A' } }
    expectNear(left([drillCut('A', 30), boreCut('A')], part, at).lost, ring(50, 0, 30), { rel: 1e-9 })
    expectNear(left([drillCut('A', 30)], part, at).lost, ring(30, 0, 30), { rel: 1e-9 })
    const job = jobWith({ part, setup: { ...at, cuts: [drillCut('A', 30), boreCut('A')] } })
    expect(removedAfter(job, job.setups[0]!)).toHaveLength(1)
  })

  test('an eccentric turned true about the axis has its unbalance after the cut by hand', () => {
    // A disc of 200 whose middle stands 10 mm off the axis, turned to 180 about the axis.
    const { a } = look(of([turn(220, 180)], DISC, { centre: { x: -10, y: 0 } }))
    const whole = Math.PI * 100 ** 2 * 30 * STEEL * 1000
    expectNear(a.unbalance.static_g_mm, whole * 10, { rel: 1e-9 })
    expect(a.unbalance.after_cut_g_mm).toBeLessThan(1e-6 * whole)
  })

  test('what is not drawn is said: pictures go on as before, meshes keep their mass', () => {
    expect(look(of([face(20, 90)])).found('cut-not-drawn')!.item).toBe('f')
    expect(
      look(of([boreCut('A')], partOf([disc('d', AXIS, 90, 9)], [bore('A', AXIS, 20)]))).found(
        'cut-not-drawn',
      ),
    ).toBeUndefined()
  })
})

const CLAMP = strapClamp('c1', 1, { at: { slot: 'S1', radius: 115 } })

describe('what is left for the clamps of a later setup', () => {
  // A disc of 200 × 30 on 12 mm of packing, a strap whose toe lies some 85 mm from its middle.
  const second = (cuts: readonly Cut[], centre = { x: 0, y: 0 }) => {
    const job = jobWith({
      part: DISC,
      setups: [
        { cuts, centre, hardware: [] },
        { centre: AXIS, hardware: [CLAMP] },
      ],
    })
    const mounted = mountSetup(job, 'op20')
    const toe = mounted.pieces[0]!.toe!
    return { toe, lies: toeLies(mounted, toe), first: mountSetup(job, 'op10') }
  }

  test('as drawn, the toe lies on the front of the disc', () => {
    const { toe, lies } = second([])
    expect(lies).toBeNull()
    expectNear(toe.rest!.z, 42, { abs: 1e-9 })
  })

  test('faced 3 mm, the strap comes 3 mm lower; its own setup sees the part as drawn', () => {
    const { toe, lies, first } = second([face(0, 100, { z: [27, 30] })])
    expect(lies).toBeNull()
    expectNear(toe.rest!.z, 39, { abs: 1e-9 })
    expect(first.turned).toEqual([])
  })

  test('faced in part, or about another axis, it is faced where it was faced', () => {
    expectNear(second([face(0, 40, { z: [27, 30] })]).toe.rest!.z, 42, { abs: 1e-9 })
    // The same face about a point 100 mm away reaches the toe no more.
    expectNear(second([face(0, 40, { z: [27, 30] })], { x: 85, y: 0 }).toe.rest!.z, 39, { abs: 1e-9 })
  })

  test('turned away under the toe, it lies on nothing', () => {
    const { toe, lies } = second([turn(220, 120)])
    expect(lies).not.toBeNull()
    expect(toe.rest === null || toe.rest.share < 0.99).toBe(true)
  })

  test('a cut that takes material never makes a later setup better', () => {
    for (const cut of [face(0, 100, { z: [27, 30] }), turn(220, 120), recess(140, 190, { z: [20, 30] })]) {
      const job = (cuts: readonly Cut[]) =>
        jobWith({
          part: DISC,
          setups: [
            { cuts, centre: AXIS, hardware: [] },
            { centre: AXIS, hardware: [CLAMP] },
          ],
        })
      const [before, after] = [job([]), job([cut])].map((j) => analyse(j, 'op20').verdict.state)
      const worth = ['stop', 'not-judged', 'caution', 'go']
      expect(worth.indexOf(after!)).toBeLessThanOrEqual(worth.indexOf(before!))
    }
  })
})

describe('the way of a tool about the axis', () => {
  const at = (x: number, more = {}) => piece('k', 1, { x, y: 0 }, { height: 60, ...more })
  const path = (cut: Cut, ...hardware: ReturnType<typeof at>[]) =>
    look(of([cut], DISC, { hardware })).found('in-tool-path')

  test('a piece in the ring it comes through is in the way, one beside or below is not', () => {
    // Round, 40 across: reaches 20 mm to either side.
    expect(path(turn(200, 190), at(115))).toMatchObject({ item: 'k', severity: 'stop' })
    expect(path(turn(200, 190), at(122))).toBeDefined()
    expect(path(turn(200, 190), at(124))).toBeUndefined()
    expect(path(face(20, 60), at(82))).toBeDefined()
    expect(path(face(20, 60), at(84))).toBeUndefined()
    expect(path(face(40, 60), at(0, { footprint: { circle: 70 } }))).toBeUndefined()
    expect(path(face(40, 60), at(0, { footprint: { circle: 82 } }))).toBeDefined()
    // The face is left at 12 + 29.
    expect(path(face(20, 60), at(60, { height: 41 }))).toBeUndefined()
    expect(path(face(20, 60), at(60, { height: 41.1 }))).toBeDefined()
  })

  test('a cut deeper than the plate’s face is stopped', () => {
    const into = (z: number) => look(of([turn(200, 190, { z: [z, 30] })])).found('breakthrough-plate')
    expect(into(-12)).toBeUndefined()
    expect(into(-12.5)!.message).toContain('0.5 mm')
  })
})

describe('the speed to set', () => {
  const words = (lathe: Job['lathe']['speeds'], speed: number | null, cut = face(10, 100)) => {
    const job = jobWith({ part: DISC, lathe: { speeds: lathe }, setup: { cuts: [cut], speed } })
    return analyse(job, 'op10').findings.find((f) => f.item === 'f' && /cutting-speed/.test(f.code))!.message
  }
  /** As it reads where nothing stands against any speed. */
  const free = { rpm: null, limit: null } as const
  const set = (speeds: Job['lathe']['speeds']) => {
    const job = jobWith({ part: DISC, lathe: { speeds }, setup: { cuts: [face(10, 100)] } })
    const judgement = { ceilings: { bound: free, best: free }, findings: [] }
    const { set_rpm: rpm } = analyse(job, 'op10').cutting!
    return settingWords(rpm, judgement, job.lathe, formatter('mm'))
  }
  // 20 m/min on 200 mm is 31.8 rpm.
  test('in steps, with back gear in or out, and without steps', () => {
    expect(set(steps(20, 30, 45))).toBe('30 rpm will do')
    const geared = {
      steps: [
        { rpm: 30, backGear: true },
        { rpm: 90, backGear: false },
      ],
      stepless: null,
    }
    expect(set(geared)).toBe('30 rpm will do, back gear in')
    expect(set({ steps: [], stepless: [20, 400] })).toBe('31.8 rpm will do')
    expect(set({ steps: [], stepless: [50, 400] })).toBe('even the slowest speed is too fast')
    expect(words(steps(20, 30, 45), null)).toMatch(/^About 32 rpm wanted for facing f /)
    expect(words(steps(20, 30, 45), 90)).toMatch(/^90 rpm is hard on the tool: 57 m\/min\. About 32 rpm/)
  })

  test('a lathe without steps shows its range and preferred speeds between; a step is none of its own', () => {
    const job = jobWith({ lathe: { speeds: { steps: [], stepless: [20, 400] } }, setup: { speed: 137 } })
    const { speeds, findings } = analyse(job, 'op10')
    expect(speeds.map((s) => s.rpm)).toEqual([20, 25, 40, 63, 100, 137, 160, 250, 400])
    expect(findings.some((f) => f.code === 'no-such-gear')).toBe(false)
    const both = jobWith({
      lathe: { speeds: { ...steps(45, 110), stepless: [20, 400] } },
      setup: { speed: null },
    })
    expect(analyse(both, 'op10').speeds.map((s) => s.rpm)).toEqual([20, 25, 45, 63, 110, 160, 250, 400])
    const over = { ...job, setups: job.setups.map((s) => ({ ...s, speed: 401 })) }
    expect(analyse(over, 'op10').findings.find((f) => f.code === 'no-such-gear')!.message).toContain(
      '20 to 400',
    )
  })
})
