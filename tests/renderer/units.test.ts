import { expect, test } from 'vitest'
import { JobStore } from '../../src-renderer/state/document.svelte.ts'
import { setDepth } from '../../src-renderer/editor/edits/bodies.ts'
import { addBody } from '../../src-renderer/editor/edits/bodies.ts'
import { exampleJob } from './example.ts'

const file = { ref: { id: 'f', name: 'a.evenswing', folder: '/jobs' }, stamp: '1' }

test('the units of the window make no job changed, are no step, and hold for the next job', () => {
  const jobs = new JobStore(exampleJob())
  jobs.showIn('in')
  expect([jobs.job.displayUnits, jobs.isDirty, jobs.undoLabel]).toEqual(['in', false, null])
  jobs.edit('Rename', (job) => ({ ...job, title: 'mine' }))
  jobs.showIn('mm')
  expect([jobs.job.displayUnits, jobs.isDirty]).toEqual(['mm', true])
  jobs.undo()
  expect([jobs.job.displayUnits, jobs.isDirty]).toEqual(['mm', false])
  jobs.redo()
  const written = jobs.job
  jobs.showIn('in')
  jobs.markSaved(written, file)
  expect([jobs.job.title, jobs.isDirty]).toEqual(['mine', false])
  jobs.load(exampleJob(), file)
  expect([jobs.job.displayUnits, jobs.isDirty]).toEqual(['in', false])
})

test('a pocket is sunk from where it opens', () => {
  const { job, id } = addBody(exampleJob(), 'removes')
  const pocket = (j: typeof job) => {
    const found = j.part.bodies.find((b) => b.id === id)
    if (!found || !('thickness' in found)) throw new Error('no pocket')
    return found
  }
  const before = pocket(job)
  const after = pocket(setDepth(job, id, 3.25))
  expect(after.thickness).toBe(3.25)
  expect(after.base + after.thickness).toBeCloseTo(before.base + before.thickness, 9)
})
