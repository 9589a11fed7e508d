/** Imported bodies put into the part. */
import { ringEdges } from '../../../src-core/geometry/edges.ts'
import { IMPORT_TOLERANCE } from '../../../src-core/geometry/tolerance.ts'
import type { Point, Ring } from '../../../src-core/geometry/types.ts'
import { isPrism, type Body, type Job } from '../../../src-core/job/schema.ts'
import { editJob, type JobDraft } from './edit.ts'
import { removeBore } from './bodies.ts'
import { roundTo } from '../snap.ts'

const MOST_BORES = 8

export const addBodies = (job: Job, bodies: readonly Body[]): Job =>
  editJob(job, (draft) => {
    draft.part.bodies.push(...(structuredClone(bodies) as JobDraft['part']['bodies']))
  })

/**
 * The part anew: these bodies only, named for the file, not weighed. Its round holes are listed as bores that are
 * there already, the largest first; the setup is centred on that one. The old bores go.
 */
export function replaceBodies(job: Job, setupId: string, bodies: readonly Body[], name: string): Job {
  const bare = job.part.bores.reduce((j, bore) => removeBore(j, bore.id), job)
  const holes = bodies.filter(isPrism).flatMap((b) => b.holes.flatMap((h) => circleOf(h) ?? []))
  const largest = holes.sort((a, b) => b.diameter - a.diameter).slice(0, MOST_BORES)
  return editJob(bare, (draft) => {
    draft.part.name = name
    draft.part.weighedMass = null
    draft.part.bodies = structuredClone(bodies) as JobDraft['part']['bodies']
    draft.part.bores = largest.map(({ centre, diameter }, i) => ({
      id: String.fromCharCode(65 + i),
      x: roundTo(centre.x, 1e-4),
      y: roundTo(centre.y, 1e-4),
      diameter,
      start: diameter,
      depth: null,
    }))
    const setup = draft.setups.find((s) => s.id === setupId)
    if (setup && largest.length > 0) setup.centre = { bore: 'A' }
  })
}

/** Centre and diameter of a ring that is one circle, else null. */
export function circleOf(ring: Ring): { centre: Point; diameter: number } | null {
  const arcs = ringEdges(ring).map((e) => e.arc)
  const first = arcs[0]
  if (!first) return null
  const same = arcs.every(
    (a) =>
      a !== null &&
      Math.hypot(a.centre.x - first.centre.x, a.centre.y - first.centre.y) < IMPORT_TOLERANCE.round &&
      Math.abs(a.radius - first.radius) < IMPORT_TOLERANCE.round,
  )
  return same ? { centre: first.centre, diameter: roundTo(2 * first.radius, 1e-4) } : null
}
