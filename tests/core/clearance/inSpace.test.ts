/** Clashes and swept radii of what does not stand upright: by hand, and the part's solids against manifold-3d. */
import { describe, expect, it, test } from 'vitest'
import { clashFindings } from '../../../src-core/clearance/clashes.ts'
import { breakthroughFindings } from '../../../src-core/clearance/breakthrough.ts'
import { tailstockFindings } from '../../../src-core/clearance/tailstock.ts'
import { toolPathFindings } from '../../../src-core/clearance/toolPath.ts'
import { clearances } from '../../../src-core/clearance/clearance.ts'
import { partInSpace } from '../../../src-core/clearance/partInSpace.ts'
import { sweptThings } from '../../../src-core/clearance/swept.ts'
import { turnPoint } from '../../../src-core/geometry/angles.ts'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import type { Convex } from '../../../src-core/geometry/space/convex.ts'
import type { Hardware, Job, Part, Prism } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { block, bore, disc, drillCut, jobWith, partOf, piece } from '../../helpers/jobs.ts'
import { expectNear } from '../../helpers/near.ts'
import { manifoldPrism } from '../../helpers/peers.ts'
import { ANGLE_PLATE, bearingBlock, castingInVee, CENTRE_HEIGHT } from '../../helpers/shelfJobs.ts'
import { Solid, type Manifold } from '../../helpers/solids.ts'

const clashes = (job: Job) => clashFindings(mountSetup(job, 'op10'))
const told = (job: Job) => clashes(job).map((f) => `${f.severity} ${f.code} ${f.item}`)
/** 8 across and 8 high, so far behind the shelf's face and along it. */
const lump = (behind: number, along: number, base: number): Hardware =>
  piece('w', 0.1, { x: along, y: -CENTRE_HEIGHT - behind }, { footprint: { circle: 8 }, base, height: 8 })

describe('hardware against what lies', () => {
  it('nothing of a part on an angle plate or in a vee', () => {
    expect(told(bearingBlock())).toEqual([])
    expect(told(castingInVee())).toEqual([])
  })

  it('a lump under the slope of a web clashes with it, above the slope it does not', () => {
    // A web goes from 100 behind the face at 16 out to 16 behind it at 125: at 60 it ends 67.9 out. It is 14 thick, flush with the end.
    expect(told(bearingBlock([lump(60, 80.5, 57)]))).toEqual(['stop hardware-clash A1'])
    expect(told(bearingBlock([lump(60, 80.5, 75)]))).toEqual([])
    // Beside it along the shelf.
    expect(told(bearingBlock([lump(60, 62, 57)]))).toEqual([])
    const [found] = clashes(bearingBlock([lump(60, 80.5, 57)]))
    expect(found!.message).toMatch(
      /^A1 and w stand in the same place: .* Move one of them by that at least\.$/,
    )
    expectNear(found!.at!.x, 80.5, { abs: 1 })
    expectNear(found!.at!.y, -CENTRE_HEIGHT - 60, { abs: 4 })
  })
})

describe('a part that meets its own fixture', () => {
  const raised = (by: number) => {
    const job = bearingBlock()
    const [setup] = job.setups
    const hardware = setup!.hardware.map((h) =>
      h.kind === 'anglePlate' ? { ...h, at: { x: 0, y: -CENTRE_HEIGHT + by } } : h,
    )
    return { ...job, setups: [{ ...setup!, hardware }] }
  }

  it('is told with what clears it', () => {
    expect(told(raised(0))).not.toContain('stop part-clash A1')
    expect(told(raised(-5))).not.toContain('stop part-clash A1')
    const found = clashes(raised(5)).find((f) => f.code === 'part-clash')!
    expect(found.item).toBe('A1')
    expect(found.message).toMatch(/^A1 runs into the part: 5 mm into each other/)
    expect(found.message).toMatch(/Set it 5 mm further from the axis, or pack the part up on it\.$/)
  })

  it('as much when all is turned about the axis', () => {
    for (const turn of [30, 90, 217]) {
      const job = raised(5)
      const [setup] = job.setups
      const at = turnPoint({ x: 0, y: -CENTRE_HEIGHT + 5 }, turn)
      const hardware = setup!.hardware.map((h) =>
        h.kind === 'anglePlate' ? { ...h, at, facing: ANGLE_PLATE.facing + turn } : h,
      )
      const turned = { ...job, setups: [{ ...setup!, turn, hardware }] }
      const found = (j: Job) => clashes(j).find((f) => f.code === 'part-clash')!
      expect(found(turned).message).toBe(found(job).message)
      const there = turnPoint(found(job).at!, turn)
      expectNear(Math.hypot(found(turned).at!.x - there.x, found(turned).at!.y - there.y), 0, { abs: 1e-6 })
    }
  })
})

