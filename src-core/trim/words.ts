/** Readings that were taken, in words for the record of a run. */
import type { Job } from '../job/schema.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { answerOf } from './estimate.ts'
import { parseReadings, type TrimMethod } from './readings.ts'
import { solveReadings, weightDoubtOf } from './report.ts'

const METHODS: Readonly<Record<TrimMethod, string>> = {
  roll: 'rolled',
  'four-run': 'four runs',
  vector: 'one trial with phase',
}

/** `rolled: 40600 g·mm at 128.3°; four runs: …`; a set that says nothing is left out. */
export function trimmedWords(job: Job, sets: readonly string[]): string {
  const fmt = formatter(job.displayUnits)
  return sets.flatMap((text) => wordsOf(job, text, fmt)).join('; ')
}

function wordsOf(job: Job, text: string, fmt: Formatter): string[] {
  const parsed = parseReadings(text)
  if (!parsed.ok) return []
  const outcome = solveReadings(parsed.readings, weightDoubtOf(job), fmt)
  if (!outcome.ok) return []
  const how = METHODS[parsed.readings.method]
  const found = outcome.estimates.map(answerOf)
  const words = found.map((a) => `${fmt.unbalance(a.measured_g_mm)} at ${fmt.angle(a.heavy_angle_deg)}`)
  if (words.length > 0) return [`${how}: ${words.join(' or ')}`]
  return outcome.direction ? [`${how}: heavy side at ${fmt.angle(outcome.direction.angle_deg)}`] : []
}
