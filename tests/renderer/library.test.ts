import { describe, expect, test } from 'vitest'
import { checkJob } from '../../src-core/job/parse.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { findThread, THREADS } from '../../src-core/hardware/threads.ts'
import { distanceToRegion } from '../../src-core/geometry/nearest.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { addPiece } from '../../src-renderer/editor/edits/hardware.ts'
import {
  massOf,
  pieceOf,
  shapeOf,
  stockOf,
  usualChoice,
  usualTorque,
  type Choice,
} from '../../src-renderer/editor/library/choice.ts'
import { LIBRARY, libraryKind } from '../../src-renderer/editor/library/kinds.ts'
import { nutSize, nutVolume } from '../../src-renderer/editor/library/nuts.ts'
import { clampOnPart, likeIt, placed } from '../../src-renderer/editor/library/put.ts'
import { blankJob, START } from '../../src-renderer/state/blankJob.ts'
import { exampleJob } from './example.ts'

const choice = (
  kind: Choice['kind'],
  sizes: Choice['sizes'],
  material = 'mild steel',
  thread = 'M12',
): Choice => ({
  kind,
  sizes,
  material,
  thread,
})
const sound = (job: Job): boolean => checkJob(JSON.parse(serialiseJob(job))).ok

describe('mass from size and material', () => {
  test('a disc less its hole, a block, worked by hand', () => {
    // π/4·(50² − 14²)·25 mm³ of steel at 7850 kg/m³.
    expect(massOf(choice('round', { diameter: 50, height: 25, hole: 14 }))).toBeCloseTo(0.3551, 4)
    expect(massOf(choice('rectangular', { length: 60, width: 40, height: 20, hole: 0 }, 'lead'))).toBeCloseTo(
      60 * 40 * 20 * 11_340e-9,
      4,
    )
    expect(massOf(choice('packing', { length: 50, width: 20, height: 12 }, 'aluminium'))).toBeCloseTo(
      0.0324,
      4,
    )
  })
  test('nuts: a hexagon less its thread, and flats of about one and a half diameters', () => {
    // M16: (√3/2·24² − π/4·14.701²)·14.8 mm³.
    expect(massOf(choice('nut', {}, 'mild steel', 'M16'))).toBeCloseTo(0.0382, 4)
    for (const t of THREADS) {
      const nut = nutSize(t)!
      expect(nut.flats, t.name).toBeGreaterThan(1.4 * t.diameter)
      expect(nut.flats, t.name).toBeLessThan(1.8 * t.diameter)
      expect(nutVolume(t, nut)).toBeGreaterThan(0)
    }
  })
  test('an angle bracket has its mass centre where its two legs put it', () => {
    const { volume, massCentre } = shapeOf(
      choice('bracket', { length: 60, height: 60, width: 50, thickness: 10 }),
    )
    expect(volume).toBe((60 * 10 + 50 * 10) * 50)
    // Foot 600 mm² at x 0, z 5; upright 500 mm² at x −25, z 35.
    expect(massCentre!.x).toBeCloseTo((500 * -25) / 1100, 9)
    expect(massCentre!.z).toBeCloseTo((600 * 5 + 500 * 35) / 1100, 9)
  })
  test('a hole larger than the piece leaves nothing to put anywhere', () => {
    const all = choice('round', { diameter: 20, height: 10, hole: 30 })
    expect(massOf(all)).toBeNull()
    expect(pieceOf(all, { x: 0, y: 0 }, 0)).toBeNull()
    expect(stockOf(all, 1)).toBeNull()
  })
  test('every usual size of every kind makes a piece and, where it may, stock that a job holds', () => {
    for (const kind of LIBRARY)
      kind.usual.forEach((_, i) => {
        let job = exampleJob()
        const c = usualChoice(kind.name, i)
        const piece = placed(c, job, 'op10', mountSetup(job, 'op10'), null)!
        job = addPiece(job, 'op10', piece).job
        const stock = stockOf(c, 3)
        expect(stock !== null).toBe(libraryKind(kind.name).stock)
        if (stock) job = { ...job, stock: [...job.stock, { id: 'new', ...stock }] }
        expect(sound(job), `${kind.name} ${i}`).toBe(true)
      })
  })
})

describe('threads', () => {
  test('three quarters of proof load by T = K·D·F', () => {
    // 0.2 × 12 mm × 0.75 × 48 900 N = 88 N·m.
    expect(usualTorque(findThread('M12')!, '8.8')).toBe(88)
    expect(usualTorque(findThread('M12')!, '99')).toBeNull()
  })
})

describe('put where it is wanted', () => {
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
      expect(distanceToRegion(region, p.item.clamp!.nose!)).toBe(0)
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
    const clamp = example.setups[0]!.hardware.find((h) => h.kind === 'clamp')!
    const piece = placed(usualChoice('heel'), example, 'op10', mountSetup(example, 'op10'), clamp)!
    const bolt = mountSetup(example, 'op10').pieces.find((p) => p.item.id === clamp.id)!.at
    const at = piece.at as { x: number; y: number }
    expect(Math.hypot(at.x - bolt.x, at.y - bolt.y)).toBeCloseTo(clamp.clamp!.boltToHeel!, 0)
  })
  test('another like it: a clamp holds elsewhere with the same data, loose packing goes through the axis', () => {
    const example = exampleJob()
    const mounted = mountSetup(example, 'op10')
    const [clamp, packing] = ['clamp', 'packing'].map((k) =>
      example.setups[0]!.hardware.find((h) => h.kind === k)!,
    )
    const more = likeIt(clamp!, example, 'op10', mounted)
    expect(more.clamp).toMatchObject({ thread: clamp!.clamp!.thread, torque: clamp!.clamp!.torque })
    expect(more.at).not.toEqual(clamp!.at)
    expect(more.mass).toBe(clamp!.mass)
    const at = packing!.at as { x: number; y: number }
    const opposite = likeIt(packing!, example, 'op10', mounted).at as { x: number; y: number }
    expect(opposite.x + at.x).toBeCloseTo(0, 9)
    expect(opposite.y + at.y).toBeCloseTo(0, 9)
    expect(sound(addPiece(example, 'op10', more).job)).toBe(true)
  })
})
