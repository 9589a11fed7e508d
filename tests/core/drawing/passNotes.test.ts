import { expect, test } from 'vitest'
import { passNotes } from '../../../src-core/drawing/sheet/passNotes.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { shippedJob } from '../../helpers/jobs.ts'

const JOB = shippedJob('flat-link')
const bored = (more: object, bar: object | null = null): Job => ({
  ...JOB,
  part: { ...JOB.part, bores: JOB.part.bores.map((b) => (b.id === 'A' ? { ...b, start: 34, ...more } : b)) },
  setups: JOB.setups.map((s) => ({
    ...s,
    cuts: (s.cuts ?? []).map((c) => (c.kind === 'bore' && bar ? { ...c, bar } : c)) as typeof s.cuts,
  })),
})
const notes = (job: Job) => passNotes(job, job.setups[0]!)

test('every pass has its line with a box and room for what is measured', () => {
  const [passes, ...more] = notes(bored({ tolerance: { class: 'H7' } }))
  expect(more).toEqual([])
  expect(passes!.title).toBe('Bore A, 42 mm to 42.025 mm (H7)')
  expect(passes!.ticks).toBe(true)
  expect(passes!.lines.length).toBeGreaterThan(3)
  for (const line of passes!.lines)
    expect(line).toMatch(/^\d+ (under the skin|rough|finish): depth .* then .*; measured ______$/)
})

test('in inches sizes have their ten-thousandths, and the dial its settings', () => {
  const dial = { on: 'diameter', division: 0.0254, unit: 'thou' } as const
  const job = bored({ tolerance: { limits: [42, 42.05] } })
  const cuts = job.setups[0]!.cuts!.map((c) => (c.kind === 'bore' ? { ...c, dial } : c))
  const inches: Job = { ...job, displayUnits: 'in', setups: [{ ...job.setups[0]!, cuts }] }
  const [passes] = notes(inches)
  // 42 mm is 1.65354 in, 42.05 mm is 1.65551 in.
  expect(passes!.title).toBe('Bore A, 1.6535 in to 1.6555 in')
  for (const line of passes!.lines)
    expect(line).toMatch(/, dial on by [\d.]+ to [\d.]+ thou, then 1\.\d+ in;/)
})

test('a bar that stands out too far is told, a bore without a tolerance has nothing', () => {
  const [, words] = notes(bored({ tolerance: { limits: [42, 42.05] } }, { diameter: 12, overhang: 90 }))
  expect(words!.lines.join()).toMatch(/7.5 diameters/)
  expect(notes(bored({}))).toEqual([])
})
