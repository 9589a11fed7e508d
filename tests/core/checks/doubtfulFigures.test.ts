/** Typed figures beyond sense are said to be so. */
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { jobWith, piece } from '../../helpers/jobs.ts'
import { bearingBlock } from '../../helpers/shelfJobs.ts'
import { heldBlock } from '../../helpers/heldJobs.ts'

const found = (job: Job, code: string) => analyse(job, 'op10').findings.find((f) => f.code === code)

test.each([
  ['computedMass', 0.001, 'the mass worked out'],
  ['weighedMass', 0, 'the mass weighed'],
  ['centreOfMass', 0.01, 'the centre of mass'],
  ['placing', 0.05, 'placing'],
  ['plateResidual', 0, "the plate's own residual"],
  ['preloadScatter', 0.05, 'the scatter of the preloads'],
] as const)('a doubt of %s of %d is called bold', (key, value, words) => {
  const message = found({ ...heldBlock(), uncertainty: { [key]: value } }, 'doubts-bold')?.message
  expect(message).toContain(words)
})

test('usual doubts, and none given, are not', () => {
  expect(found(heldBlock(), 'doubts-bold')).toBeUndefined()
  expect(
    found(
      { ...heldBlock(), uncertainty: { computedMass: 0.01, placing: 0.5, preloadScatter: 0.15 } },
      'doubts-bold',
    ),
  ).toBeUndefined()
})

test.each([
  // A block of 40 by 40 by 20 of steel is 0.251 kg.
  ['a weight of steel', 0.251, 'counterweight', false],
  ['of lead', 0.363, 'counterweight', false],
  ['a slip of a decimal down', 0.0025, 'counterweight', true],
  ['a slip of a decimal up', 2.51, 'counterweight', true],
  ['a bracket that fills a third of its box', 0.08, 'bracket', false],
  ['packing of wood', 0.02, 'packing', false],
] as const)('%s: %d kg', (_, mass, kind, odd) => {
  const item = piece('w', mass, { x: 0, y: 90 }, { kind, footprint: { rect: [40, 40] }, height: 20 })
  const job = jobWith()
  const withIt = { ...job, setups: job.setups.map((s) => ({ ...s, hardware: [item] })) }
  expect(found(withIt, 'mass-unlikely') !== undefined).toBe(odd)
})

test.each([
  // An iron disc of 300 by 28 with a bore of 38 is 14 kg before its slots.
  ['a slotted plate of iron', 28, 11.2, false],
  ['its thickness a slip', 2, 11.2, true],
  ['its mass a slip', 28, 1.12, true],
] as const)('%s', (_, thickness, mass, odd) => {
  const job = heldBlock()
  const plate = { ...job.plate, diameter: 300, bore: 38, thickness, mass }
  const message = found({ ...job, plate }, 'mass-unlikely')?.message
  expect(message !== undefined).toBe(odd)
})

test.each([
  // Of 175 by 100 by 125 of grey iron it is 5.5 kg.
  ['an angle plate as cast', { density: 7200 }, false],
  ['of aluminium', { density: 2700 }, false],
  ['its density a slip', { density: 720 }, true],
  ['weighed, a slip of a decimal', { mass: 0.55 }, true],
  ['weighed', { mass: 5.3 }, false],
] as const)('%s', (_, given, odd) => {
  const job = bearingBlock()
  const setups = job.setups.map((s) => ({
    ...s,
    hardware: s.hardware.map((h) => (h.kind === 'anglePlate' ? { ...h, ...given } : h)),
  }))
  expect(found({ ...job, setups }, 'mass-unlikely')?.effect).toBe(odd ? 'unknown' : undefined)
})
