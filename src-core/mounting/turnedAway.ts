/** What earlier setups turned, faced and recessed away, as bodies that remove: so clamps of later setups lie on what is left. */
import { keptLast } from '../geometry/kept.ts'
import { circleRing } from '../geometry/edges.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { isBoreCut, type Cut, type Job, type Part, type Prism, type Setup } from '../job/schema.ts'
import { centrePoint, setupsBefore, turnedDiameters, turnedHeights } from './cutAway.ts'

type TurnedCut = Exclude<Cut, { bore: unknown }>

/** The body of a cut, the same object as long as part and axis are the same: what is kept per body goes by it. */
const made = keptLast<TurnedCut, Prism | null>()

/** Rings of the part, part frame, bases above its seat, in the order of the setups. */
export const turnedAway = (job: Job, setup: Setup): readonly Prism[] =>
  setupsBefore(job, setup).flatMap((s) => turnedIn(job, s))

/** Those of one setup. */
export const turnedIn = (job: Job, setup: Setup): readonly Prism[] =>
  (setup.cuts ?? []).flatMap((cut) => (isBoreCut(cut) ? [] : (bodyOf(job.part, setup, cut) ?? [])))

function bodyOf(part: Part, setup: Setup, cut: TurnedCut): Prism | null {
  const { x, y } = centrePoint(part, setup)
  return made(cut, [part, x, y], () => ringOf(part, setup, cut, { x, y }))
}

function ringOf(part: Part, setup: Setup, cut: TurnedCut, axis: { x: number; y: number }): Prism | null {
  const [inner, outer] = turnedDiameters(cut)
  const [z0, z1] = turnedHeights(part, cut)
  if (outer - inner <= TOLERANCE.coincident || z1 - z0 <= TOLERANCE.height) return null
  return {
    id: `${setup.id} ${cut.id}`,
    name: `what ${setup.id} cut away (${cut.name ?? cut.id})`,
    effect: 'removes',
    outline: circleRing(axis, outer),
    holes: inner > TOLERANCE.coincident ? [circleRing(axis, inner)] : [],
    base: z0,
    thickness: z1 - z0,
  }
}
