/** The joints of a setup as text for people. */
import type { Analysis } from '../../src-core/analysis/result.ts'
import { significant, type Formatter } from '../../src-core/units/format.ts'
import { printable } from './failure.ts'
import { table } from './table.ts'

/** Rounded down: no factor reads as wanted that is not. */
const factorText = (factor: number | null): string => {
  if (factor === null) return '-'
  if (factor > 100) return 'over 100'
  return factor < 10 ? significant(Math.floor(factor * 100) / 100, 3) : String(Math.floor(factor))
}

/** Least factor of the joints at the chosen speed; at others whether it is over 2. */
export function holdingAt({ joints, limits }: Analysis, rpm: number, chosen: number | null): string {
  const factors = joints.flatMap((j) => j.factor ?? [])
  if (factors.length === 0) return '-'
  if (rpm === chosen) return factorText(Math.min(...factors))
  return limits.holding === null || rpm <= limits.holding ? 'over 2' : 'under 2'
}

export function jointsSection({ joints }: Analysis, fmt: Formatter): string[] {
  const rows = joints.map((j) => {
    const falls =
      j.rpm_at_2 === null ? '-' : j.rpm_at_2 === 0 ? 'under 2 at rest' : fmt.speedLimit(j.rpm_at_2)
    return j.factor === null
      ? [printable(j.what), 'not judged', '', '', '', '']
      : [
          printable(j.what),
          factorText(j.factor),
          j.mode ?? '-',
          factorText(j.sliding),
          factorText(j.tipping),
          falls,
        ]
  })
  return [
    'Joints, 2 wanted',
    ...table(
      [['', 'factor', 'first', 'sliding', 'tipping', 'falls to 2 at'], ...rows],
      ['left', 'right', 'left', 'right', 'right', 'right'],
    ),
  ]
}

export function clampsSection({ clamping }: Analysis, fmt: Formatter): string[] {
  if (!clamping || clamping.clamps.length === 0)
    return ['Clamps', '  none is known to press the part (see the findings)']
  const rows = clamping.clamps.map((c) => [
    printable(c.item),
    `preload ${fmt.force(c.preload_N)}`,
    `proof load ${fmt.force(c.proof_N)}`,
    `on the work at least ${fmt.force(c.work_force_N)}`,
  ])
  return ['Clamps that press the part', ...table(rows, ['left', 'left', 'left', 'left'])]
}
