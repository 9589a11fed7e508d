/** Jobs with some of their hardware changed, taken away or turned. */
import { turnPoint } from '../../src-core/geometry/angles.ts'
import { isShelf, type Hardware, type Job } from '../../src-core/job/schema.ts'

/** Of every setup; null takes a piece away. */
export const withHardware = (job: Job, change: (h: Hardware) => Hardware | null): Job => ({
  ...job,
  setups: job.setups.map((s) => ({ ...s, hardware: s.hardware.flatMap((h) => change(h) ?? []) })),
})

/** With one piece changed. */
export const changed = (job: Job, id: string, change: (h: Hardware) => Hardware): Job =>
  withHardware(job, (h) => (h.id === id ? change(h) : h))

export const without = (job: Job, ...ids: string[]): Job =>
  withHardware(job, (h) => (ids.includes(h.id) ? null : h))

/** Part, plate and what stands on it by a point, turned about the axis together, degrees. */
export function turnedAbout(job: Job, by: number): Job {
  const turned = withHardware(job, (h) =>
    isShelf(h) && 'x' in h.at ? { ...h, at: turnPoint(h.at, by), facing: h.facing + by } : h,
  )
  return {
    ...turned,
    plate: { ...job.plate, slots: job.plate.slots.map((s) => ({ ...s, angle: s.angle + by })) },
    setups: turned.setups.map((s) => ({ ...s, turn: s.turn + by })),
  }
}
