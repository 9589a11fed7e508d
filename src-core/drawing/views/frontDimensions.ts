/** Dimensions of the front view: where the part stands, its bores, the bed and the clearance to it. */
import { angleTowards, toRadians } from '../../geometry/angles.ts'
import { arcFraction, pointOnEdge, ringEdges } from '../../geometry/edges.ts'
import { TOLERANCE } from '../../geometry/tolerance.ts'
import { datumEdges } from '../../mounting/partDatums.ts'
import type { Point, Ring } from '../../geometry/types.ts'
import { around } from './callouts.ts'
import { handFirst, isHidden, placedAt } from './choices.ts'
import {
  diameterCandidates,
  dimensionLabel,
  dimensionWords,
  isUntouched,
  pairLabel,
  type DimensionSpec,
  type OffsetDimension,
} from './dimension.ts'
import { furthestAlong } from './extents.ts'
import type { FrontLines } from './frontLines.ts'
import type { Label } from '../placing/placeLabels.ts'
import { textWidth } from '../text/textWidth.ts'
import { LETTERING } from '../text/lettering.ts'
import { bedIsShown, bedRadius, dimensionText, type ViewInput } from './view.ts'

/** More bores than this are named in a list. */
export const MOST_BORES = 6
/** From a measured edge to the nearest dimension line, and from one level to the next, mm. */
const FIRST = 8
/** rad: an arc that turns less is the rounding of a corner. */
const ROUND = Math.PI / 2 + 1e-6
/** mm by which an edge may lean and still be one that a rule lies on. */
const FLAT = 1e-3
const NEXT = 5

/** Where the part stands, and its bores. */
export const placingDimensions = (input: ViewInput, lines: FrontLines): Label[] => [
  ...boreLabels(input, lines),
  ...partDimensions(input, lines),
  ...edgeDimensions(input, lines),
]

/** From the spindle axis to the outermost edges of the part, upright and level; equal ones on one level. */
function partDimensions(input: ViewInput, { map, rim, swing }: FrontLines): Label[] {
  const { job, mounted, scale, origin, choices } = input
  const rings: Ring[] = mounted.bodies
    .filter((b) => b.body.effect === 'adds')
    .flatMap((b) => b.regions.map((r) => r.outline))
  const clear = rim + 4
  const outermost = [0, 1, 2, 3].map((k) => furthestAlong(rings, (k * Math.PI) / 2))
  const [right, top, left, bottom] = outermost
  if (!right || !top || !left || !bottom) return []
  // To the left of the measurement: up for level dimensions, left for upright ones.
  const tall: Range = [bottom.y * scale, top.y * scale]
  const wide: Range = [-right.x * scale, -left.x * scale]
  const sides = [
    { id: 'part-right', direction: 0, measure: 0 },
    { id: 'part-left', direction: Math.PI, measure: 0 },
    { id: 'part-top', direction: Math.PI / 2, measure: Math.PI / 2 },
    { id: 'part-bottom', direction: -Math.PI / 2, measure: Math.PI / 2 },
  ]
  const found = sides.flatMap(({ id, direction, measure }): OffsetDimension[] => {
    const edge = furthestAlong(rings, direction)
    // A rule finds no corner of a part that is turned: its edges are measured square to them.
    if (!edge || !isFlatAt(rings, edge, direction)) return []
    const level = measure === 0
    const along = level ? edge.x : edge.y
    const value = Math.abs(along)
    if (value * scale < 2) return []
    const at = map(edge)
    const forward = along > 0
    const [from, to] = forward ? [origin, at] : [at, origin]
    // Offsets are counted from `from`, to the left of the measurement: up for level ones, left for upright ones.
    const leftOf = (p: Point): number => (level ? p.y - origin.y : origin.x - p.x)
    const steps = offsets(level ? tall : wide, swing)
    const spec = {
      id,
      from,
      to,
      direction: measure,
      value,
      scale,
      text: dimensionText(job, value),
      ...(forward ? { clearFrom: clear } : { clearTo: clear }),
    }
    return [{ spec, offsets: steps.map((left) => left - leftOf(from)) }]
  })
  return [0, Math.PI / 2].flatMap((measure) => {
    const [one, other] = found.filter((d) => d.spec.direction === measure)
    if (one && other && isPair(one.spec, other.spec, choices)) return [pairLabel(one, other)]
    return [one, other].flatMap((d) => (d ? dimensionLabel(d.spec, d.offsets, choices) : []))
  })
}

/** Equal both ways from the axis, and left where the program puts them. */
const isPair = (a: DimensionSpec, b: DimensionSpec, choices: ViewInput['choices']): boolean =>
  a.text === b.text && isUntouched(choices, a.id) && isUntouched(choices, b.id)

/** Whether a rule laid square to a direction touches the outline along an edge or a round end. */
function isFlatAt(rings: readonly Ring[], at: Point, direction: number): boolean {
  const [c, s] = [Math.cos(direction), Math.sin(direction)]
  const most = at.x * c + at.y * s
  const along = (p: Point) => most - (p.x * c + p.y * s) < FLAT
  return rings.flatMap(ringEdges).some((e) => {
    if (!e.arc) return along(e.a) && along(e.b)
    if (Math.abs(e.arc.sweep) < ROUND) return false
    const t = arcFraction(e.arc, direction)
    return t !== null && along(pointOnEdge(e, t))
  })
}

