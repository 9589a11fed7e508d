/** What stands beside the views: what was found, what was assumed and how sure it is, and the checks by hand. */
import type { Analysis } from '../analysis/result.ts'
import { criterionWords } from '../checks/balance.ts'
import { uncertaintiesOf } from '../doubt/defaults.ts'
import type { Job, Setup } from '../job/schema.ts'
import { clockPosition, formatter, plain } from '../units/format.ts'

export interface NoteBlock {
  readonly title: string
  readonly lines: readonly string[]
  /** Each line starts with an empty box to tick. */
  readonly ticks?: boolean
  readonly caution?: boolean
}

export const PRECEDENCE =
  "Estimates for planning. The machine maker's manual, local rules and a competent person come first."

const LIMITS = {
  balance: 'balance at 95 %',
  plate: "plate's rating",
  spindle: "spindle's maximum",
  cutting: 'cutting speed',
  clamps: 'clamps, factor 2',
  clearance: 'something fouls',
} as const

export function noteBlocks(job: Job, setup: Setup, analysis: Analysis): NoteBlock[] {
  return [
    { title: 'Balance', lines: balanceLines(job, setup, analysis) },
    ...findingBlock(analysis),
    { title: 'By hand, before power', ticks: true, lines: CHECKLIST },
    { title: 'Assumed, and how sure', lines: assumptions(job, analysis) },
    { title: 'Caution', caution: true, lines: [PRECEDENCE] },
  ]
}

function balanceLines(job: Job, setup: Setup, a: Analysis): string[] {
  const fmt = formatter(job.displayUnits)
  const u = a.unbalance
  const ceiling =
    a.ceiling.rpm === null || a.ceiling.limit === null
      ? 'Ceiling: nothing given limits the speed.'
      : `Ceiling ${fmt.speed(Math.floor(a.ceiling.rpm))}, set by ${LIMITS[a.ceiling.limit]}.`
  const chosen = setup.speed === null ? 'No speed chosen.' : `Speed chosen ${fmt.speed(setup.speed)}.`
  return [
    `${ceiling} ${chosen}`,
    `Turning mass ${fmt.mass(a.assembly.mass_kg)}, part ${fmt.mass(a.part.mass_kg)}.`,
    `Unbalance ${fmt.unbalance(u.static_g_mm)} at ${plain(u.static_angle_deg, 0)}° (${clockPosition(u.static_angle_deg)}), 95 % bound ${fmt.unbalance(u.upper95_g_mm)}; after the cut ${fmt.unbalance(u.after_cut_g_mm)}.`,
    `Limit: ${criterionWords(setup)}, this job's own setting; no standard covers faceplate work.`,
    a.clamping === null
      ? 'Clamps: NOT CHECKED.'
      : `Clamps: factor against slip ${plain(a.clamping.factor, 1)} (2 asked, rule of thumb).`,
  ]
}

/** Stops and cautions, worst first; the rest is in the program. */
function findingBlock(analysis: Analysis): NoteBlock[] {
  const open = analysis.findings.filter((f) => f.severity !== 'note')
  if (open.length === 0) return []
  const shown = open
    .slice(0, 5)
    .map((f) => `${f.severity === 'stop' ? 'STOP' : 'Caution'}: ${firstSentence(f.message)}`)
  const more = open.length > 5 ? [`and ${open.length - 5} more: see the findings in the job.`] : []
  return [
    { title: 'Open findings', lines: [...shown, ...more], caution: open.some((f) => f.severity === 'stop') },
  ]
}

/** Up to the first full stop that ends a sentence. */
function firstSentence(message: string): string {
  const end = /[.!?](\s|$)/.exec(message.replace(/\d\.\d/g, (m) => m.replace('.', ',')))
  return end ? message.slice(0, end.index + 1) : message
}

const CHECKLIST = [
  'Every clamp, weight and packing tight; loose tools and key gone.',
  'Turn the spindle by hand through a full turn, saddle at full depth of bore.',
  'Nothing fouls bed, gap, cross-slide, bar or plate.',
  'Spindle free, let it roll: heavy side as drawn?',
  'Start at the lowest speed; stand out of the plane of rotation.',
  'Stop and check all bolts after the first cut.',
]

function assumptions(job: Job, a: Analysis): string[] {
  const d = uncertaintiesOf(job)
  const weighed = job.part.weighedMass !== null
  const share = weighed ? d.weighedMass : d.computedMass
  const fmt = formatter(job.displayUnits)
  return [
    `Part ${weighed ? 'weighed' : 'computed from outline and density'}, ${plain(share * 100, 1)} %; its centre of mass ±${fmt.length(d.centreOfMass)}; pieces placed ±${fmt.length(d.placing)} (standard uncertainties).`,
    job.plate.residual ? 'Plate as measured.' : "Plate's own unbalance not given, taken as nothing.",
    `Eccentricity ${fmt.length(a.assembly.eccentricity_um / 1000)}. Bolts count within the masses listed.`,
  ]
}
