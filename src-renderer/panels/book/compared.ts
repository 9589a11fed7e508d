/** What a comparison shows: its changes numbered, and one setup of each job with its figures. */
import { limitWords } from '../../../src-core/verdict/limits.ts'
import { VERDICT_WORDS } from '../../../src-core/verdict/speeds.ts'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { compareJobs } from '../../../src-core/book/compare.ts'
import type { Change } from '../../../src-core/book/changes.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import type { Mounted } from '../../../src-core/mounting/types.ts'
import { formatter, grouped as groupedDigits } from '../../../src-core/units/format.ts'

export interface Numbered {
  readonly number: number
  readonly change: Change
}

/** In groups as the job orders them: a heading for each group and setup. */
export function grouped(before: Job, after: Job): { heading: string; changes: Numbered[] }[] {
  const groups: { heading: string; changes: Numbered[] }[] = []
  compareJobs(before, after).forEach((change, i) => {
    const heading = HEADINGS[change.group] + (change.setup ? ` ${change.setup}` : '')
    let group = groups.find((g) => g.heading === heading)
    if (!group) groups.push((group = { heading, changes: [] }))
    group.changes.push({ number: i + 1, change })
  })
  return groups
}

const HEADINGS: Readonly<Record<Change['group'], string>> = {
  job: 'Job',
  lathe: 'Lathe',
  plate: 'Plate',
  stock: 'Stock',
  part: 'Part',
  setup: 'Setup',
  runs: 'Runs',
}

export interface Side {
  readonly mounted: Mounted
  readonly unbalance: { readonly amount: number; readonly angle: number }
  readonly figures: readonly { readonly name: string; readonly words: string }[]
}

/** A setup of one job; null where that job has none of that id or cannot be mounted. */
export function sideOf(job: Job, setupId: string): Side | null {
  const setup = job.setups.find((s) => s.id === setupId)
  if (!setup) return null
  try {
    const analysis = analyse(job, setupId)
    const format = formatter(job.displayUnits)
    const row = analysis.speeds.find((s) => s.rpm === setup.speed)
    const { unbalance, ceiling } = analysis
    return {
      mounted: mountSetup(job, setupId),
      unbalance: { amount: unbalance.static_g_mm, angle: unbalance.static_angle_deg },
      figures: [
        { name: 'Static unbalance', words: groupedDigits(format.unbalance(unbalance.static_g_mm)) },
        { name: 'Heavy side', words: format.angle(unbalance.static_angle_deg) },
        {
          name: 'Ceiling',
          words:
            ceiling.rpm === null || ceiling.limit === null
              ? 'nothing limits it'
              : `${format.speedLimit(ceiling.rpm)}: ${limitWords(ceiling.limit).short}`,
        },
        {
          name: 'Chosen speed',
          words:
            setup.speed === null
              ? 'none'
              : `${format.speed(setup.speed)}${row ? `: ${VERDICT_WORDS[row.verdict]}` : ''}`,
        },
      ],
    }
  } catch (error) {
    if (error instanceof RangeError) return null
    throw error
  }
}

/** Numbers of the setup's changes at their places on one side's plate, several of one place together. */
export function marksOn(
  groups: readonly { changes: readonly Numbered[] }[],
  setupId: string,
  side: 'before' | 'after',
): { at: Point; text: string }[] {
  const marks: { at: Point; text: string }[] = []
  for (const { number, change } of groups.flatMap((g) => g.changes)) {
    const at = change.setup === setupId ? change[side] : null
    if (!at) continue
    const near = marks.find((m) => Math.hypot(m.at.x - at.x, m.at.y - at.y) < 1)
    if (near) near.text += `, ${number}`
    else marks.push({ at, text: String(number) })
  }
  return marks
}
