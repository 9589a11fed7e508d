import { describe, expect, test } from 'vitest'
import { checkJob } from '../../src-core/job/parse.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { distanceToRegion } from '../../src-core/geometry/nearest.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { addPiece } from '../../src-renderer/editor/edits/hardware.ts'
import { stockOf, usualChoice } from '../../src-core/hardware/choice.ts'
import { CATALOGUE, catalogueKind, usualSizes } from '../../src-core/hardware/catalogue.ts'
import { clampOnPart, likeIt, placed } from '../../src-renderer/editor/edits/putPiece.ts'
import { blankJob, START, START_INCH } from '../../src-renderer/state/blankJob.ts'
import { boxOf, exampleJob } from './example.ts'

const sound = (job: Job): boolean => checkJob(JSON.parse(serialiseJob(job))).ok

describe('put where it is wanted', () => {
  test('every usual size of every kind makes a piece and, where it may, stock that a job holds', () => {
    const shops = [
      ['mm', START],
      ['in', START_INCH],
    ] as const
    for (const [kind, [units, start]] of CATALOGUE.flatMap((k) => shops.map((s) => [k, s] as const)))
      usualSizes(kind, units).forEach((_, i) => {
        let job = kind.name === 'strap' ? blankJob(start) : exampleJob()
        const c = usualChoice(kind.name, units, i)
        const piece = placed(c, job, 'op10', mountSetup(job, 'op10'))!
        job = addPiece(job, 'op10', piece).job
        const stock = stockOf(c, 3)
        expect(stock !== null).toBe(catalogueKind(kind.name).stock)
        if (stock) job = { ...job, stock: [...job.stock, { id: 'new', ...stock }] }
        expect(sound(job), `${kind.name} ${i}`).toBe(true)
      })
  })
  const job = blankJob(START)
  test('straps hold the part from opposite sides, each toe wholly on it and each bolt beside it', () => {
    let now = job
    for (let i = 0; i < 3; i++) {
      const piece = clampOnPart(usualChoice('strap', 'mm', 3), now, 'op10', mountSetup(now, 'op10'))!
      now = addPiece(now, 'op10', piece).job
    }
    const mounted = mountSetup(now, 'op10')
    const region = mounted.bodies[0]!.regions[0]!
    for (const p of mounted.pieces) {
      expect(p.toe!.rest).toMatchObject({ z: mounted.partFront })
      expect(p.toe!.rest!.share).toBeGreaterThan(0.99)
      expect(distanceToRegion(region, p.at)).toBeGreaterThan(6)
      // The bolt a third of the way from work to heel: the work gets about two thirds of its pull.
      expect(p.toe!.toWork / (p.toe!.toWork + p.toe!.toHeel!)).toBeLessThan(0.45)
      expect(p.toe!.tilt).toBe(0)
    }
    // Well apart round the plate, and nothing of them in the bar's way, on one another or near the bed.
    const angles = mounted.pieces.map((p) => (Math.atan2(p.at.y, p.at.x) * 180) / Math.PI)
    for (const [i, a] of angles.entries())
      for (const b of angles.slice(i + 1)) expect(Math.cos(((a - b) * Math.PI) / 180)).toBeLessThan(0.72)
    const stops = analyse(now, 'op10').findings.filter((f) => f.severity === 'stop' && /^c\d/.test(f.item))
    expect(stops).toEqual([])
    expect(sound(now)).toBe(true)
  })
  test('another like it: a clamp holds elsewhere with the same data, loose packing goes through the axis', () => {
    const one = addPiece(
      job,
      'op10',
      clampOnPart(usualChoice('strap', 'mm', 3), job, 'op10', mountSetup(job, 'op10'))!,
    )
    const clamp = one.job.setups[0]!.hardware[0]!
    const more = likeIt(clamp, one.job, 'op10', mountSetup(one.job, 'op10'))
    if (clamp.kind !== 'clamp' || more.kind !== 'clamp') throw new Error('no clamps')
    expect({ ...more, at: 0, facing: 0 }).toEqual({ ...clamp, id: undefined, at: 0, facing: 0 })
    expect(more.at).not.toEqual(clamp.at)
    const example = exampleJob()
    const packing = boxOf(example.setups[0]!.hardware.find((h) => h.kind === 'packing'))
    const at = packing.at as { x: number; y: number }
    const opposite = boxOf(likeIt(packing, example, 'op10', mountSetup(example, 'op10'))).at
    expect(opposite).toEqual({ x: expect.closeTo(-at.x, 9), y: expect.closeTo(-at.y, 9) })
    expect(sound(addPiece(one.job, 'op10', more).job)).toBe(true)
  })
  test('packing goes under the part, clear of bore, slots and other packing', () => {
    let now = job
    for (let i = 0; i < 3; i++) {
      const piece = placed(usualChoice('packing', 'mm'), now, 'op10', mountSetup(now, 'op10'))!
      now = addPiece(now, 'op10', piece).job
    }
    const { pieces, bodies, workBore } = mountSetup(now, 'op10')
    expect(new Set(pieces.map((p) => `${p.at.x} ${p.at.y}`)).size).toBe(3)
    for (const p of pieces) {
      for (const v of p.footprint) {
        expect(distanceToRegion(bodies[0]!.regions[0]!, v)).toBe(0)
        expect(Math.hypot(v.x - workBore!.centre.x, v.y - workBore!.centre.y)).toBeGreaterThan(20)
      }
    }
  })
})
