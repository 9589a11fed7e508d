import { describe, expect, test } from 'vitest'
import { checkJob } from '../../src-core/job/parse.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { distanceToRegion } from '../../src-core/geometry/nearest.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { addPiece } from '../../src-renderer/editor/edits/hardware.ts'
import { stockOf, usualChoice } from '../../src-core/hardware/choice.ts'
import { CATALOGUE, catalogueKind } from '../../src-core/hardware/catalogue.ts'
import { clampOnPart, likeIt, placed } from '../../src-renderer/editor/edits/putPiece.ts'
import { blankJob, START } from '../../src-renderer/state/blankJob.ts'
import { boxOf, exampleJob } from './example.ts'

const sound = (job: Job): boolean => checkJob(JSON.parse(serialiseJob(job))).ok

describe('put where it is wanted', () => {
  test('every usual size of every kind makes a piece and, where it may, stock that a job holds', () => {
    for (const kind of CATALOGUE)
      kind.usual.forEach((_, i) => {
        let job = exampleJob()
        const c = usualChoice(kind.name, i)
        const piece = placed(c, job, 'op10', mountSetup(job, 'op10'), null)!
        job = addPiece(job, 'op10', piece).job
        const stock = stockOf(c, 3)
        expect(stock !== null).toBe(catalogueKind(kind.name).stock)
        if (stock) job = { ...job, stock: [...job.stock, { id: 'new', ...stock }] }
        expect(sound(job), `${kind.name} ${i}`).toBe(true)
      })
  })
  const job = blankJob(START)
  test('straps hold the part from opposite sides, each nose on it and each bolt beside it', () => {
    let now = job
    for (let i = 0; i < 3; i++) {
      const piece = clampOnPart(usualChoice('strap', 2), now, 'op10', mountSetup(now, 'op10'))!
      now = addPiece(now, 'op10', piece).job
    }
    const mounted = mountSetup(now, 'op10')
    const region = mounted.bodies[0]!.regions[0]!
    for (const p of mounted.pieces) {
      expect(distanceToRegion(region, boxOf(p.item).press!.nose!)).toBe(0)
      expect(distanceToRegion(region, p.at)).toBeGreaterThan(6)
      expect(p.z0).toBe(mounted.partFront)
    }
    // Well apart round the plate, and nothing of them in the bar's way, on one another or near the bed.
    const angles = mounted.pieces.map((p) => (Math.atan2(p.at.y, p.at.x) * 180) / Math.PI)
    for (const [i, a] of angles.entries())
      for (const b of angles.slice(i + 1)) expect(Math.cos(((a - b) * Math.PI) / 180)).toBeLessThan(0.72)
    const stops = analyse(now, 'op10').findings.filter((f) => f.severity === 'stop' && /^c\d/.test(f.item))
    expect(stops).toEqual([])
    expect(analyse(now, 'op10').clamping).not.toBeNull()
    expect(sound(now)).toBe(true)
  })
  test('a heel block goes under the heel of the clamp that is selected', () => {
    const example = exampleJob()
    const clamp = example.setups[0]!.hardware.find((h) => h.kind === 'press')!
    const piece = placed(usualChoice('heel'), example, 'op10', mountSetup(example, 'op10'), clamp)!
    const bolt = mountSetup(example, 'op10').pieces.find((p) => p.item.id === clamp.id)!.at
    const at = boxOf(piece).at as { x: number; y: number }
    expect(Math.hypot(at.x - bolt.x, at.y - bolt.y)).toBeCloseTo(boxOf(clamp).press!.boltToHeel!, 0)
  })
  test('another like it: a clamp holds elsewhere with the same data, loose packing goes through the axis', () => {
    const example = exampleJob()
    const mounted = mountSetup(example, 'op10')
    const [clamp, packing] = ['press', 'packing'].map((k) =>
      boxOf(example.setups[0]!.hardware.find((h) => h.kind === k)),
    )
    const more = boxOf(likeIt(clamp!, example, 'op10', mounted))
    expect(more.press).toMatchObject({ thread: clamp!.press!.thread, torque: clamp!.press!.torque })
    expect(more.at).not.toEqual(clamp!.at)
    expect(more.mass).toBe(clamp!.mass)
    const at = packing!.at as { x: number; y: number }
    const opposite = boxOf(likeIt(packing!, example, 'op10', mounted)).at as { x: number; y: number }
    expect(opposite.x + at.x).toBeCloseTo(0, 9)
    expect(opposite.y + at.y).toBeCloseTo(0, 9)
    expect(sound(addPiece(example, 'op10', more).job)).toBe(true)
  })
})
