import { addCut, removeCut } from '../../src-renderer/editor/edits/cuts.ts'
import { describe, expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { checkJob } from '../../src-core/job/parse.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import { addBody, addBore, addHole, removeBore, setRing } from '../../src-renderer/editor/edits/bodies.ts'
import {
  addPiece,
  freeStation,
  movePiece,
  removePiece,
  weightFromStock,
} from '../../src-renderer/editor/edits/hardware.ts'
import { removeSlot, spaceSlots } from '../../src-renderer/editor/edits/plate.ts'
import { duplicateSetup, removeSetup } from '../../src-renderer/editor/edits/setups.ts'
import { blankJob, START } from '../../src-renderer/state/blankJob.ts'
import { newPacking } from '../../src-renderer/editor/edits/packingPlace.ts'
import { stepStates } from '../../src-renderer/state/lacks.ts'
import { formatter } from '../../src-core/units/format.ts'
import { createApp } from '../../src-renderer/state/app.svelte.ts'
import { fetchHost } from '../../src-renderer/bridge/fetchHost.ts'
import { addBodies, replaceBodies } from '../../src-renderer/editor/edits/imported.ts'
import { circleRing, rectRing } from '../../src-core/geometry/edges.ts'
import type { Job } from '../../src-core/job/schema.ts'
import { exampleJob } from './example.ts'
import { noWorkers } from './fakeWorkers.ts'

function sound(job: Job): Job {
  const read = checkJob(JSON.parse(serialiseJob(job)))
  if (!read.ok) throw new Error(read.faults.map((f) => `${f.path} ${f.message}`).join('; '))
  return read.job
}

describe('edits leave a job that can be saved, and the one before untouched', () => {
  const job = exampleJob()
  const text = serialiseJob(job)
  test('pieces', () => {
    const { job: more, id } = addPiece(
      job,
      'op10',
      weightFromStock(job, job.stock[0]!, freeStation(job, 'op10')),
    )
    expect(id).toBe('w2')
    expect(sound(more).setups[0]!.hardware.at(-1)).toMatchObject({
      id: 'w2',
      kind: 'weight',
      stack: [{ stock: job.stock[0]!.id, count: 1 }],
    })
    expect(sound(removePiece(more, 'op10', 'w2'))).toEqual(sound(job))
    sound(addPiece(job, 'op10', newPacking({ x: 0, y: 50 }, 12)).job)
    expect(serialiseJob(job)).toBe(text)
  })
  test('a piece put where it stands is no change at all', () => {
    expect(movePiece(job, 'op10', 'w1', { slot: 'S5', radius: 110 }).setups[0]!.hardware.at(-1)).toEqual(
      job.setups[0]!.hardware.at(-1),
    )
  })
  test('a slot taken away leaves its pieces standing where they are', () => {
    const before = mountSetup(job, 'op10').pieces.find((p) => p.item.id === 'w1')!.at
    const after = mountSetup(sound(removeSlot(job, 'S5')), 'op10').pieces.find((p) => p.item.id === 'w1')!.at
    expect(Math.hypot(after.x - before.x, after.y - before.y)).toBeLessThan(0.01)
  })
  test('slots spaced anew', () => {
    const six = sound(spaceSlots(job, 6, 0))
    expect(six.plate.slots.map((s) => s.angle)).toEqual([0, 60, 120, 180, 240, 300])
    expect(sound(spaceSlots(job, 10, 0)).plate.slots.map((s) => s.id)).toContain('S10')
  })
  test('bodies, holes and bores', () => {
    const { job: boss, id } = addBody(job, 'adds')
    expect(id).toBe('body1')
    sound(boss)
    sound(addBody(job, 'removes').job)
    sound(addHole(job, 'link', { x: 60, y: 0 }, 10))
    const { job: bored, id: bore } = addBore(job)
    expect(bore).toBe('C')
    sound(bored)
    const drilled = addCut(job, 'op10', 'drill')!
    // The bore's own cut stays after the drill that opens it.
    expect(sound(drilled.job).setups[0]!.cuts!.map((c) => c.kind)).toEqual(['drill', 'bore'])
    const faced = addCut(drilled.job, 'op10', 'face')!
    expect(sound(faced.job).setups[0]!.cuts!.map((c) => c.kind)).toEqual(['drill', 'bore', 'face'])
    expect(sound(removeCut(faced.job, 'op10', faced.id)).setups[0]!.cuts).toHaveLength(2)
    const gone = sound(removeBore(job, 'A'))
    expect(gone.setups[0]!.centre).toEqual({ x: 0, y: 0 })
    expect(gone.setups[0]!.cuts).toBeNull()
    const ring = [
      { x: 0, y: 0 },
      { x: 10, y: 0 },
      { x: 0, y: 10 },
    ]
    expect(setRing(job, 'link', 0, ring).part.bodies[0]).toMatchObject({
      outline: ring.map((v) => ({ ...v, bulge: 0 })),
    })
  })
  test('setups', () => {
    const { job: three, id } = duplicateSetup(job, 'op10')
    expect(id).toBe('op30')
    sound(three)
    expect(removeSetup(three, 'op30').setups).toHaveLength(2)
    const one = removeSetup(job, 'op10')
    expect(removeSetup(one, 'op20')).toBe(one)
  })
})

describe('imported bodies', () => {
  const square = rectRing({ x: 0, y: 0 }, 100, 60, 0)
  const bodies = [
    {
      id: 'b1',
      effect: 'adds',
      base: 0,
      thickness: 10,
      outline: square,
      holes: [circleRing({ x: -30, y: 0 }, 12), circleRing({ x: 20, y: 5 }, 30)],
    },
  ] as const
  test('in place of the part: holes become bores, the largest on the axis, and nothing points nowhere', () => {
    const job = sound(replaceBodies(exampleJob(), 'op10', bodies, 'bracket'))
    expect(job.part.bores.map((b) => [b.id, b.x, b.y, b.diameter, b.start])).toEqual([
      ['A', 20, 5, 30, 30],
      ['B', -30, 0, 12, 12],
    ])
    expect(job.setups[0]!.centre).toEqual({ bore: 'A' })
    expect(job.setups[0]!.cuts).toBeNull()
    expect(analyse(job, 'op10').part.area_mm2).toBeCloseTo(6000 - (Math.PI / 4) * (144 + 900), 6)
  })
  test('beside the part', () => {
    expect(sound(addBodies(exampleJob(), bodies)).part.bodies.map((b) => b.id)).toEqual(['link', 'b1'])
  })
})

describe('a new job', () => {
  test('is sound, gives a verdict at once, and says what it still lacks', () => {
    const job = sound(blankJob({ ...START, title: 'Plain block' }))
    const analysis = analyse(job, 'op10')
    expect(analysis.speeds.every((s) => ['go', 'caution', 'stop'].includes(s.verdict))).toBe(true)
    const steps = stepStates(job, job.setups[0]!, analysis, formatter('mm'))
    expect(steps.clamps.lacks).toContain('clamps')
    expect(steps.machine.lacks).toContain('bar reach')
    expect(steps.speed).toMatchObject({ lacks: [], summary: expect.stringMatching(/^45 rpm: /) as string })
    expect(stepStates(exampleJob(), exampleJob().setups[0]!, null, formatter('mm')).clamps.lacks).toEqual([])
  })
  test('as a disc with a bore that is there already', () => {
    sound(blankJob({ ...START, shape: 'disc', boreStart: 20, boreOffset: 20 }))
  })
})

describe('the store', () => {
  test('holds plain data and knows what is unsaved', () => {
    const { jobs, results, session } = createApp(fetchHost, noWorkers)
    jobs.load(exampleJob(), null)
    expect(jobs.isDirty).toBe(false)
    expect(structuredClone(jobs.job)).toEqual(jobs.job)
    jobs.edit('Move', (j) => movePiece(j, 'op10', 'w1', { slot: 'S5', radius: 90 }))
    expect(jobs.isDirty).toBe(true)
    expect(jobs.undoLabel).toBe('Move')
    jobs.undo()
    expect(jobs.isDirty).toBe(false)
    expect(jobs.redoLabel).toBe('Move')
    session.setupId = 'op20'
    expect(results.setup.id).toBe('op20')
    session.setupId = 'gone'
    expect(results.setup.id).toBe('op10')
  })
  test('a job that cannot be mounted has no analysis, and its faults are named', () => {
    const { jobs, results } = createApp(fetchHost, noWorkers)
    const job = exampleJob()
    jobs.load({ ...job, plate: { ...job.plate, slots: [] } }, null)
    expect(results.analysis).toBeNull()
    expect(results.faults.some((f) => f.message.includes('no slot'))).toBe(true)
  })
})
