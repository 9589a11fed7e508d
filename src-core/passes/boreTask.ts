/** What a setup's cut in a bore has to bring to size. */
import { type Bore, type Cut, type Setup, type Job } from '../job/schema.ts'
import type { BoreTask } from './borePasses.ts'
import { HOLE_CLASSES, holeLimits, type SizeLimits } from './holeClasses.ts'

type Boring = Extract<Cut, { kind: 'bore' }>

/** A bore to be brought to size, or a sentence on why its passes cannot be planned. */
export type BoreWork =
  | {
      readonly ok: true
      readonly bore: Bore
      readonly cut: Boring
      readonly task: BoreTask
      readonly tolerance: string
    }
  | { readonly ok: false; readonly bore: Bore; readonly cut: Boring; readonly why: string }

/** Every boring cut of a setup, in order. */
export const boreWorks = (job: Job, setup: Setup): BoreWork[] =>
  (setup.cuts ?? []).flatMap((cut) => {
    const bore = cut.kind === 'bore' ? job.part.bores.find((b) => b.id === cut.bore) : undefined
    return bore && cut.kind === 'bore' ? [workOf(setup, bore, cut)] : []
  })

function workOf(setup: Setup, bore: Bore, cut: Boring): BoreWork {
  const no = (why: string) => ({ ok: false, bore, cut, why }) as const
  const limits = limitsOf(bore)
  if (typeof limits === 'string') return no(limits)
  const start = startOf(setup, bore)
  if (start === null) return no('It starts solid and no drill is given: drill first, then measure the hole.')
  const task: BoreTask = { limits, start, skin: bore.skin ?? null, depth: cut.depth, dial: cut.dial ?? null }
  return { ok: true, bore, cut, task, tolerance: toleranceWords(bore) }
}

/** The limits of size, or why they are not known. */
export function limitsOf({ tolerance, diameter }: Bore): SizeLimits | string {
  if (!tolerance) return 'No tolerance is given: give a class such as H7 or ANSI H7, or two limits.'
  if ('limits' in tolerance) return tolerance.limits
  return (
    holeLimits(diameter, tolerance.class) ??
    `Class ${tolerance.class} is not in the table (${HOLE_CLASSES}): give the two limits.`
  )
}

const toleranceWords = ({ tolerance }: Bore): string =>
  tolerance && 'class' in tolerance ? tolerance.class : ''

/** Diameter that is there when boring begins; null where it is solid and nothing opens it. */
function startOf(setup: Setup, bore: Bore): number | null {
  const drills = (setup.cuts ?? []).flatMap((c) =>
    c.kind === 'drill' && c.bore === bore.id ? [c.diameter] : [],
  )
  const start = Math.max(bore.start, ...drills)
  return start > 0 ? start : null
}
