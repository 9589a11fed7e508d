/** Whole outlines moved, turned, mirrored and copied: the holes of an outline go with it. */
import type { Ring, Vertex } from '../../../src-core/geometry/types.ts'
import { isPrism, type Job, type Prism } from '../../../src-core/job/schema.ts'
import type { RingRef } from '../draw/snapping.ts'
import { removeBody, removeHole, ringOf } from './bodies.ts'
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

/** Of several rings those that are moved by themselves: a hole goes with its outline where that is among them. */
const movers = (refs: readonly RingRef[]): readonly RingRef[] =>
  refs.filter((r) => r.ring === 0 || !refs.some((o) => o.body === r.body && o.ring === 0))

/** Each a hole alone, or an outline with its holes. */
export const moveRings = (job: Job, refs: readonly RingRef[], change: Change): Job =>
  movers(refs).reduce((j, ref) => moveRing(j, ref, change), job)

function moveRing(job: Job, ref: RingRef, change: Change): Job {
  const body = prismOf(job, ref)
  if (!body) return job
  const next: Prism =
    ref.ring === 0
      ? changed(body, change)
      : { ...body, holes: body.holes.map((h, i) => (i === ref.ring - 1 ? plainRing(change(h)) : h)) }
  return { ...job, part: { ...job.part, bodies: job.part.bodies.map((b) => (b === body ? next : b)) } }
}

/** Copies of several rings, and which they are: those that the last change made. Null where nothing was copied. */
export function copyRings(
  job: Job,
  refs: readonly RingRef[],
  changes: readonly Change[],
): { job: Job; refs: readonly RingRef[] } | null {
  let made = job
  const last: RingRef[] = []
  for (const ref of movers(refs)) {
    const one = copyRing(made, ref, changes)
    if (!one) continue
    made = one.job
    last.push(one.ref)
  }
  return last.length > 0 ? { job: made, refs: last } : null
}

/** Takes rings away; null where nothing would be left of the part. */
export function removeRings(job: Job, refs: readonly RingRef[]): Job | null {
  const alone = movers(refs)
  const bodies = new Set(alone.filter((r) => r.ring === 0).map((r) => r.body))
  if (bodies.size >= job.part.bodies.length) return null
  const holes = alone.filter((r) => r.ring > 0).sort((a, b) => b.ring - a.ring)
  const without = holes.reduce((j, { body, ring }) => removeHole(j, body, ring), job)
  return [...bodies].reduce((j, id) => removeBody(j, id), without)
}

/** A copy for each change: of a hole in the same body, of an outline as a body alike in all else. Gives the last one. */
function copyRing(job: Job, ref: RingRef, changes: readonly Change[]): { job: Job; ref: RingRef } | null {
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
