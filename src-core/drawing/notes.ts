/** What stands beside the views: what was found, what was assumed and how sure it is, and the checks by hand. */
import type { Analysis } from '../analysis/result.ts'
import { criterionWords } from '../unbalance/criterion.ts'
import { uncertaintiesOf } from '../doubt/defaults.ts'
import type { Job, Setup } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
import { clockPosition, formatter, plain } from '../units/format.ts'
import { limitWords } from '../verdict/limits.ts'
import { CHECKS_BY_HAND } from '../words/cautions.ts'
import type { Notes } from './noteBlock.ts'
import { angleText, centreBefore } from './view.ts'

/** The speed chosen, with its verdict where that is not `go`, and the ceiling with what sets it. */
export function speedWords(
  job: Job,
  setup: Setup,
  { ceiling, speeds }: Analysis,
): { first: string; second: string; caution: boolean } {
  const fmt = formatter(job.displayUnits)
  const verdict = speeds.find((s) => s.rpm === setup.speed)?.verdict
  const over = ceiling.rpm !== null && setup.speed !== null && setup.speed > ceiling.rpm
  const caution = over || verdict === 'stop'
  const warning = caution ? ': STOP' : verdict === 'caution' ? ': CAUTION' : ''
  const first = setup.speed === null ? 'NO SPEED CHOSEN' : `SPINDLE ${fmt.speed(setup.speed)}${warning}`
  if (ceiling.limit === null) return { first, caution, second: 'Ceiling: nothing given limits it.' }
  const reason = limitWords(ceiling.limit).long
  if (!ceiling.rpm) return { first, caution, second: `No speed allowed: ${reason}` }
  return { first, caution, second: `Ceiling ${fmt.speed(Math.floor(ceiling.rpm))}: ${reason}` }
}

export function balanceNotes(job: Job, mounted: Mounted, a: Analysis): Notes {
  const fmt = formatter(job.displayUnits)
  const u = a.unbalance
  const before = centreBefore(mounted, a)
  const [x, y] = a.assembly.centroid_mm
  const centre = `Centre of mass ${fmt.length(Math.hypot(x, y))} from the axis${before ? `, before counterweights ${fmt.length(Math.hypot(before.x, before.y))}` : ''}.`
  return {
    title: 'Balance',
    lines: [
      `Turning mass ${fmt.mass(a.assembly.mass_kg)}, part ${fmt.mass(a.part.mass_kg)}.`,
      `Unbalance ${fmt.unbalance(u.static_g_mm)} at ${angleText(job, u.static_angle_deg, 0)} (${clockPosition(u.static_angle_deg)} as drawn), 95 % bound ${fmt.unbalance(u.upper95_g_mm)}; after the cut ${fmt.unbalance(u.after_cut_g_mm)}.`,
      centre,
      `Limit: ${criterionWords(mounted.setup)}, this job's own setting; no standard covers faceplate work.`,
      a.clamping === null
        ? 'Clamps: NOT CHECKED.'
        : `Clamps: factor against slip ${plain(a.clamping.factor, 1)} (rule of thumb: 2).`,
    ],
  }
}

const MOST_FINDINGS = 8

/** Stops and cautions, worst first; the rest is in the program. */
export function findingNotes(analysis: Analysis): Notes[] {
  const open = [
    ...analysis.findings.filter((f) => f.severity === 'stop'),
    ...analysis.findings.filter((f) => f.severity === 'caution'),
  ]
  if (open.length === 0) return []
  const shown = open
    .slice(0, MOST_FINDINGS)
    .map((f) => `${f.severity === 'stop' ? 'STOP' : 'Caution'}: ${firstSentence(f.message)}`)
  const more = open.length - shown.length
  return [
    {
      title: 'Open findings',
      lines: more > 0 ? [...shown, `and ${plain(more, 0)} more: see the findings in the job.`] : shown,
      caution: open[0]!.severity === 'stop',
    },
  ]
}

/** Up to the first full stop that ends a sentence. */
function firstSentence(message: string): string {
  const end = /[.!?](\s|$)/.exec(message)
  return end ? message.slice(0, end.index + 1) : message
}

export const CHECKLIST: Notes = {
  title: 'By hand, before power',
  ticks: true,
  lines: CHECKS_BY_HAND,
}

export function assumptionNotes(job: Job): Notes {
  const d = uncertaintiesOf(job)
  const weighed = job.part.weighedMass !== null
  const share = weighed ? d.weighedMass : d.computedMass
  const fmt = formatter(job.displayUnits)
  return {
    title: 'Assumed, and how sure',
    lines: [
      `Standard uncertainties: part ${weighed ? 'weighed' : 'computed from outline and density'} ±${plain(share * 100, 1)} %, its centre of mass ±${fmt.length(d.centreOfMass)}; pieces weighed ±${plain(d.weighedMass * 100, 1)} %, placed ±${fmt.length(d.placing)}. The 95 % bound is made of these.`,
      job.plate.residual
        ? `Plate's own unbalance ${fmt.unbalance(job.plate.residual.amount)}, as given.`
        : "Plate's own unbalance not given, taken as nothing.",
      'Bolts count within the masses listed.',
    ],
  }
}
