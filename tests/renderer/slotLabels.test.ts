import { describe, expect, test } from 'vitest'
import type { Job } from '../../src-core/job/schema.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import { reachInPlan } from '../../src-core/mounting/reachInPlan.ts'
import { slotLabelChoice, slotLabels } from '../../src-renderer/scene/slotLabels.ts'
import { jobWith, piece } from '../helpers/jobs.ts'

const NOBODY = { selection: null, hover: null }
/** A disc over the end of the first slot of the test plate, of so many mm. */
const covered = (circle: number): Job => {
  const bare = jobWith()
  const { to, angle } = bare.plate.slots[0]!
  const at = { x: to * Math.cos((angle * Math.PI) / 180), y: to * Math.sin((angle * Math.PI) / 180) }
  return jobWith({ setup: { hardware: [piece('w', 1, at, { footprint: { circle } })] } })
}
const choiceOf = (job: Job) => slotLabelChoice(job.plate, mountSetup(job, 'op10'))

describe('names of slots', () => {
  const { plate } = jobWith()

  test('stand between the slot and the rim where nothing covers it, and before anything is mounted', () => {
    expect(slotLabelChoice(plate, null)).toBe('0'.repeat(plate.slots.length))
    const [first] = slotLabels(plate, slotLabelChoice(plate, null), NOBODY)
    expect(first).toMatchObject({ text: plate.slots[0]!.id })
  })

  test('go beyond the rim from under a piece, and no other name moves', () => {
    const choice = choiceOf(covered(28))
    expect(choice).toBe(`1${'0'.repeat(plate.slots.length - 1)}`)
    const [first] = slotLabels(plate, choice, NOBODY)
    const at = first?.kind === 'text' ? first.at : null
    expect(Math.hypot(at!.x, at!.y)).toBeGreaterThan(plate.diameter / 2)
  })

  test('stand beyond the rim where a slot ends too near to it', () => {
    const long = {
      ...plate,
      slots: plate.slots.map((s) => ({ ...s, to: plate.diameter / 2 - s.width / 2 - 2 })),
    }
    for (const label of slotLabels(long, slotLabelChoice(long, null), NOBODY)) {
      const at = label.kind === 'text' ? label.at : null
      expect(Math.hypot(at!.x, at!.y)).toBeGreaterThan(plate.diameter / 2)
    }
    expect(slotLabelChoice(long, null)).not.toContain('-')
  })

  test('are left out where everything is covered', () => {
    const choice = choiceOf(covered(120))
    expect(choice[0]).toBe('-')
    expect(slotLabels(plate, choice, NOBODY)).toHaveLength(plate.slots.length - 1)
  })
})

describe('how far a picture reaches', () => {
  test('to the rim, or to what stands out past it, and no slip of typing makes the plate a dot', () => {
    const reach = (job: Job) => reachInPlan(mountSetup(job, 'op10'))
    const rim = jobWith().plate.diameter / 2
    const out = (x: number) =>
      jobWith({ setup: { hardware: [piece('w', 1, { x, y: 0 }, { footprint: { circle: 40 } })] } })
    expect(reach(jobWith())).toBe(rim)
    expect(reach(out(rim))).toBeCloseTo(rim + 20, 6)
    expect(reach(out(50 * rim))).toBe(2 * rim)
  })
})
