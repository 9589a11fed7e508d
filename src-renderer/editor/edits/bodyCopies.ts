/** Whole outlines moved, turned, mirrored and copied: the holes of an outline go with it. */
import type { Ring, Vertex } from '../../../src-core/geometry/types.ts'
import { isPrism, type Job, type Prism } from '../../../src-core/job/schema.ts'
import type { RingRef } from '../draw/snapping.ts'
import { ringOf } from './bodies.ts'
import { editJob, freshId, type JobDraft } from './edit.ts'

type Change = (ring: Ring) => readonly Vertex[]
type BodyDraft = JobDraft['part']['bodies'][number]

const plainRing = (ring: readonly Vertex[]) => ring.map((v) => ({ x: v.x, y: v.y, bulge: v.bulge ?? 0 }))
const changed = (body: Prism, change: Change): Prism => ({
  ...body,
  outline: plainRing(change(body.outline)),
  holes: body.holes.map((h) => plainRing(change(h))),
})
const prismOf = (job: Job, ref: RingRef): Prism | null => {
  const body = job.part.bodies.find((b) => b.id === ref.body)
  return body && isPrism(body) ? body : null
}

/** A hole alone, or an outline with its holes. */
export function moveRings(job: Job, ref: RingRef, change: Change): Job {
  const body = prismOf(job, ref)
  if (!body) return job
  const next: Prism =
    ref.ring === 0
      ? changed(body, change)
      : { ...body, holes: body.holes.map((h, i) => (i === ref.ring - 1 ? plainRing(change(h)) : h)) }
  return { ...job, part: { ...job.part, bodies: job.part.bodies.map((b) => (b === body ? next : b)) } }
}

/** A copy for each change: of a hole in the same body, of an outline as a body alike in all else. Gives the last one. */
export function copyRings(
  job: Job,
  ref: RingRef,
  changes: readonly Change[],
): { job: Job; ref: RingRef } | null {
  const body = prismOf(job, ref)
  if (!body || changes.length === 0) return null
  if (ref.ring > 0) {
    const copies = changes.map((change) => plainRing(change(ringOf(body, ref.ring))))
    const next: Prism = { ...body, holes: [...body.holes, ...copies] }
    return {
      ref: { body: body.id, ring: next.holes.length },
      job: { ...job, part: { ...job.part, bodies: job.part.bodies.map((b) => (b === body ? next : b)) } },
    }
  }
  let id = body.id
  const made = editJob(job, (draft) => {
    for (const change of changes) {
      id = freshId(body.effect === 'adds' ? 'body' : 'pocket', draft.part.bodies)
      draft.part.bodies.push({ ...structuredClone(changed(body, change)), id } as BodyDraft)
    }
  })
  return { job: made, ref: { body: id, ring: 0 } }
}
