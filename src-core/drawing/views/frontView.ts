/** The plate as seen from the tailstock, with everything on it. */
import { onCircle, toRadians } from '../../geometry/angles.ts'
import type { Point } from '../../geometry/types.ts'
import { bedAside, bedLabel } from './bedLabel.ts'
import { cuttingLetters, cuttingPlane } from './cuttingPlane.ts'
import { detailCircle, detailLetter } from './detailMark.ts'
import { bedDimensions, placingDimensions } from './frontDimensions.ts'
import {
  HEAVY_TIP,
  balloonLabels,
  datumLabels,
  heavyLabel,
  holeLabels,
  slotLabels,
  swingLabels,
} from './frontLabels.ts'
import { frontLines, type FrontLines } from './frontLines.ts'
import type { PlainPrimitive } from '../model/model.ts'
import { arrowhead, circle, line } from '../model/primitives.ts'
import type { Label } from '../placing/placeLabels.ts'
import { indexMark, noseMark, openCentre, quarteredDisc } from './symbols.ts'
import { turningLabels } from './turning.ts'
import { centreBefore, hasHeavySide, noses, type View, type ViewInput } from './view.ts'
import { indexAngle } from '../../mounting/plateAngle.ts'

export function frontView(input: ViewInput): View {
  const lines = frontLines(input)
  const { detail } = input
  const marks = [
    ...heavyArrow(input, lines.rim),
    ...tightestMark(input, lines.map),
    ...massCentres(input, lines.map),
    ...index(input, lines.rim),
    ...cuttingPlane(input, lines),
    ...noses(input.mounted).map((at) => noseMark(lines.map(at))),
    ...(detail ? [detailCircle(detail, lines, input.scale)] : []),
  ]
  return {
    lines: lines.primitives,
    bodies: lines.bodies,
    marks,
    labels: [
      ...cuttingLetters(input, lines),
      ...heavyLabel(input, lines),
      ...slotLabels(input, lines),
      ...holeLabels(input, lines),
      ...bedDimensions(input, lines),
      // The enlarged detail has these where there is one.
      ...(detail ? [detailLetter(detail, lines, input.scale)] : placingLabels(input, lines)),
      ...swingLabels(input, lines),
      ...balloonLabels(input, lines),
      ...bedLabel(input, lines),
      ...turningLabels(input, lines),
    ],
  }
}

/** What the part is placed by. */
export const placingLabels = (input: ViewInput, lines: FrontLines): Label[] => [
  ...placingDimensions(input, lines),
  ...datumLabels(input, lines),
]

/** What is near the view but not in it, in words. */
export const frontAsides = (input: ViewInput): string[] => bedAside(input)

/** From the axis to the rim, the way the assembly would swing down. */
function heavyArrow({ analysis, origin }: ViewInput, rim: number): PlainPrimitive[] {
  const { static_angle_deg: angle } = analysis.unbalance
  if (!hasHeavySide(analysis)) return []
  const a = toRadians(angle)
  const at = (r: number): Point => onCircle(origin, r, a)
  const tip = at(rim * HEAVY_TIP)
  return [line('caution', at(3), at(rim * HEAVY_TIP - 4)), arrowhead('caution', tip, a, 5)]
}

function tightestMark({ analysis }: ViewInput, map: (p: Point) => Point): PlainPrimitive[] {
  const c = analysis.clearances[0]
  return c ? [circle('caution', map(c.corner), 1.6), circle('caution', map(c.corner), 0.5, 'solid')] : []
}

function massCentres({ mounted, analysis }: ViewInput, map: (p: Point) => Point): PlainPrimitive[] {
  const [x, y] = analysis.assembly.centroid_mm
  const before = centreBefore(mounted, analysis)
  return [...(before ? openCentre(map(before)) : []), ...quarteredDisc(map({ x, y }))]
}

function index({ job, origin }: ViewInput, rim: number): PlainPrimitive[] {
  const a = toRadians(indexAngle(job))
  return [indexMark(onCircle(origin, rim, a), a)]
}
