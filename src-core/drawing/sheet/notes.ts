/** What stands beside the views: what was found, what was assumed and how sure it is, and the checks by hand. */
import { bounded } from '../text/bounded.ts'
import { leastJointWords } from '../../holding/leastJoint.ts'
import type { Analysis } from '../../analysis/result.ts'
import { criterionWords } from '../../unbalance/criterion.ts'
import { uncertaintiesOf } from '../../doubt/defaults.ts'
import type { Effect } from '../../findings/codes.ts'
import { standingOf } from '../../findings/finding.ts'
import { mostEnergy } from '../../holding/letGo.ts'
import type { Job, Setup } from '../../job/schema.ts'
import { outermostStation } from '../../mounting/station.ts'
import type { Mounted } from '../../mounting/types.ts'
import { clockPosition, formatter, plain, weightAtRadius, type Formatter } from '../../units/format.ts'
import { limitWords, type Ceiling } from '../../verdict/limits.ts'
import { holdsAt } from '../../verdict/speeds.ts'
import { checksByHand } from '../../words/cautions.ts'
import { signed } from './lists.ts'
import type { Headline, Notes } from './noteBlock.ts'
import { centreBefore, hasHeavySide } from '../views/view.ts'
import { angleText } from '../../mounting/plateAngle.ts'

/** The verdict with its reason, then the speed to run and the ceiling with what sets it. */
export function headlineWords(job: Job, setup: Setup, { ceiling, verdict }: Analysis): Headline {
  const fmt = formatter(job.displayUnits)
  const { state, reason, finding } = verdict
  const word = signed(state).toUpperCase()
  return {
    first: `${word}, ${setup.speed === null ? 'NO SPEED CHOSEN' : `SPINDLE ${fmt.speed(setup.speed)}`}`,
    reason: state === 'go' && finding === null ? null : `${reason}.`,
    ceiling: ceilingWords(ceiling, fmt),
    again: `${word}: ${reason}`,
    caution: state === 'stop' || state === 'not-judged',
  }
}

function ceilingWords({ rpm, limit }: Ceiling, fmt: Formatter): string {
  if (rpm === null || limit === null) return 'Ceiling: nothing given limits it.'
  const { long } = limitWords(limit)
  return rpm === 0 ? `No speed allowed: ${long}` : `Ceiling ${fmt.speedLimit(rpm)}: ${long}`
}

export function balanceNotes(job: Job, mounted: Mounted, a: Analysis): Notes {
  const fmt = formatter(job.displayUnits)
  const u = a.unbalance
  const before = centreBefore(mounted, a)
  const least = leastJointWords(a.joints)
  const [x, y] = a.assembly.centroid_mm
  const centre = `Centre of mass ${fmt.length(Math.hypot(x, y))} from the axis${before ? `, before counterweights ${fmt.length(Math.hypot(before.x, before.y))}` : ''}.`
  return {
    title: 'Balance',
    lines: [
      `Turning mass ${fmt.mass(a.assembly.mass_kg)}, part ${fmt.mass(a.part.mass_kg)}${mostEnergy(fmt, a.let_go)}.`,
      `${hasHeavySide(a) ? `Unbalance ${fmt.unbalance(u.static_g_mm)}, as ${weightAtRadius(fmt, u.static_g_mm, outermostStation(job.plate))}, at ${angleText(job, u.static_angle_deg, 0)} (${clockPosition(u.static_angle_deg)} as drawn)` : 'No heavy side to speak of'}, 95 % bound ${fmt.unbalance(u.upper95_g_mm)}; after the cut ${fmt.unbalance(u.after_cut_g_mm)}.`,
      centre,
      `Limit: ${criterionWords(mounted.setup, fmt)}, this job's own setting; no standard covers faceplate work.`,
      least === null ? 'Holding: NOT JUDGED.' : `Holds ${least} (2 wanted).`,
    ],
  }
}

const WORDS = { stop: 'STOP', 'not-judged': 'NOT JUDGED', caution: 'Caution', note: 'Note' } as const

/** Every finding that stands against the verdict at the chosen speed: all stops, then all that was not judged. */
export function verdictNotes({ speed }: Setup, { findings }: Analysis): Notes[] {
  const now = findings.filter((f) => f.effect !== 'none' && holdsAt(f, speed ?? 0))
  const list = (title: string, effect: Effect): Notes[] => {
    const lines = now.filter((f) => f.effect === effect).map((f) => firstSentence(f.message))
    const counted = lines.length > 1 ? `${title} (${plain(lines.length, 0)})` : title
    return lines.length > 0 ? [{ title: counted, lines, caution: true, breaks: true }] : []
  }
  return [...list('To put right first', 'stop'), ...list('Not judged', 'unknown')]
}

/** What else was found, worst first, but for notes. */
export function findingNotes({ displayUnits }: Job, { speed }: Setup, { findings }: Analysis): Notes[] {
  const fmt = formatter(displayUnits)
  const lines = findings
    .filter((f) => standingOf(f) !== 'note' && (f.effect === 'none' || !holdsAt(f, speed ?? 0)))
    .map((f) => {
      const above = f.effect === 'none' ? '' : ` above ${fmt.speedLimit(f.fromRpm)}`
      return `${WORDS[standingOf(f)]}${above}: ${firstSentence(f.message)}`
    })
  return lines.length > 0 ? [{ title: 'Other findings', lines }] : []
}

/** Letters of a finding: the names in it may be of any length. */
const MOST_LETTERS = 1500

/** Up to the first full stop that ends a sentence. */
function firstSentence(message: string): string {
  const end = /[.!?](\s|$)/.exec(message)
  return bounded(end ? message.slice(0, end.index + 1) : message, MOST_LETTERS)
}

export const checklist = ({ by_hand }: Analysis): Notes => ({
  title: 'By hand, before power',
  ticks: true,
  lines: checksByHand(by_hand.rolls),
})

export function assumptionNotes(job: Job): Notes {
  const d = uncertaintiesOf(job)
  const weighed = job.part.weighedMass !== null
  const share = weighed ? d.weighedMass : d.computedMass
  const fmt = formatter(job.displayUnits)
  return {
    title: 'Assumed, and how sure',
    lines: [
      `Standard uncertainties: part ${weighed ? 'weighed' : 'computed from outline and density'} ±${plain(share * 100, 1)} %, its centre of mass ±${fmt.give(d.centreOfMass)}; pieces weighed ±${plain(d.weighedMass * 100, 1)} %, placed ±${fmt.give(d.placing)}. The 95 % bound is made of these.`,
      job.plate.residual
        ? `Plate's own unbalance ${fmt.unbalance(job.plate.residual.amount)}, as given.`
        : `Plate's own unbalance not given: taken as nothing, ±${fmt.give(d.plateResidual)} of offset.`,
      'Bolts count within the masses listed.',
    ],
  }
}
