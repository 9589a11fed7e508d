/** Hollow rounds and sharp vees: what is not known of them is not judged. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { circleRing } from '../../../src-core/geometry/edges.ts'
import { thinWall } from '../../../src-core/holding/veeWall.ts'
import type { Cut, Job, Vee } from '../../../src-core/job/schema.ts'
import { middleOverLands } from '../../../src-core/mounting/inVee.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { expectNear } from '../../helpers/near.ts'
import { CASTING, castingInVee, VEE } from '../../helpers/shelfJobs.ts'

/** The round of 80 by 100, its bore of so much in the middle; a start of so much is drawn. */
function tube(inside: number): Job {
  const job = castingInVee()
  const [body] = job.part.bodies
  const hole = { ...body!, holes: [circleRing({ x: 0, y: 0 }, inside)] }
  return {
    ...job,
    part: { ...job.part, bodies: [hole as typeof body & object], bores: [] },
    setups: job.setups.map((s) => ({ ...s, centre: { x: 0, y: -CASTING.off }, cuts: [] })),
  }
}
const wallOf = (job: Job, force: number) => {
  const mounted = mountSetup(job, 'op10')
  const { item, pose, round } = mounted.shelves![0]!.shelf!
  if (!round?.lies) throw new Error('it does not lie')
  return thinWall(mounted, item as Vee, pose, round, force)
}

describe('a tube of 80', () => {
  test('thin in its wall is bent as a ring: F·R/π over its length, by hand', () => {
    const found = wallOf(tube(70), 20_000)!
    expect(found.thickness).toBeGreaterThanOrEqual(5)
    expect(found.thickness).toBeLessThanOrEqual(5.5)
    // It touches from 12 to 110 of the plate: 98 long. By the wall that is found, to the step.
    const t = found.thickness
    expectNear(found.stress, (6 * 20_000 * (40 - t / 2)) / Math.PI / (98 * t * t), { rel: 1e-9 })
  })

  test('bears little force, and any with a thick wall', () => {
    expect(wallOf(tube(70), 300)).toBeNull()
    expect(wallOf(tube(50), 20_000)).toBeNull()
  })

  test('counts with its bores cut, wherever they thin it', () => {
    const bored = (diameter: number): Job => {
      const job = castingInVee()
      return { ...job, part: { ...job.part, bores: job.part.bores.map((b) => ({ ...b, diameter })) } }
    }
    expect(wallOf(bored(30), 30_000)).toBeNull()
    // Its flank is met 32.6 from the bore's middle.
    expect(wallOf(bored(56), 30_000)!.thickness).toBeLessThan(6)
    const a = analyse(bored(56), 'op10')
    expect(a.joints.find((j) => j.id === 'part')!.factor).toBeNull()
    expect(a.findings.find((f) => f.code === 'joint-not-judged')!.message).toMatch(
      /whether its wall bears the flanks is not known/,
    )
  })

  const all = {
    id: 'k1',
    z: [0, 100],
    tool: 'HSS',
    speed: 20,
    feed: 0.1,
    interrupted: false,
    depth: 1,
  } as const
  const after = (cut: Cut): Job => {
    const job = tube(50)
    const [op10] = job.setups
    const op05 = { ...op10!, id: 'op05', centre: { x: 0, y: 0 }, seat: null, hardware: [], cuts: [cut] }
    return { ...job, setups: [op05, op10!] }
  }

  test('counts with what earlier setups recessed out of it', () => {
    const found = wallOf(after({ ...all, kind: 'recess', start: 50, diameter: 72 }), 20_000)!
    expect(found.thickness).toBeGreaterThanOrEqual(4)
    expect(found.thickness).toBeLessThanOrEqual(4.5)
  })

  test('does not lie in the vee where its outside was turned away before', () => {
    const round = (job: Job) => mountSetup(job, 'op10').shelves![0]!.shelf!.round
    expect(round(after({ ...all, kind: 'turn', start: 100, diameter: 90 }))).toMatchObject({
      lies: true,
    })
    expect(round(after({ ...all, kind: 'turn', start: 80, diameter: 78 }))).toEqual({
      lies: false,
      why: 'bare',
    })
  })
})

test('flanks sharper than sixty degrees are not judged', () => {
  const at = (angle: number): Job => {
    const opening = 74
    const vee: Vee = { ...VEE, angle, opening, size: [240, 160, 110] }
    const y = CASTING.off - middleOverLands(vee, CASTING.diameter)
    const job = castingInVee()
    return {
      ...job,
      setups: job.setups.map((s) => ({
        ...s,
        hardware: s.hardware.map((h) => (h.kind === 'vee' ? { ...vee, at: { x: 0, y } } : h)),
      })),
    }
  }
  const said = (angle: number) => analyse(at(angle), 'op10').findings.map((f) => f.message)
  expect(said(60).filter((m) => m.includes('friction carries much'))).toEqual([])
  expect(said(56).filter((m) => m.includes('friction carries much'))).toHaveLength(1)
})