describe('swept radius at every height', () => {
  const swept = (job: Job, item: string, against: string) => {
    const mounted = mountSetup(job, 'op10')
    return clearances(mounted, sweptThings(mounted)).find((c) => c.item === item && c.against === against)
  }

  test('of a web by where the bed begins', () => {
    const job = bearingBlock()
    const narrow = { ...job, lathe: { ...job.lathe, gap: { swing: 700, width: 40, open: true } } }
    // In the gap the foot's corner; beyond it the web at 40 out, 100 − 24·84/109 behind the face, its outer side at 87.5.
    const behind = CENTRE_HEIGHT + 100
    expectNear(swept(narrow, 'A1', 'gap')!.swept_radius_mm, Math.hypot(87.5, behind), { rel: 1e-9 })
    const there = Math.hypot(87.5, behind - (24 * 84) / 109)
    expectNear(swept(narrow, 'A1', 'bed')!.swept_radius_mm, there, { rel: 1e-9 })
    expectNear(Math.abs(swept(narrow, 'A1', 'bed')!.corner.x), 87.5, { abs: 1e-9 })
  })

  test('of a body that lies across', () => {
    // A right-angled slope: 60 from the axis at its foot, 20 at its top 40 out from its back.
    const slope: Prism = {
      ...block('slope', { x: 0, y: 0 }, [1, 1, 10]),
      across: 90,
      base: 0,
      thickness: 10,
      outline: [
        { x: 0, y: 0 },
        { x: 60, y: 0 },
        { x: 20, y: 40 },
        { x: 0, y: 40 },
      ],
    }
    const job = jobWith({
      part: partOf([slope]),
      lathe: { gap: { swing: 470, width: 20, open: true } },
      setup: { packing: 0, centre: { x: 0, y: 0 } },
    })
    expectNear(swept(job, 'part', 'gap')!.swept_radius_mm, Math.hypot(60, 10), { rel: 1e-9 })
    expectNear(swept(job, 'part', 'bed')!.swept_radius_mm, Math.hypot(40, 10), { rel: 1e-9 })
  })
})

/** By the kernel: what adds, less what removes and what is bored. */
function kernelPart(part: Part, open: readonly { x: number; y: number; diameter: number }[]): Manifold {
  const solidOf = (b: Prism) => {
    const flat = manifoldPrism(b, b.base, b.base + b.thickness, 0.005)
    // Lying across towards 90 degrees: drawn x to the left of it, drawn y out from the back.
    return b.across === undefined ? flat : flat.transform([-1, 0, 0, 0, 0, 0, 1, 0, 0, 1, 0, 0, 0, 0, 0, 1])
  }
  const bodies = part.bodies as Prism[]
  const all = (effect: string) => bodies.filter((b) => b.effect === effect).map(solidOf)
  const bored = open.map((o) =>
    manifoldPrism({ outline: circleRing(o, o.diameter), holes: [] }, -100, 300, 0.005),
  )
  const adds = all('adds').reduce((sum, s) => sum.add(s))
  return [...all('removes'), ...bored].reduce((left, s) => left.subtract(s), adds)
}

const hull = ({ corners, through }: Convex): Manifold => {
  const points: [number, number, number][] = []
  for (let i = 0; i < corners.length; i += 3) {
    const [x, y, z] = [corners[i]!, corners[i + 1]!, corners[i + 2]!]
    points.push([x, y, z], [x + through.x, y + through.y, z + through.z])
  }
  return Solid.hull(points)
}

