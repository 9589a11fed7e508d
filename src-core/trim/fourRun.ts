/** Trim from amplitudes alone: a run as it is, then one with a trial weight at each of several places. */
import { polar, toDegrees, wholeTurn } from '../geometry/angles.ts'
import { plain, significant, type Formatter } from '../units/format.ts'
import { fitCircles, type CircleFit, type TrialRun } from './circles.ts'
import {
  READING,
  alongAcross,
  refused,
  spread,
  weightDisplacements,
  weightVector,
  type Estimate,
  type Outcome,
  type WeightDoubt,
} from './estimate.ts'
import type { FourRunReadings } from './readings.ts'

/** Shares of the largest amplitude that a misfit may reach before it is worth a word, and before nothing fits. Own settings. */
const MISFIT = { word: 0.03, refused: 0.1 } as const
/** 95 % of χ² with one degree of freedom: a second answer no worse than this is as good as the first. */
const AS_GOOD = 3.84
/** Doubt over the answer from which the trial weights tell too little. Own setting. */
const TOO_LITTLE = 0.5

/** Solves a four-run set by least squares; its misfit is the root mean square of what the amplitudes are off. */
export function solveFourRun(
  { first, trials }: FourRunReadings,
  doubt: WeightDoubt,
  fmt: Formatter,
): Outcome {
  const runs = trials.map((t): TrialRun => ({ weight: weightVector(t), amplitude: t.amplitude }))
  const largest = Math.max(first, ...trials.map((t) => t.amplitude))
  const radius = trials.reduce((s, t) => s + t.radius_mm, 0) / trials.length
  const fits = fitCircles(first, runs)
  const best = fits[0]
  if (!best)
    return refused(
      'trials',
      'tell nothing: put the trial weight at three places well apart, such as 0°, 120° and 240°, and heavy enough to change the reading',
    )
  const misfit = rms(best)
  if (misfit > MISFIT.refused * largest) return impossible(misfit, misfitting(first, runs))
  const noise = Math.hypot(
    READING.amplitude * largest,
    Math.sqrt(best.squares / Math.max(1, trials.length - 2)),
  )
  const twins = fits.filter((f) => f.squares - best.squares <= AS_GOOD * noise ** 2)
  const estimates = twins.map((f) => estimateOf(f, first, noise, radius, doubt))
  return {
    ok: true,
    estimates,
    direction: null,
    remarks: [
      ...twinRemarks(twins, fmt),
      ...misfitRemarks(misfit / largest, () => misfitting(first, runs), trials, fmt),
      ...littleRemarks(estimates[0]!),
    ],
  }
}

const rms = (fit: CircleFit) => Math.sqrt(fit.squares / fit.left.length)

function estimateOf(
  fit: CircleFit,
  first: number,
  noise: number,
  radius: number,
  doubt: WeightDoubt,
): Estimate {
  const vector = polar(first / fit.perGmm, toDegrees(fit.angle))
  return {
    vector,
    covariance: spread([
      ...fit.byTrial.map((s) => alongAcross(vector, -s.lnK * noise, s.angle * noise)),
      alongAcross(vector, noise / first - fit.byFirst.lnK * noise, fit.byFirst.angle * noise),
      ...weightDisplacements(vector, radius, doubt),
    ]),
    misfit: rms(fit),
    response: { perGmm: fit.perGmm, ahead_deg: null },
  }
}

/**
 * The reading without which the others fit best, where enough are left to check each other; else null: among three
 * trial runs nobody can say which is wrong.
 */
function misfitting(first: number, runs: readonly TrialRun[]): number | null {
  if (runs.length < 4) return null
  const without = runs.map((_, i) => fitCircles(first, runs.toSpliced(i, 1))[0]?.squares ?? Infinity)
  return without.indexOf(Math.min(...without))
}

function impossible(misfit: number, wrong: number | null): Outcome {
  const words = `(misfit ${significant(misfit, 3)}). No weight at any place gives these readings; take them again at one speed`
  if (wrong === null) return refused('trials', `do not go together ${words}`)
  return refused(`trials[${wrong}].amplitude`, `does not go with the others ${words}`)
}

function twinRemarks(twins: readonly CircleFit[], fmt: Formatter): string[] {
  if (twins.length < 2) return []
  const angles = twins.map((f) => fmt.angle(wholeTurn(toDegrees(f.angle))))
  return [
    `These readings have ${twins.length} answers: the heavy side at ${angles.join(' or ')}. One more run, with the trial weight at another place off their line, tells which.`,
  ]
}

function misfitRemarks(
  share: number,
  wrong: () => number | null,
  runs: FourRunReadings['trials'],
  fmt: Formatter,
) {
  if (share <= MISFIT.word) return []
  const index = wrong()
  const which =
    index === null
      ? 'Take the runs again at one speed, or add one at another place.'
      : `The one at ${fmt.angle(runs[index]!.angle_deg)} fits worst: take it again.`
  return [
    `The circles do not meet in a point: misfit ${plain(share * 100, 1)} % of the largest reading. ${which}`,
  ]
}

function littleRemarks({ vector, covariance }: Estimate): string[] {
  const doubt = Math.sqrt(covariance.xx + covariance.yy)
  if (doubt <= TOO_LITTLE * Math.hypot(vector.x, vector.y)) return []
  return [
    'The trial weights change the readings too little to tell much. Take heavier ones, or a larger radius, and judge the run again first.',
  ]
}
