/** What is said of a setup's cuts: speed, force, drill. */
import { finding, type Finding } from '../findings/finding.ts'
import { findMaterial } from '../job/materials.ts'
import { isBoreCut, type Setup } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter, plain, type Formatter } from '../units/format.ts'
import type { CutRow, CuttingAdvice } from './advice.ts'
import { cutPlaces, cutWords, type CutPlace } from './cutPlace.ts'
import { CUTTING_MARGIN, isTooFast, surfaceSpeed } from './rpm.ts'
import { speedBasis } from './speeds.ts'

export function cuttingFindings(mounted: Mounted, advice: CuttingAdvice | null): Finding[] {
  if (!advice) return []
  const fmt = formatter(mounted.job.displayUnits)
  const places = cutPlaces(mounted)
  return [
    ...advice.cuts.flatMap((row, i) => [
      speedFinding(mounted.setup, fmt, places[i]!, row),
      ...tableFinding(mounted, places[i]!, row),
      ...drillFindings(fmt, places[i]!, row),
    ]),
    ...forceUnknown(mounted, places, advice),
    ...openedWithout(mounted, places),
  ]
}

function speedFinding(setup: Setup, fmt: Formatter, { cut, item, diameter }: CutPlace, row: CutRow): Finding {
  const gear =
    row.set_rpm === null ? 'even the slowest gear is too fast' : `nearest gear ${fmt.speed(row.set_rpm)}`
  const ideal = `${plain(cut.speed, 1)} m/min on ${fmt.length(diameter)} is ${fmt.speed(row.ideal_rpm)}, ${gear}`
  if (setup.speed === null || !isTooFast(setup.speed, row.ideal_rpm))
    return finding('note', 'cutting-speed', item, `Cutting speed ${ideal}.`)
  const at = surfaceSpeed(diameter, setup.speed)
  const message = `${fmt.speed(setup.speed)} is hard on the tool, ${cutWords(cut)} at ${plain(at, 1)} m/min: ${ideal}, and up to ${fmt.percent(CUTTING_MARGIN)} above it is fine.`
  return finding('caution', 'faster-than-cutting-speed', item, message)
}

function tableFinding(
  { job }: Mounted,
  { cut, item }: CutPlace,
  { advised_m_min: range }: CutRow,
): Finding[] {
  const group = findMaterial(job.part.material)?.group ?? null
  if (!range || !group || (cut.speed <= range[1] && cut.speed >= range[0] / 2)) return []
  const high = cut.speed > range[1]
  const message = `${plain(cut.speed, 1)} m/min is ${high ? 'above' : 'far below'} ${plain(range[0], 0)} to ${plain(range[1], 0)} m/min, the table's range for ${job.part.material} with ${cut.tool} (${speedBasis(group)}). As a rule of thumb start at the lower end on a faceplate.`
  return [
    high
      ? finding('caution', 'cutting-speed-high', item, message)
      : finding('note', 'cutting-speed-low', item, message),
  ]
}

function forceUnknown({ job }: Mounted, places: readonly CutPlace[], { cuts }: CuttingAdvice): Finding[] {
  const first = places[0]
  if (!first || cuts.every((c) => c.torque_N_m !== null)) return []
  const message = `Cutting force not checked: "${job.part.material}" is not in the table of materials.`
  return [finding('caution', 'cutting-force-unknown', first.item, message)]
}

/** A solid bore that is bored, with no word of the drill that opens it. */
function openedWithout({ bores }: Mounted, places: readonly CutPlace[]): Finding[] {
  const drilled = new Set(places.flatMap(({ cut }) => (cut.kind === 'drill' ? [cut.bore] : [])))
  const cut = new Set(places.flatMap(({ cut }) => (isBoreCut(cut) ? [cut.bore] : [])))
  return bores.flatMap(({ bore }) => {
    if (!cut.has(bore.id) || bore.start > 0 || drilled.has(bore.id)) return []
    const message = `Bore ${bore.id} starts solid, but no drill opens it: drilling thrust and torque were not checked. Give the drill.`
    return [finding('caution', 'drilling-not-checked', bore.id, message)]
  })
}

function drillFindings(fmt: Formatter, { cut, item, bore }: CutPlace, row: CutRow): Finding[] {
  if (cut.kind !== 'drill') return []
  const findings: Finding[] = []
  if (row.torque_N_m !== null) {
    const message = `Opening with a ${fmt.length(cut.diameter)} drill at ${plain(cut.feed, 2)} mm/rev: thrust ${fmt.force(row.thrust_N ?? 0)}, torque ${fmt.torque(row.torque_N_m)} (the higher of two published methods, worn drill).`
    findings.push(finding('note', 'drilling', item, message))
  }
  if (bore && cut.diameter > bore.bore.diameter) {
    const message = `The ${fmt.length(cut.diameter)} drill is larger than bore ${bore.bore.id}, ${fmt.length(bore.bore.diameter)}. Use a smaller drill.`
    findings.push(finding('stop', 'drill-too-large', item, message))
  }
  return findings
}