describe('the part as solids in space', () => {
  const pocketed = partOf(
    [
      disc('flange', { x: 0, y: 0 }, 120, 20, { holes: [circleRing({ x: 40, y: 0 }, 12)] }),
      block('web', { x: 10, y: 5 }, [60, 24, 50], { base: 15 }),
      block('pocket', { x: 0, y: 0 }, [30, 20, 12], { effect: 'removes', base: 53 }),
      {
        ...block('foot', { x: 0, y: 0 }, [1, 1, 1]),
        across: 90,
        base: 30,
        thickness: 15,
        outline: [
          { x: -30, y: 5 },
          { x: 30, y: 5 },
          { x: 30, y: 20, bulge: 0.3 },
          { x: -30, y: 45 },
        ],
        holes: [circleRing({ x: 12, y: 15 }, 10)],
      },
    ],
    [bore('A', { x: 0, y: -40 }, 16)],
  )
  const kernelVolume = (open: readonly { x: number; y: number; diameter: number }[]) =>
    kernelPart(pocketed, open).volume()
  const mountedWith = (cuts: 'none' | 'later') => {
    const job = jobWith({ part: pocketed, setup: { centre: { x: 3, y: 4 }, turn: 40, packing: 7 } })
    const first = job.setups[0]!
    const cut = { ...first, id: 'op5', cuts: [{ kind: 'bore', bore: 'A', tool: 'carbide' }] }
    const setups = cuts === 'later' ? [{ ...cut, name: 'first' }, first] : [first]
    return mountSetup({ ...job, setups: setups as Job['setups'] }, 'op10')
  }

  test.each(['none', 'later'] as const)('is what manifold makes of its bodies, bores cut: %s', (cuts) => {
    const mounted = mountedWith(cuts)
    const pieces = partInSpace(mounted).flatMap(({ solid }) => solid.pieces)
    const volume = Solid.union(pieces.map(hull)).volume()
    const open = cuts === 'later' ? [{ x: 0, y: -40, diameter: 16 }] : []
    const expected = kernelVolume(open)
    // Arcs are drawn around by 0.02 mm over some 60,000 mm² at most; nothing is left out but what chords leave.
    expect(volume).toBeGreaterThan(expected - 50)
    expect(volume).toBeLessThan(expected + 500)
    if (cuts === 'later') expect(kernelVolume([]) - expected).toBeGreaterThan(3000)
  })
})

describe('tools past what leans or stands askew on a shelf: by what is really there', () => {
  /** A block of 50 by 24 turned by 135° on the shelf: its corners 9.2 and 26.2 off its middle, along and out. */
  const askew = (along: number, out: number, high: number): Hardware => ({
    id: 's1',
    kind: 'stop',
    at: { on: 'A1', along, out },
    facing: 135,
    size: [50, 24, high],
    stud: { thread: 'M12', class: '8.8', length: 'suit' },
    torque: 45,
    fixed: true,
  })
  const edge = { tool: 'HSS', speed: 20, feed: 0.1, depth: 1, interrupted: false } as const

  it('a facing tool: of the block only the corner that reaches over the face', () => {
    const cut = { id: 'f', kind: 'face', from: 40, to: 21, ...edge } as const
    const met = (out: number) =>
      toolPathFindings(mountSetup(bearingBlock([askew(50, out, 30)], { cuts: [cut] }), 'op10')).map(
        (f) => f.item,
      )
    // The face is 94 out, 43 about the axis is the tool's. The block's top is at −33.5; its upright box begins 23.8 beside.
    // Of one 80 out that corner over the face begins 28.6 beside: 44 from the axis.
    expect(met(80)).toEqual([])
    expect(met(100)).toEqual(['s1'])
  })

  it('the tailstock: a rib that leans away from it', () => {
    const job = bearingBlock([], { cuts: [drillCut('A', 20)] })
    // From 20 beside the axis, 80 out, to 60 beside, 160 out: 34.5 beside where the barrel ends, 14 + 8 higher.
    const rib: Prism = {
      ...block('rib', { x: 0, y: 0 }, [1, 1, 60]),
      across: 90,
      base: -30,
      outline: [
        { x: 20, y: 66 },
        { x: 60, y: 66 },
        { x: 60, y: 146 },
      ],
    }
    const met = (barrel: number) => {
      // The drill's point comes to 14 − 6, so barrel and chuck to 109.
      const lathe = { ...job.lathe, tailstock: { barrel, reach: 101 } }
      const part = { ...job.part, bodies: [...job.part.bodies, rib] }
      return tailstockFindings(mountSetup({ ...job, lathe, part }, 'op10')).map((f) => f.item)
    }
    expect(met(66)).toEqual([])
    expect(met(72)).toEqual(['part'])
  })

  it('a drill that comes through: what leans under it, though it goes on in front', () => {
    const met = (along: number) =>
      breakthroughFindings(
        mountSetup(bearingBlock([askew(along, 30, 50)], { cuts: [drillCut('A', 40)] }), 'op10'),
      ).map((f) => f.item)
    // Below 14 out only a corner 9.2 ± 10 further along is left of it; at −13.5 up the drill is 14.8 wide to either side.
    expect(met(20)).toEqual([])
    expect(met(-9)).toEqual(['s1'])
  })
})
