/**
 * What of the carriage stands how near the spindle axis when the tool is at full depth, and what is not known of it.
 * The carriage comes from the tailstock, so whatever stands at a height has passed all heights in front of it.
 */
import { capital } from '../words/capital.ts'
import { cutPlaces, cutWords } from '../cutting/cutPlace.ts'
import { finding, type Finding } from '../findings/finding.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Lathe } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { sweptBetween, type Swept } from './swept.ts'
import { tipDepth, toolsAtWork } from './toolAtWork.ts'

/** From a height on, what turns further out than the radius meets the carriage. */
export interface CarriageRow {
  /** z */
  readonly from: number
  readonly radius: number
}

/** mm behind the tip that the first of the carriage stands; null where neither reach nor profile is given. */
function carriageFront({ barReach, carriage }: Lathe): number | null {
  if (barReach !== null) return barReach
  return carriage ? Math.min(...carriage.profile.map((r) => r.behind)) : null
}

/**
 * z beyond which things meet the cross-slide with the tool at full depth: it may be the first of the carriage. Null where
 * that is not known.
 */
export function crossSlideReach(mounted: Mounted): number | null {
  const front = carriageFront(mounted.job.lathe)
  return front === null ? null : tipDepth(mounted) + front
}

/**
 * The carriage's profile as it stands with the tool at full depth; none where it is not given. What would come nearer
 * than the front of the material stops there. Only what is narrower than the cross-slide moves out with the tip.
 */
export function carriageRows(mounted: Mounted): CarriageRow[] {
  const { carriage, swingOverCrossSlide } = mounted.job.lathe
  const tools = toolsAtWork(mounted)
  return (carriage?.profile ?? []).flatMap(({ behind, radius }) =>
    tools.map(({ tip, mouth, out }) => ({
      from: Math.max(tip + behind, mouth),
      radius: radius >= swingOverCrossSlide / 2 ? radius : Math.min(radius + out, swingOverCrossSlide / 2),
    })),
  )
}

/** Names in a sentence: all of them, or the first few and how many more. */
function listed(names: readonly string[]): string {
  const most = 4
  const shown = names.slice(0, most)
  const more = names.length - shown.length
  if (more > 0) return `${shown.join(', ')} and ${more} more`
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(', ')} and ${shown.at(-1)!}`
}

/** What of the carriage is not known where something turns that it could meet: said once for the lathe. */
export function carriageUnknown(mounted: Mounted, things: readonly Swept[]): Finding[] {
  const { lathe, displayUnits } = mounted.job
  if (lathe.carriage) return []
  const fmt = formatter(displayUnits)
  const tools = toolsAtWork(mounted)
  const beyond = (from: number) => things.filter((t) => t.z1 > from + TOLERANCE.height)
  const labels = (met: readonly Swept[]) => listed([...new Set(met.map((t) => t.label))])
  const first = (met: readonly Swept[]) => met.reduce((a, b) => (b.radius > a.radius ? b : a)).corner
  if (lathe.barReach === null) {
    const slide = lathe.swingOverCrossSlide / 2
    const tip = tipDepth(mounted)
    const met = [
      ...beyond(tip).filter((t) => (sweptBetween(t, tip, Infinity)?.radius ?? 0) > slide),
      ...beyond(Math.min(...tools.map((t) => t.mouth))),
    ]
    if (met.length === 0) return []
    const message = `What of the carriage comes near the work is not known for this lathe. ${capital(labels(met))} may meet tool post or cross-slide: give the bar's reach from the tool's tip back to the first of them, or the carriage's profile.`
    return [finding('caution', 'carriage-not-checked', 'lathe', message, first(met))]
  }
  const reach = lathe.barReach
  const met = beyond(Math.min(...tools.map(({ tip, mouth }) => Math.max(tip + reach, mouth))))
  if (met.length === 0) return []
  const message = `How near the tool post comes is not known for this lathe. ${labels(met)} stand further out than the ${fmt.length(reach)} that the bar reaches: give the carriage's profile, or let the bar stand out further.`
  return [finding('caution', 'carriage-not-checked', 'lathe', message, first(met))]
}

/** A tool that cannot go to the bottom: what carries it meets the work, or the carriage its stop. */
export function reachFindings(mounted: Mounted): Finding[] {
  const { lathe, displayUnits } = mounted.job
  const nearest = carriageFront(lathe)
  if (nearest === null) return []
  const fmt = formatter(displayUnits)
  const out = lathe.gap?.open === true
  const stopsAt = (out ? lathe.saddleReach?.gapOut : lathe.saddleReach?.gapIn) ?? 0
  return cutPlaces(mounted).flatMap(({ cut, item, bore, z0, z1 }): Finding[] => {
    if (cut.kind === 'drill' || cut.kind === 'ream') return []
    const at = bore?.centre ?? null
    const findings: Finding[] = []
    const depth = z1 - z0
    if (cut.kind === 'bore' && nearest < depth - TOLERANCE.height) {
      const message = `The bar is too short for ${cutWords(cut)}: what carries it meets the work ${fmt.length(depth - nearest)} before the tool is through. It stands out ${fmt.length(nearest)}, the bore is ${fmt.length(depth)} deep.`
      findings.push(finding('caution', 'bar-short', item, message, at))
    }
    const short = stopsAt - (z0 + nearest)
    if (short > TOLERANCE.height) {
      const gap = lathe.gap ? ` with the gap piece ${out ? 'out' : 'in'}` : ''
      const message = `The carriage does not come near enough for ${cutWords(cut)}: ${fmt.length(short)} short. It stops ${fmt.length(stopsAt)} from the plate's face${gap}; let the tool stand out ${fmt.length(stopsAt - z0)}.`
      findings.push(finding('caution', 'saddle-short', 'lathe', message, at))
    }
    return findings
  })
}
