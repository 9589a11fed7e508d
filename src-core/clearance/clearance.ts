/**
 * Swept radius of each rotating thing from its true outline, and its clearance to the bed, to the gap (only for
 * what lies within the gap's width, and only if the gap piece is out) and to the cross-slide (for what stands
 * further out than the carriage's nearest part when the tool is at full depth).
 */
import type { Finding } from '../findings/finding.ts'
import { farthestFrom } from '../geometry/farthest.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point, Ring } from '../geometry/types.ts'
import type { Lathe } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { called, finding } from '../findings/finding.ts'

/** mm: less than this is a caution. Rule of thumb, Evenswing's own: parts and plates are not quite round. */
export const CLEARANCE_MARGIN = 3

export type ClearanceAgainst = 'bed' | 'gap' | 'cross-slide'

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

const AXIS: Point = { x: 0, y: 0 }

export interface Swept {
  readonly item: string
  readonly label: string
  readonly body?: string
  readonly z0: number
  readonly z1: number
  readonly radius: number
  readonly corner: Point
}

/** Everything that turns: plate, each adding body of the part, each piece of hardware. */
export function sweptThings(mounted: Mounted): Swept[] {
  const { plate, part } = mounted.job
  const farthest = (rings: readonly Ring[]) =>
    rings.map((r) => farthestFrom(r, AXIS)).reduce((a, b) => (b.distance > a.distance ? b : a))
  const things: Swept[] = [
    {
      item: 'plate',
      label: 'the plate',
      z0: -plate.thickness,
      z1: 0,
      radius: plate.diameter / 2,
      corner: { x: 0, y: -plate.diameter / 2 },
    },
  ]
  for (const { body, regions, z0, z1 } of mounted.bodies) {
    if (body.effect !== 'adds' || regions.length === 0) continue
    const { point, distance } = farthest(regions.map((r) => r.outline))
    const label = part.bodies.length > 1 ? `the part (${called(body)})` : 'the part'
    things.push({ item: 'part', label, body: body.id, z0, z1, radius: distance, corner: point })
  }
  for (const { item, solids } of mounted.pieces)
    for (const { ring, z0, z1 } of solids) {
      const { point, distance } = farthestFrom(ring, AXIS)
      things.push({ item: item.id, label: called(item), z0, z1, radius: distance, corner: point })
    }
  return things
}

/** z beyond which things meet the cross-slide with the tool at full depth; null where the reach is not known. */
export function crossSlideReach(mounted: Mounted): number | null {
  const { barReach } = mounted.job.lathe
  if (barReach === null) return null
  return tipDepth(mounted) + barReach
}

/** z of the tool's tip at full depth: the work bore's bottom, or the part's seat where there is no bore. */
export function tipDepth(mounted: Mounted): number {
  return mounted.workBore?.z0 ?? mounted.setup.packing
}

/** The tightest clearance of each thing of `sweptThings` against each obstacle it can meet, tightest first. */
export function clearances(mounted: Mounted, things: readonly Swept[]): Clearance[] {
  const { lathe } = mounted.job
  const reach = crossSlideReach(mounted)
  const found = new Map<string, Clearance>()
  for (const thing of things) {
    for (const against of obstacles(lathe, thing, reach)) {
      const clearance: Clearance = {
        against,
        item: thing.item,
        ...(thing.body === undefined ? {} : { body: thing.body }),
        swept_radius_mm: thing.radius,
        clearance_mm: swingRadius(lathe, against) - thing.radius,
        corner: thing.corner,
      }
      const key = `${thing.item}\n${against}`
      const other = found.get(key)
      if (!other || clearance.clearance_mm < other.clearance_mm) found.set(key, clearance)
    }
  }
  return [...found.values()].sort((a, b) => a.clearance_mm - b.clearance_mm)
}

function obstacles(lathe: Lathe, thing: Swept, reach: number | null): ClearanceAgainst[] {
  const list: ClearanceAgainst[] = []
  const gap = lathe.gap?.open ? lathe.gap : null
  if (gap && thing.z0 < gap.width - TOLERANCE.height) list.push('gap')
  if (!gap || thing.z1 > gap.width + TOLERANCE.height) list.push('bed')
  // With the reach unknown the cross-slide may stand anywhere in front of the plate.
  if (thing.z1 > (reach ?? 0) + TOLERANCE.height) list.push('cross-slide')
  return list
}

/** mm from the spindle axis to the obstacle. */
export function swingRadius(lathe: Lathe, against: ClearanceAgainst): number {
  if (against === 'bed') return lathe.swingOverBed / 2
  if (against === 'gap') return (lathe.gap?.swing ?? lathe.swingOverBed) / 2
  return lathe.swingOverCrossSlide / 2
}

export function clearanceFindings(
  mounted: Mounted,
  list: readonly Clearance[],
  things: readonly Swept[],
): Finding[] {
  const fmt = formatter(mounted.job.displayUnits)
  const reachKnown = mounted.job.lathe.barReach !== null
  const labels = new Map(things.map((t) => [`${t.item}\n${t.body ?? ''}`, t.label]))
  return list.flatMap((c) => {
    const label = labels.get(`${c.item}\n${c.body ?? ''}`) ?? c.item
    return oneClearance(mounted, c, label, fmt, reachKnown)
  })
}

function oneClearance(
  mounted: Mounted,
  c: Clearance,
  label: string,
  fmt: Formatter,
  reachKnown: boolean,
): Finding[] {
  const limit = swingRadius(mounted.job.lathe, c.against)
  const sweeps = `sweeps ${fmt.length(c.swept_radius_mm)} radius against ${fmt.length(limit)} to the ${c.against}`
  const figures = `${label} ${sweeps}`
  const unsure = c.against === 'cross-slide' && !reachKnown
  if (c.clearance_mm < 0) {
    if (unsure) {
      const message = `Whether ${label} fouls the cross-slide is not known: it ${sweeps}, so it fouls by ${fmt.length(-c.clearance_mm)} wherever the cross-slide comes under it. The bar's reach is not given; measure from tool tip back to the cross-slide.`
      return [finding('caution', 'cross-slide-not-checked', c.item, message, c.corner)]
    }
    return [
      finding(
        'stop',
        `fouls-${c.against}`,
        c.item,
        `${label.replace(/^the /, 'The ')} fouls the ${c.against} by ${fmt.length(-c.clearance_mm)}: it ${sweeps}. ${cure(c.against, mounted)}`,
        c.corner,
      ),
    ]
  }
  if (c.clearance_mm >= CLEARANCE_MARGIN || unsure) return []
  const margin = `under the ${fmt.length(CLEARANCE_MARGIN)} that Evenswing asks as a rule of thumb`
  return [
    finding(
      'caution',
      `close-to-${c.against}`,
      c.item,
      `${figures}: ${fmt.length(c.clearance_mm)} clear, ${margin}. Turn by hand and feel with a feeler gauge.`,
      c.corner,
    ),
  ]
}

function cure(against: ClearanceAgainst, mounted: Mounted): string {
  if (against === 'cross-slide') return 'Use a longer bar overhang, move the piece inward, or turn it.'
  const gap = mounted.job.lathe.gap
  const opening = against === 'bed' && gap && !gap.open ? ' Taking the gap piece out may give room.' : ''
  return `Move it inward, turn it, or choose a lower piece.${opening}`
}
