/** A round casting in a loose vee block on an angle plate, from a new job: what one press each puts there holds together. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { usualAnglePlates } from '../../src-core/hardware/shelves.ts'
import { findThread } from '../../src-core/hardware/threads.ts'
import { washerSize } from '../../src-core/hardware/washers.ts'
import { strapStand } from '../../src-core/holding/stand.ts'
import type { AnglePlate, Job, Plate } from '../../src-core/job/schema.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import { formatter } from '../../src-core/units/format.ts'
import { editPiece, editSetup } from '../../src-renderer/editor/edits/edit.ts'
import { addPiece } from '../../src-renderer/editor/edits/hardware.ts'
import { boltBase } from '../../src-renderer/editor/edits/onShelf.ts'
import { newAnglePlate, seatOnShelf, usualForm } from '../../src-renderer/editor/edits/shelves.ts'
import { noStrapBeside, putVeeBlock, strapBlock } from '../../src-renderer/editor/edits/veeBlock.ts'
import { blankJob, START, START_INCH } from '../../src-renderer/state/blankJob.ts'
import { bearingBlock } from '../helpers/shelfJobs.ts'

const SETUP = 'op10'
const casting = (units: 'mm' | 'in', more: Partial<Plate> = {}): Job => {
  const job = blankJob({
    ...(units === 'mm' ? START : START_INCH),
    swingOverBed: 500,
    speeds: [30, 45, 70, 110],
    plateDiameter: 400,
    slotCount: 12,
    shape: 'disc',
    length: 80,
    width: 80,
    thickness: 100,
    material: 'grey cast iron',
    density: 7200,
    boreOffset: 12,
    boreDiameter: 30,
    boreStart: 24,
    packing: 0,
  })
  return { ...job, plate: { ...job.plate, ...more } }
}
const shelfOf = (job: Job) => job.setups[0]!.hardware.find((h): h is AnglePlate => h.kind === 'anglePlate')!
const laid = (job: Job): Job => {
  const shelved = addPiece(job, SETUP, newAnglePlate(job)).job
  return putVeeBlock(shelved, SETUP, shelfOf(shelved)).job
}
const view = (job: Job) => strapStand(mountSetup(job, SETUP))
const strapped = (job: Job) => strapBlock(job, SETUP, view(job))
const stops = (job: Job) => analyse(job, SETUP).findings.filter((f) => f.severity === 'stop')
const cutting = (job: Job, depth: number): Job =>
  editSetup(job, SETUP, (s) => {
    for (const cut of s.cuts ?? []) if (cut.kind === 'bore') cut.depth = depth
  })
const widerSlots = (job: Job, width: number): Partial<Plate> => ({
  slots: job.plate.slots.map((s) => ({ ...s, width })),
})

describe.each(['mm', 'in'] as const)('in %s', (units) => {
  test('angle plate, block and straps by one press each hold it, a lighter cut taken', () => {
    const job = laid(casting(units))
    expect(job.setups[0]!.hardware.find((h) => h.kind === 'vee')).toMatchObject({
      at: { on: 'A1', along: 0 },
    })
    const { job: held, ids } = strapped(job)
    expect(ids).toHaveLength(2)
    expect(stops(cutting(held, 0.7))).toEqual([])
    // Of the heavier cut of a new job the block says itself what to do.
    const [block, ...others] = stops(held)
    expect(others).toEqual([])
    expect(block).toMatchObject({ code: 'joint-slides', item: 'V1' })
    expect(block!.message).toMatch(/Tighten .* or take a lighter cut\./)
  })

  test('on a plate with wider slots the studs still fit those of the shelf', () => {
    const wide = casting(units, widerSlots(casting(units), 20))
    const { job, ids } = strapped(laid(wide))
    expect(ids).toHaveLength(2)
    expect(stops(cutting(job, 0.6)).map((f) => f.code)).toEqual([])
  })
})

test('a shelf that is too short says what would have room, and that has', () => {
  const plated = addPiece(casting('mm'), SETUP, newAnglePlate(casting('mm'))).job
  const size = (job: Job, along: number, slot: number) =>
    editPiece(job, SETUP, 'A1', (p) => {
      if (p.kind !== 'anglePlate') return
      p.size[0] = along
      p.slots.forEach((s, i) => (s.x = (i === 0 ? -1 : 1) * slot))
    })
  const short = putVeeBlock(size(plated, 150, 50), SETUP, shelfOf(size(plated, 150, 50))).job
  expect(strapped(short).ids).toEqual([])
  const words = noStrapBeside(short, view(short), formatter('mm'))
  const [, slot, along] = /slots stand (\S+) mm to .* at least (\S+) mm along/.exec(words)!
  expect(strapped(size(short, Number(along), Number(slot))).ids).toHaveLength(2)
  expect(strapped(size(short, Number(along) - 2, Number(slot))).ids).toEqual([])
  expect(strapped(size(short, Number(along), Number(slot) - 1)).ids).toEqual([])
})

test('a block is for the round of the part, and what it hangs over is said', () => {
  const small = editPiece(
    addPiece(casting('mm'), SETUP, newAnglePlate(casting('mm'))).job,
    SETUP,
    'A1',
    (p) => {
      if (p.kind === 'anglePlate') p.size = [90, 75, 80]
    },
  )
  const codes = stops(putVeeBlock(small, SETUP, shelfOf(small)).job).map((f) => f.code)
  expect(codes).toContain('block-overhangs')
  expect(codes).not.toContain('part-off-vee')
})

test('bolts through a base go into the slots of its shelf, whatever those of the plate take', () => {
  const job = bearingBlock()
  const wide = { ...job, plate: { ...job.plate, ...widerSlots(job, 22) } }
  const bare = editSetup(wide, SETUP, (s) => void (s.hardware = s.hardware.filter((h) => h.kind !== 'bolt')))
  const seen = strapStand(mountSetup(bare, SETUP))
  const { job: held, ids } = boltBase(bare, SETUP, seen)
  expect(ids).toHaveLength(2)
  const codes = analyse(held, SETUP)
    .findings.filter((f) => ids.includes(f.item))
    .map((f) => f.code)
  expect(codes).not.toContain('stud-does-not-fit')
})

test.each(['mm', 'in'] as const)(
  'studs in the slots of a usual angle plate clear its webs, in %s',
  (units) => {
    const thread = findThread(units === 'mm' ? 'M12' : '1/2-13')!
    for (const usual of usualAnglePlates(units)) {
      const { slots, size, webs } = usualForm(usual, units)
      expect(slots[0]!.width).toBeGreaterThanOrEqual(thread.diameter)
      for (const slot of slots)
        expect(Math.abs(slot.x) + washerSize(thread)!.outside / 2).toBeLessThan(size[0] / 2 - webs.thickness)
    }
  },
)

test('the bolts of a foot stand in the middle of their slots, clear of its webs, where the play is small', () => {
  for (const width of [12, 12.75, 14]) {
    const job = casting(width === 12 ? 'mm' : 'in', widerSlots(casting('in'), width))
    const shelved = addPiece(job, SETUP, newAnglePlate(job)).job
    const seated = seatOnShelf(shelved, SETUP, 'A1')
    expect(shelfOf(seated).bolts.length).toBeGreaterThan(1)
    const codes = analyse(seated, SETUP)
      .findings.filter((f) => f.item === 'A1')
      .map((f) => f.code)
    for (const code of ['stud-does-not-fit', 'hardware-clash', 'bolt-in-solid'])
      expect(codes).not.toContain(code)
  }
})
