/** Bodies and bores of the part. */
import { circleRing, rectRing } from '../../../src-core/geometry/edges.ts'
import { isInside } from '../../../src-core/geometry/nearest.ts'
import type { Point, Ring, Vertex } from '../../../src-core/geometry/types.ts'
import { isPrism, type Body, type Job, type Prism } from '../../../src-core/job/schema.ts'
import { sizeFor } from '../../../src-core/units/convert.ts'
import { boxCentre } from '../draw/rings.ts'
import { editJob, freshId, type JobDraft } from './edit.ts'
import { withoutCuts } from './cuts.ts'
import { roundTo } from '../snap.ts'

type PrismDraft = Extract<JobDraft['part']['bodies'][number], { outline: unknown }>

export const editBody = (
  job: Job,
  id: string,
  recipe: (body: JobDraft['part']['bodies'][number]) => void,
): Job =>
  editJob(job, (draft) => {
    const body = draft.part.bodies.find((b) => b.id === id)
    if (body) recipe(body)
  })

export const editPrism = (job: Job, id: string, recipe: (body: PrismDraft) => void): Job =>
  editBody(job, id, (body) => {
    if ('outline' in body) recipe(body)
  })

/** A pocket sunk to a depth, mm, from where it opens; rounded as outlines are, so that its mouth stays where it was. */
export const setDepth = (job: Job, id: string, depth: number): Job =>
  editPrism(job, id, (body) => {
    body.base = roundTo(body.base + body.thickness - depth, 1e-6)
    body.thickness = depth
  })

/** Ring 0 is the outline, 1 and up are holes. */
export const ringOf = (body: Prism, ring: number): Ring =>
  ring === 0 ? body.outline : (body.holes[ring - 1] ?? [])

export const setRing = (job: Job, id: string, ring: number, next: readonly Vertex[]): Job =>
  editPrism(job, id, (body) => {
    const vertices = next.map((v) => ({ x: v.x, y: v.y, bulge: v.bulge ?? 0 }))
    if (ring === 0) body.outline = vertices
    else body.holes[ring - 1] = vertices
  })

export const addHole = (job: Job, id: string, at: Point, diameter: number): Job =>
  editPrism(job, id, (body) => {
    body.holes.push(circleRing(at, diameter).map((v) => ({ x: v.x, y: v.y, bulge: v.bulge ?? 0 })))
  })

export const removeHole = (job: Job, id: string, ring: number): Job =>
  editPrism(job, id, (body) => {
    body.holes.splice(ring - 1, 1)
  })

/** A new body: on top of what lies under its middle if it adds, into the front of it if it removes. */
export function addBody(job: Job, effect: Body['effect'], outline?: Ring): { job: Job; id: string } {
  const id = freshId(effect === 'adds' ? 'body' : 'pocket', job.part.bodies)
  const sized = (mm: number, inch: number) => sizeFor(job.displayUnits, mm, inch)
  const usual = sized(10, 3 / 8)
  const shape = outline ?? rectRing(middle(job), sized(30, 5 / 4), sized(20, 3 / 4), 0)
  const under = tallestUnder(job, shape)
  const like = job.part.bodies.find(isPrism)
  const thickness =
    effect === 'removes'
      ? Math.max(1, Math.min(sized(5, 3 / 16), (under?.thickness ?? usual) / 2))
      : under
        ? usual
        : (like?.thickness ?? usual)
  const top = under ? under.base + under.thickness : 0
  const body = {
    id,
    effect,
    outline: shape.map((v) => ({ x: roundTo(v.x, 1e-4), y: roundTo(v.y, 1e-4), bulge: v.bulge ?? 0 })),
    holes: [],
    base: effect === 'adds' ? (under ? top : (like?.base ?? 0)) : top - thickness,
    thickness,
  }
  return { id, job: editJob(job, (draft) => void draft.part.bodies.push(body)) }
}

/** The adding body that reaches highest at the middle of a ring. */
function tallestUnder(job: Job, ring: Ring): Prism | null {
  const at = boxCentre(ring)
  return job.part.bodies
    .filter(isPrism)
    .filter((b) => b.effect === 'adds' && isInside(b.outline, at))
    .reduce<Prism | null>(
      (best, b) => (best && best.base + best.thickness >= b.base + b.thickness ? best : b),
      null,
    )
}

/** Puts a ring as a hole into the body it lies in; null where it lies in none. */
export function addHoleRing(job: Job, ring: Ring): { job: Job; body: string; ring: number } | null {
  const body = tallestUnder(job, ring)
  if (!body) return null
  const hole = ring.map((v) => ({ x: roundTo(v.x, 1e-4), y: roundTo(v.y, 1e-4), bulge: v.bulge ?? 0 }))
  return {
    body: body.id,
    ring: body.holes.length + 1,
    job: editPrism(job, body.id, (b) => void b.holes.push(hole)),
  }
}

export const removeBody = (job: Job, id: string): Job =>
  job.part.bodies.length < 2
    ? job
    : editJob(job, (draft) => {
        draft.part.bodies = draft.part.bodies.filter((b) => b.id !== id)
      })

function middle(job: Job): Point {
  const body = job.part.bodies.find(isPrism)
  if (!body) return { x: 0, y: 0 }
  const { x, y } = boxCentre(body.outline)
  return { x: roundTo(x, 0.1), y: roundTo(y, 0.1) }
}

/** Takes a bore away; setups centred on it keep its point, setups that cut it cut it no more. */
export function removeBore(job: Job, id: string): Job {
  const bore = job.part.bores.find((b) => b.id === id)
  if (!bore) return job
  return editJob(job, (draft) => {
    draft.part.bores = draft.part.bores.filter((b) => b.id !== id)
    for (const setup of draft.setups) {
      if ('bore' in setup.centre && setup.centre.bore === id) setup.centre = { x: bore.x, y: bore.y }
      setup.cuts = withoutCuts(setup.cuts, (c) => 'bore' in c && c.bore === id)
    }
  })
}

export function addBore(job: Job): { job: Job; id: string } {
  const letters = 'ABCDEFGHJKLMNPQRSTUVWXYZ'
  const id = [...letters].find((l) => !job.part.bores.some((b) => b.id === l)) ?? freshId('A', job.part.bores)
  const at = middle(job)
  const diameter = sizeFor(job.displayUnits, 25, 1)
  return {
    id,
    job: editJob(
      job,
      (d) => void d.part.bores.push({ id, x: at.x, y: at.y, diameter, start: 0, depth: null }),
    ),
  }
}
