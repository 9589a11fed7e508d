/** Steps and lifts of parts that do not lie flat. */
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { fixtureSteps, holdSteps, locateSteps } from '../../../src-core/steps/hold.ts'
import { formatter } from '../../../src-core/units/format.ts'
import { shelfExample } from '../../helpers/jobs.ts'
import { castingInBlock } from '../../helpers/shelfJobs.ts'

const fmt = formatter('mm')

test('an angle plate is set by its size before the part goes on', () => {
  const job = shelfExample('bearing-block')
  const mounted = mountSetup(job, 'op20')
  const [step, ...more] = fixtureSteps(mounted, fmt)
  expect(more).toEqual([])
  expect(step!.id).toBe('locate:A1')
  expect(JSON.stringify(step)).toContain('63.50 mm')
  expect(step!.does.join(' ')).toContain('gauge and indicator')
  expect(locateSteps(mounted, fmt)).toEqual([])
  const lifts = analyse(job, 'op20').findings.find((f) => f.code === 'heavy-lift')!
  expect(lifts.message).toMatch(/the plate 26 kg, then A1 5\.51 kg, then the part 4\.06 kg/)
})

test('a vee by its lands, to four places in inches', () => {
  const mounted = mountSetup(shelfExample('round-casting'), 'op10')
  expect(JSON.stringify(fixtureSteps(mounted, fmt))).toMatch(/Lands to the axis.*13\.57 mm/)
  expect(JSON.stringify(fixtureSteps(mounted, formatter('in')))).toMatch(/0\.5342 in/)
})

test('a clamp in a vee has its heel as high over the lands as the work stands', () => {
  // By hand: the crown of 80 mm round in a vee of 90°, 62 mm wide, is 40·√2 − 31 + 40 over the lands.
  const steps = holdSteps(mountSetup(shelfExample('round-casting'), 'op10'), fmt)
  const heels = steps.flatMap((s) => s.facts.filter((f) => f.label === 'Heel').map((f) => f.value))
  expect(heels).toEqual(['block, 65.6 mm high', 'block, 65.6 mm high'])
})

test('a loose block goes on after its angle plate, which is set through it', () => {
  const job = castingInBlock()
  const [setup] = job.setups
  const turned = { ...job, setups: [{ ...setup!, hardware: [...setup!.hardware].reverse() }] }
  const steps = fixtureSteps(mountSetup(turned, 'op10'), fmt)
  expect(steps.map((s) => s.id)).toEqual(['locate:A1', 'locate:V1'])
  // 40·√2 of the round less 31 of the vee, 50 of the block, less 12 that the bore lies off.
  expect(steps[0]!.facts).toContainEqual({ label: 'Shelf to the axis', value: '63.57 mm' })
  expect(JSON.stringify(steps[1])).toMatch(
    /A1, 0 mm along, 16 mm out.*straps over the round will hold it down/,
  )
  const heels = holdSteps(mountSetup(job, 'op10'), fmt).flatMap((s) =>
    s.facts.filter((f) => f.label === 'Heel'),
  )
  // The crown over the shelf: 50 of the block besides.
  expect(heels.map((f) => f.value)).toEqual(['block, 116 mm high', 'block, 116 mm high'])
})
