/** What is said of a setup's cuts beside the speed they want: table, blows, bar, force, drill. */
import { finding, type Finding } from '../findings/finding.ts'
import { findMaterial } from '../job/materials.ts'
import { isBoreCut, isPrism } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter, plain, type Formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'
import { skinOf, type CutRow, type CuttingAdvice } from './advice.ts'
import { barGives, barWords } from './bar.ts'
import { barFits } from './barFits.ts'
import { cutPlaces, cutWords, type CutPlace } from './cutPlace.ts'
import { drillBasis } from './drilling.ts'
import { INTERRUPTED } from './forces.ts'
import { findGroup } from './groups.ts'
import { advisedSpeed } from './speeds.ts'

export function cuttingFindings(mounted: Mounted, advice: CuttingAdvice | null): Finding[] {
  if (!advice) return []
  const fmt = formatter(mounted.job.displayUnits)
  const places = cutPlaces(mounted)
  return [
    ...advice.cuts.flatMap((row, i) => [
      ...tableFinding(mounted, fmt, places[i]!),
      ...meetsFindings(fmt, places[i]!, row, skinOf(places[i]!)),
      ...barFits(fmt, places, places[i]!),
      ...barFindings(fmt, places[i]!, row),
      ...drillFindings(mounted, fmt, places[i]!, row),
    ]),
    ...forceUnknown(mounted, places, advice),
    ...openedWithout(mounted, places),
    ...notDrawn(mounted, places),
  ]
}

function tableFinding({ job }: Mounted, fmt: Formatter, { cut, item }: CutPlace): Finding[] {
  const group = findMaterial(job.part.material)?.group ?? null
  const advised = group && advisedSpeed(group, cut.tool, cut.kind)
  if (!advised) return []
  const [low, high] = advised.range
  if (cut.speed <= high && cut.speed >= low / 2) return []
  const fast = cut.speed > high
  const message = `${fmt.cuttingSpeed(cut.speed)} is ${fast ? 'fast' : 'slow'} for ${cutWords(cut)} with ${cut.tool} in ${job.part.material}: ${fmt.cuttingSpeed(low)} to ${fmt.cuttingSpeed(high)} in the table (${advised.basis}). As a rule of thumb start at the lower end on a faceplate.`
  return [
    fast
      ? finding('caution', 'cutting-speed-high', item, message)
      : finding('note', 'cutting-speed-low', item, message),
  ]
}

/** What the tool meets: blows, and a hard skin. */
function meetsFindings(fmt: Formatter, { cut, item }: CutPlace, row: CutRow, skin: number | null): Finding[] {
  const findings: Finding[] = []
  if (row.interrupted) {
    const why = cut.interrupted ? 'as said' : 'by the part as drawn'
    const message = `The tool strikes, ${cutWords(cut)}: the cut is interrupted, ${why}. Its force counts ${plain(INTERRUPTED, 1)} times, a rule of thumb. Begin slow and light, and check the clamps after the first pass.`
    findings.push(finding('note', 'cut-interrupted', item, message))
  }
  if (skin !== null && cut.kind !== 'drill' && cut.depth < skin) {
    const message = `The first cut does not get under the skin, ${cutWords(cut)}: ${fmt.length(cut.depth)} deep, the skin ${fmt.length(skin)}. Start ${fmt.length(skin)} deep or more; the force counts with that.`
    findings.push(finding('caution', 'cut-in-skin', item, message))
  }
  return findings
}

/** Share of the tangential force that pushes a tool away from the work, where no source says better: half. */
const PUSHES = 0.5

function barFindings(fmt: Formatter, { cut, item }: CutPlace, row: CutRow): Finding[] {
  const bar = 'bar' in cut ? cut.bar : null
  const words = bar ? barWords(bar, fmt) : null
  if (!bar || words === null) return []
  const gives =
    row.tangential_force_N === null
      ? ''
      : ` Pushed away with half of the cutting force it gives about ${fmt.fine(barGives(PUSHES * row.tangential_force_N, bar))}.`
  return [finding('caution', 'bar-slender', item, words + gives)]
}

function forceUnknown({ job }: Mounted, places: readonly CutPlace[], { cuts }: CuttingAdvice): Finding[] {
  const first = places[0]
  if (!first || cuts.every((c) => c.torque_N_m !== null)) return []
  const message = `Cutting force not checked: "${job.part.material}" is not in the table of materials.`
  return [finding('caution', 'cutting-force-unknown', first.item, message)]
}

/** What is turned about the axis is weighed and carries no clamp of a later setup, but the part is drawn as it was. */
function notDrawn({ job }: Mounted, places: readonly CutPlace[]): Finding[] {
  const turned = places.filter(({ cut }) => !isBoreCut(cut))
  const first = turned[0]
  if (!first) return []
  const words = turned.map(({ cut }) => cutWords(cut)).join(', ')
  if (job.part.bodies.some((b) => !isPrism(b))) {
    const message = `${capital(words)} takes nothing off bodies that come from a mesh: their mass stays as imported.`
    return [finding('caution', 'cut-in-mesh', first.item, message)]
  }
  const message = `What ${words} takes off is in the unbalance after the cut, in later setups' mass, and no material for their clamps. Clearances and pictures go on as the part is drawn.`
  return [finding('note', 'cut-not-drawn', first.item, message)]
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

function drillFindings(
  { job }: Mounted,
  fmt: Formatter,
  { cut, item, bore }: CutPlace,
  row: CutRow,
): Finding[] {
  if (cut.kind !== 'drill') return []
  const findings: Finding[] = []
  const group = findGroup(findMaterial(job.part.material)?.group ?? null)
  if (group && row.torque_N_m !== null) {
    const message = `The ${fmt.length(cut.diameter)} drill pushes with ${fmt.force(row.thrust_N ?? 0)} and turns with ${fmt.torque(row.torque_N_m)} at ${fmt.feed(cut.feed)}: ${drillBasis(group)}.`
    findings.push(finding('note', 'drilling', item, message))
  }
  if (bore && cut.diameter > bore.bore.diameter) {
    const message = `The ${fmt.length(cut.diameter)} drill is larger than bore ${bore.bore.id}, ${fmt.length(bore.bore.diameter)}. Use a smaller drill.`
    findings.push(finding('stop', 'drill-too-large', item, message))
  }
  return findings
}