/** From the axis square to the edges that a straight edge is laid to, where the part stands aslant. */
function edgeDimensions(input: ViewInput, { map, swing }: FrontLines): Label[] {
  const { job, mounted, scale, origin, choices } = input
  return datumEdges(mounted).flatMap((edge): Label[] => {
    const isSquare =
      Math.abs(edge.angle % 90) < TOLERANCE.inLine || Math.abs((edge.angle % 90) - 90) < TOLERANCE.inLine
    if (isSquare || edge.distance * scale < 3) return []
    const spec = {
      id: `edge:${edge.id}`,
      from: origin,
      to: map(edge.foot),
      direction: angleTowards(origin, map(edge.foot)),
      value: edge.distance,
      scale,
      text: dimensionText(job, edge.distance),
    }
    const steps = Array.from({ length: 24 }, (_, i) => FIRST + i * NEXT).filter((d) => d < swing + 20)
    return dimensionLabel(
      spec,
      steps.flatMap((d) => [d, -d]),
      choices,
    )
  })
}

type Range = readonly [low: number, high: number]

/** Levels of a dimension line counted from the axis: past the part on either side, ever further, to beyond the swing. */
function offsets([low, high]: Range, swing: number): number[] {
  const out: number[] = []
  for (let step = FIRST; step < 2 * swing + 30; step += NEXT) {
    const both = Math.abs(low) < Math.abs(high) ? [low - step, high + step] : [high + step, low - step]
    out.push(...both.filter((at) => Math.abs(at) <= swing + 24))
  }
  return out
}

/** Diameter of each bore, and its distance from the axis. */
function boreLabels(
  { job, mounted, scale, origin, choices }: ViewInput,
  { map, swing }: FrontLines,
): Label[] {
  return mounted.bores.slice(0, MOST_BORES).flatMap(({ bore, centre, state }): Label[] => {
    const at = map(centre)
    const radius = (bore.diameter / 2) * scale
    const later = state === 'uncut' ? ' later' : state === 'open' ? ' open' : ''
    const diameter = `Ø${dimensionText(job, bore.diameter)}`
    const shown = `${bore.id} ${diameter}${later}`
    const half = textWidth(shown, LETTERING.read) / 2
    const home = angleTowards(origin, at)
    const places = [0, 90, 180, 270, 45, 135, 225, 315].flatMap((turn, i) =>
      around(at, home + toRadians(turn), [radius + 7, radius + 13, radius + 21, radius + 30, radius + 42])
        .concat(around(origin, home + toRadians(turn), [swing + 7, swing + 14]))
        .filter((_, k) => k % 2 === 0)
        .map(({ at: p, direction, cost }) => ({
          at: { x: p.x + Math.sign(Math.round(Math.cos(direction) * 10)) * half, y: p.y },
          cost: cost + i,
        })),
    )
    const named = `diameter:${bore.id}`
    const circle = { id: named, centre: at, radius, value: bore.diameter, scale, text: shown }
    const placed = placedAt(choices, named, at)
    const automatic = diameterCandidates(circle, places)
    const candidates = placed
      ? handFirst(diameterCandidates(circle, [{ at: placed, cost: 0 }]), automatic)
      : automatic
    const words = dimensionWords({ id: named, text: diameter })
    const labels: Label[] = isHidden(choices, named) ? [] : [{ id: named, words, candidates }]
    const distance = Math.hypot(centre.x, centre.y)
    if (distance > TOLERANCE.coincident && distance * scale >= 3) {
      const id = `distance:${bore.id}`
      const spec = {
        id,
        from: origin,
        to: at,
        direction: home,
        value: distance,
        scale,
        text: dimensionText(job, distance),
      }
      const steps = Array.from({ length: 14 }, (_, i) => radius + 5 + i * NEXT).flatMap((d) => [d, -d])
      labels.push(...dimensionLabel(spec, steps, choices))
    }
    return labels
  })
}

/** The bed below the axis, and the clearance between it and the swing. */
export function bedDimensions(
  { job, analysis, scale, origin, choices }: ViewInput,
  { rim, swing }: FrontLines,
): Label[] {
  if (!bedIsShown(job, analysis)) return []
  const bed = bedRadius(job).radius
  const at = (below: number): Point => ({ x: origin.x, y: origin.y - below })
  const beyond = [8, 12, 16, 20, 24].flatMap((d) => [swing + d, -swing - d])
  const upright = { direction: Math.PI / 2, scale, from: at(bed * scale), clearFrom: swing + 10 }
  const down = {
    ...upright,
    id: 'bed',
    to: at(0),
    value: bed,
    text: dimensionText(job, bed),
    clearTo: rim + 4,
  }
  const out = dimensionLabel(down, beyond, choices)
  const tightest = analysis.clearances.find((c) => c.against !== 'cross-slide')
  const clear = tightest?.clearance_mm ?? 0
  const swept = tightest?.swept_radius_mm ?? 0
  // Only where the level drawn is the one that is met: what reaches out past an open gap meets the bed.
  if (clear <= 0 || Math.abs(swept + clear - bed) > TOLERANCE.height) return out
  const gap = {
    ...upright,
    id: 'clearance',
    to: at(swept * scale),
    value: clear,
    text: dimensionText(job, clear),
  }
  const beside = [
    ...[0.25, 0.35, 0.45, 0.55, 0.65, 0.8, 0.95].map((k) => k * swing),
    ...[4, 8, 13, 19].map((d) => swing + d),
  ].flatMap((d) => [d, -d])
  return [...out, ...dimensionLabel(gap, beside, choices)]
}
