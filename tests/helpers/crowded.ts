import type { Hardware, Job } from '../../src-core/job/schema.ts'

/** A job with so many discs in place of its hardware, on a spiral over the plate from `inner` to 140 mm. */
export function crowded(job: Job, count: number, inner: number, diameter: number): Job {
  const hardware = Array.from({ length: count }, (_, i): Hardware => {
    const [radius, turn] = [inner + ((140 - inner) * i) / count, 2.4 * i]
    return {
      id: `h${i}`,
      kind: 'counterweight',
      mass: 0.1,
      at: { x: radius * Math.cos(turn), y: radius * Math.sin(turn) },
      footprint: { circle: diameter },
      base: 0,
      height: 10,
      fixed: true,
    }
  })
  return { ...job, setups: [{ ...job.setups[0]!, hardware }] }
}
