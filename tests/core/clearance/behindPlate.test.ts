import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { tailsBehind } from '../../../src-core/clearance/behindPlate.ts'
import type { Job, Lathe, Plate } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { expectNear } from '../../helpers/near.ts'
import { jobWith } from '../../helpers/jobs.ts'
import { strapClamp } from '../../helpers/clamped.ts'

const clamped = (lathe: Partial<Lathe>, thread = 'M12', plate: Partial<Plate> = {}): Job => {
  const clamp = strapClamp()
  return jobWith({
    lathe,
    plate,
    setup: { hardware: [{ ...clamp, at: { slot: 'S1', radius: 100 }, stud: { ...clamp.stud, thread } }] },
  })
}
const found = (job: Job, code: string) => analyse(job, 'op10').findings.filter((f) => f.code === code)
const slots = (width: number, kind: 'through' | 'tee' = 'through') => [
  { id: 'S1', angle: 0, from: 55, to: 135, width, kind },
]

describe('what stands out behind the plate', () => {
  test('washer, nut and two pitches of an M12 stud: 2.4 + 10.8 + 3.5 mm, its nut 20.8 across corners', () => {
    const [tail] = tailsBehind(mountSetup(clamped({}), 'op10'))
    expectNear(tail!.depth, 16.7, { abs: 1e-9 })
    expectNear(tail!.radius, 100 + 18 / Math.sqrt(3), { abs: 1e-9 })
  })

  test('is held against the room there, in depth and out to the guard', () => {
    expect(found(clamped({ behindPlate: { depth: 16.6 } }), 'fouls-behind').map((f) => f.item)).toEqual([
      'c1',
    ])
    expect(found(clamped({ behindPlate: { depth: 16.8 } }), 'fouls-behind')).toEqual([])
    expect(found(clamped({ behindPlate: { depth: 40, radius: 110 } }), 'fouls-behind')).toHaveLength(1)
    expect(found(clamped({ behindPlate: { depth: 40, radius: 111 } }), 'fouls-behind')).toEqual([])
  })

  test('with the room unknown a usual bolt passes, a large one is not judged', () => {
    expect(found(clamped({}), 'behind-not-checked')).toEqual([])
    const large = found(clamped({}, 'M24', { slots: slots(26) }), 'behind-not-checked')
    expect(large.map((f) => [f.item, f.effect])).toEqual([['lathe', 'unknown']])
  })

  test('a tee slot keeps its bolts inside the plate', () => {
    expect(tailsBehind(mountSetup(clamped({}, 'M12', { slots: slots(14, 'tee') }), 'op10'))).toEqual([])
  })
})
