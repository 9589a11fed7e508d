/** Joints on shelves, in vees and of their fixtures never exceed what a rigid body on friction cones carries. */
import { describe, expect, test } from 'vitest'
import { cuttingAdvice } from '../../../src-core/cutting/advice.ts'
import { uncertaintiesOf } from '../../../src-core/doubt/defaults.ts'
import { clampStates } from '../../../src-core/holding/clampState.ts'
import { Joint } from '../../../src-core/holding/joint.ts'
import { judgeJoints } from '../../../src-core/holding/judged.ts'
import { pressesOf } from '../../../src-core/holding/presses.ts'
import type { AnglePlate, Hardware, Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { assemble } from '../../../src-core/unbalance/assembly.ts'
import { angularSpeed } from '../../../src-core/unbalance/static.ts'
import { withHardware } from '../../helpers/edited.ts'
import { drawLoad, draws, within } from '../../helpers/randomJoint.ts'
import { rigidFactor, rigidVeeFactor } from '../../helpers/rigidJoint.ts'
import { bearingBlock, castingInBlock, castingInVee } from '../../helpers/shelfJobs.ts'

function jointsOf(job: Job) {
  const mounted = mountSetup(job, 'op10')
  const assembly = assemble(mounted, uncertaintiesOf(job))
  return judgeJoints({ mounted, assembly, cutting: cuttingAdvice(mounted), states: clampStates(mounted) })
    .joints
}

const JOBS = [bearingBlock, castingInVee, castingInBlock]

/** The n-th setup with other torques and, of a loose block, other places of it and of the straps over it. */
function drawn(draw: ReturnType<typeof draws>, n: number): Job {
  const speed = within(draw, 20, 500)
  const job = JOBS[n % JOBS.length]!([], { speed })
  const change = (h: Hardware): Hardware => {
    if (h.kind === 'bolt') return { ...h, torque: within(draw, 5, 70) }
    if ('at' in h && 'along' in h.at) {
      const at = { ...h.at, out: h.at.out + within(draw, -8, 6) }
      return h.kind === 'clamp' ? { ...h, at, torque: within(draw, 5, 60) } : ({ ...h, at } as Hardware)
    }
    if (h.kind === 'clamp') return { ...h, torque: within(draw, 5, 45) }
    if (h.kind !== 'anglePlate' && h.kind !== 'vee') return h
    const torque = within(draw, 5, 80)
    return { ...h, bolts: h.bolts.map((b) => ({ ...b, torque })) } as AnglePlate
  }
  return withHardware(job, change)
}

describe('under the rigid linear program', () => {
  test('joints on shelves and in vees, and of angle plates and vees on the plate', () => {
    const draw = draws(41)
    let nearest = 0
    const seen = new Set<string>()
    for (let n = 0; n < 30; n++) {
      const job = drawn(draw, n)
      const rpm = job.setups[0]!.speed!
      for (const { built, result } of jointsOf(job)) {
        const { input } = built
        if (!input || !result || 'strap' in input.grip) continue
        seen.add(built.what)
        const { hull } = new Joint(input)
        const presses = pressesOf(input.grip)
        let least = Infinity
        for (let k = 0; k < 12; k++) {
          const loading = input.loadings[k % input.loadings.length]!
          const load = drawLoad(draw, input.seat, loading.loads, angularSpeed(rpm))
          const forces = presses.map((p) => ({
            at: p.at,
            force: k % 3 === 0 ? p.force : within(draw, p.force, p.high ?? p.force),
          }))
          const carried = input.vee
            ? rigidVeeFactor(
                input.vee,
                hull.points.map((p) => p.x),
                input.friction,
                forces,
                load,
              )
            : rigidFactor(hull.points, input.friction, forces, load)
          least = Math.min(least, carried)
        }
        expect(result.factor, `${n} ${built.id}`).toBeLessThanOrEqual(least * (1 + 1e-6) + 1e-9)
        if (least > 0 && least < Infinity) nearest = Math.max(nearest, result.factor / least)
      }
    }
    expect([...seen].sort()).toEqual([
      'angle plate A1 on the plate',
      'the part in V1',
      'the part on the shelf of A1',
      'vee V1 on the plate',
      'vee V1 on the shelf of A1',
    ])
    expect(nearest).toBeGreaterThan(0.3)
  })
})
