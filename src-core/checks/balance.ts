/** Findings about balance and speed: what it pulls at the chosen speed, against what limit, and what would cure it. */
import { opposite } from '../geometry/angles.ts'
import { atMost } from '../geometry/tolerance.ts'
import type { Analysis } from '../analysis/result.ts'
import type { Finding } from '../findings/finding.ts'
import type { Job, Setup } from '../job/schema.ts'
import { allowedUnbalance } from '../unbalance/criterion.ts'
import { STANDARD_GRAVITY, centrifugalForce } from '../unbalance/static.ts'
import { clockPosition, formatter, significant } from '../units/format.ts'
import { finding } from '../findings/finding.ts'

const LIMIT_WORDS = {
  balance: 'balance (95 % bound)',
  plate: "the plate's rating",
  spindle: "the spindle's maximum",
  cutting: 'the cutting speed',
  clamps: 'the clamps (factor 2)',
  clearance: 'clearance: something fouls',
} as const

type Part = Pick<Analysis, 'speeds' | 'ceiling' | 'limits' | 'unbalance' | 'assembly'>

export function criterionWords(setup: Setup): string {
  const { kind, value } = setup.criterion
  if (kind === 'force') return `${significant(value, 3)} N`
  if (kind === 'weightShare') return `${significant(value * 100, 3)} % of the rotating weight`
  return `grade G ${significant(value, 3)}`
}

export function balanceFindings(job: Job, setup: Setup, a: Part): Finding[] {
  const fmt = formatter(job.displayUnits)
  const findings: Finding[] = []
  const weight = a.assembly.mass_kg * STANDARD_GRAVITY
  const heavy = `heavy side at ${fmt.angle(a.unbalance.static_angle_deg)} (${clockPosition(a.unbalance.static_angle_deg)})`
  const cure = counterweightWords(job, setup, a)
  const ceiling = a.ceiling
  const ceilingText =
    ceiling.rpm === null || ceiling.limit === null
      ? 'nothing given limits the speed'
      : `ceiling ${fmt.speed(Math.floor(ceiling.rpm))}, set by ${LIMIT_WORDS[ceiling.limit]}`
  const row = a.speeds.find((s) => s.rpm === setup.speed)
  if (!row) {
    findings.push(
      finding(
        'note',
        'no-speed-chosen',
        'setup',
        `No speed is chosen; ${ceilingText}. Choose one to have forces and clamps judged at it.`,
      ),
    )
  } else {
    const figures = `${fmt.force(row.force_N)} at ${fmt.speed(row.rpm)}, ${fmt.percent(row.weight_share)} of ${fmt.force(weight)} (95 % bound ${fmt.force(row.force_upper95_N)}), ${heavy}`
    const limit = `limit ${criterionWords(setup)}`
    if (a.limits.balanceBestEstimate !== null && !atMost(row.rpm, a.limits.balanceBestEstimate))
      findings.push(
        finding('stop', 'unbalance-over-limit', 'setup', `Unbalance pulls ${figures}; ${limit}. ${cure}`),
      )
    else if (a.limits.balance !== null && !atMost(row.rpm, a.limits.balance))
      findings.push(
        finding(
          'caution',
          'unbalance-near-limit',
          'setup',
          `Unbalance pulls ${figures}; ${limit}, met by the best estimate but not by the 95 % bound. ${cure}`,
        ),
      )
    else
      findings.push(
        finding('note', 'unbalance-within-limit', 'setup', `Unbalance pulls ${figures}; ${limit}.`),
      )
    if (row.verdict === 'stop')
      findings.push(
        finding(
          'stop',
          'speed-above-ceiling',
          'setup',
          `${fmt.speed(row.rpm)} is above the ${ceilingText}. Run slower or lift that limit.`,
        ),
      )
  }
  findings.push(
    finding(
      'note',
      'criterion-own-setting',
      'setup',
      `No published standard sets a speed or a residual for faceplate work, and no ISO 21940-11 grade covers it; ${criterionWords(setup)} is this job's own setting.`,
    ),
  )
  const { residual } = job.plate
  if (!residual)
    findings.push(
      finding(
        'note',
        'plate-residual-unknown',
        'plate',
        "The bare plate's own unbalance is not given and is taken as nothing. Let the bare plate roll to rest to see.",
      ),
    )
  return findings
}

/** What a single counterweight opposite would be, at the radius of the plate's outermost station. */
function counterweightWords(job: Job, setup: Setup, a: Part): string {
  const fmt = formatter(job.displayUnits)
  const u = a.unbalance.static_g_mm
  const light = opposite(a.unbalance.static_angle_deg)
  const radii = [...job.plate.slots.map((s) => s.to), ...job.plate.holes.map((h) => Math.hypot(h.x, h.y))]
  const radius = radii.length > 0 ? Math.max(...radii) : job.plate.diameter / 2
  const mass = u / 1000 / radius
  const slower =
    a.limits.balance === null ? '' : ` or run at ${fmt.speed(Math.floor(a.limits.balance))} or slower`
  const allowed =
    setup.speed === null ? null : allowedUnbalance(setup.criterion, a.assembly.mass_kg, setup.speed)
  const aim = allowed === null ? '' : ` (aim: under ${fmt.unbalance(allowed)}, now ${fmt.unbalance(u)})`
  return `${fmt.mass(mass)} at ${fmt.length(radius)} toward ${fmt.angle(light)} (${clockPosition(light)}) would settle it${aim},${slower || ' or run slower'}.`
}

/** Difference that this setup's cut makes to the static unbalance. */
export function afterCutFinding(job: Job, setup: Setup, before: number, after: number): Finding[] {
  if (!setup.cut) return []
  const fmt = formatter(job.displayUnits)
  const bore = setup.cut.bore
  const word =
    Math.abs(after - before) < 0.02 * Math.max(before, 1)
      ? 'hardly changes'
      : after > before
        ? 'grows'
        : 'falls'
  const message = `Cutting bore ${bore}, the static unbalance ${word}: ${fmt.unbalance(before)} as mounted, ${fmt.unbalance(after)} after the cut.`
  const severity =
    setup.speed !== null && centrifugalForce(after, setup.speed) > 1.2 * centrifugalForce(before, setup.speed)
      ? 'caution'
      : 'note'
  return [finding(severity, 'after-cut', bore, message)]
}
