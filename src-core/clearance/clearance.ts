/**
 * Swept radius of each rotating thing from its true outline, and its clearance to the bed, to the gap (only for
 * what lies within the gap's width, and only if the gap piece is out), to the cross-slide and to the rest of the
 * carriage (for what stands further out than they come when the tool is at full depth).
 */
import type { Finding } from '../findings/finding.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { finding } from '../findings/finding.ts'
import { carriageRows, crossSlideReach } from './carriage.ts'
import { sweptBetween, type Swept } from './swept.ts'

/** mm: less than this is a caution. Rule of thumb, Evenswing's own: parts and plates are not quite round. */
export const CLEARANCE_MARGIN = 3

export type ClearanceAgainst = 'bed' | 'gap' | 'cross-slide' | 'carriage'

export interface Clearance {
  readonly against: ClearanceAgainst
  readonly item: string
  /** The part's body that reaches out furthest; absent for plate and hardware. */
  readonly body?: string
  readonly swept_radius_mm: number
  /** mm; negative fouls. */
  readonly clearance_mm: number
  /** The corner that is closest, plate frame. */
  readonly corner: Point
}

/** The tightest clearance of each thing of `sweptThings` against each obstacle it can meet, tightest first. */
export function clearances(mounted: Mounted, things: readonly Swept[]): Clearance[] {
  const found = new Map<string, Clearance>()
  for (const thing of things) {
    for (const { against, radius, from, to } of obstaclesAt(mounted, thing)) {
      const swept = sweptBetween(thing, from, to)
      if (!swept) continue
      const clearance: Clearance = {
        against,
        item: thing.item,
        ...(thing.body === undefined ? {} : { body: thing.body }),
        swept_radius_mm: swept.radius,
        clearance_mm: radius - swept.radius,
        corner: swept.corner,
      }
      const key = `${thing.item}\n${against}`
      const other = found.get(key)
      if (!other || clearance.clearance_mm < other.clearance_mm) found.set(key, clearance)
    }
  }
  return [...found.values()].sort((a, b) => a.clearance_mm - b.clearance_mm)
}

interface Obstacle {
  readonly against: ClearanceAgainst
  /** mm that it leaves free about the axis. */
  readonly radius: number
  /** Heights between which it stands. */
  readonly from: number
  readonly to: number
}

/** What stands still beside the heights between which a thing turns, where that is known. */
export function obstaclesAt(
  mounted: Mounted,
  { z0, z1 }: { readonly z0: number; readonly z1: number },
): Obstacle[] {
  const { lathe } = mounted.job
  const list: Obstacle[] = []
  const gap = lathe.gap?.open ? lathe.gap : null
  if (gap && z0 < gap.width - TOLERANCE.height)
    list.push({ against: 'gap', radius: gap.swing / 2, from: -Infinity, to: gap.width })
  if (!gap || z1 > gap.width + TOLERANCE.height) {
    const from = gap ? gap.width : -Infinity
    list.push({ against: 'bed', radius: lathe.swingOverBed / 2, from, to: Infinity })
  }
  const reach = crossSlideReach(mounted)
  if (reach !== null && z1 > reach + TOLERANCE.height)
    list.push({ against: 'cross-slide', radius: lathe.swingOverCrossSlide / 2, from: reach, to: Infinity })
  for (const row of carriageRows(mounted))
    if (z1 > row.from + TOLERANCE.height)
      list.push({ against: 'carriage', radius: row.radius, from: row.from, to: Infinity })
  return list
}

export function clearanceFindings(
  mounted: Mounted,
  list: readonly Clearance[],
  things: readonly Swept[],
): Finding[] {
  const fmt = formatter(mounted.job.displayUnits)
  const labels = new Map(things.map((t) => [`${t.item}\n${t.body ?? ''}`, t.label]))
  return list.flatMap((c) => {
    const label = labels.get(`${c.item}\n${c.body ?? ''}`) ?? c.item
    return oneClearance(mounted, c, label, fmt)
  })
}

function oneClearance(mounted: Mounted, c: Clearance, label: string, fmt: Formatter): Finding[] {
  const limit = c.swept_radius_mm + c.clearance_mm
  const sweeps = `sweeps ${fmt.length(c.swept_radius_mm)} radius against ${fmt.length(limit)} to the ${c.against}`
  if (c.clearance_mm < 0) {
    const message = `${label.replace(/^the /, 'The ')} fouls the ${c.against} by ${fmt.length(-c.clearance_mm)}: it ${sweeps}. ${cure(c, mounted)}`
    return [finding('stop', `fouls-${c.against}`, c.item, message, c.corner)]
  }
  if (c.clearance_mm >= CLEARANCE_MARGIN) return []
  const margin = `under the ${fmt.length(CLEARANCE_MARGIN)} that Evenswing asks as a rule of thumb`
  return [
    finding(
      'caution',
      `close-to-${c.against}`,
      c.item,
      `${label} ${sweeps}: ${fmt.length(c.clearance_mm)} clear, ${margin}. Turn by hand and feel with a feeler gauge.`,
      c.corner,
    ),
  ]
}

/** A part swings as far however it is turned, and what is cut of it has to stand on the axis. */
function cure({ against, item }: Clearance, mounted: Mounted): string {
  const { gap } = mounted.job.lathe
  const opening = against === 'bed' && gap && !gap.open ? ' Taking the gap piece out may give room.' : ''
  if (item === 'plate') return `Use a smaller plate.${opening}`
  const own = item === 'part' ? '' : ', or move it inward'
  if (against === 'cross-slide') return `Let the bar stand out further${own}.`
  if (against === 'carriage') return `Let the bar stand out further, set the top slide back${own}.`
  if (item === 'part')
    return opening ? `It swings as far however it is turned.${opening}` : 'It needs a lathe with more swing.'
  return `Move it inward, or choose a smaller piece.${opening}`
}
