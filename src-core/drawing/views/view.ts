/** What every view of a setup needs: the setup, its analysis, and where model points go on the sheet. */
import type { Analysis } from '../../analysis/result.ts'
import type { Point } from '../../geometry/types.ts'
import { isCounterweight, type Job } from '../../job/schema.ts'
import { pressPoint } from '../../mounting/press.ts'
import type { Mounted, MountedPiece } from '../../mounting/types.ts'
import { isHeavySide } from '../../unbalance/static.ts'
import { convert } from '../../units/convert.ts'
import { plain } from '../../units/format.ts'
import type { DimensionChoices } from './choices.ts'
import type { Detail } from './detail.ts'
import type { PlainPrimitive } from '../model/model.ts'
import type { Bounds } from '../placing/inkMap.ts'
import type { Label } from '../placing/placeLabels.ts'

export interface ViewInput {
  readonly job: Job
  readonly mounted: Mounted
  readonly analysis: Analysis
  /** Sheet mm a model mm. */
  readonly scale: number
  /** Sheet place of the spindle axis (front view) or of axis and plate face (side view). */
  readonly origin: Point
  /** Ground of this view; its labels may stand anywhere in the ground of all views. */
  readonly area: Bounds
  readonly choices: DimensionChoices
  /** What is drawn again, enlarged; its dimensions stand there. */
  readonly detail?: Detail | null
  /** Item numbers stand without radius and angle, which the list has: there was no room for all with them. */
  readonly crowded?: boolean
}

/** A view before its labels are placed. */
export interface View {
  /** Lines under the labels. */
  readonly lines: readonly PlainPrimitive[]
  /** Flat outlines (even-odd, each its own), sheet mm, of what labels keep off. */
  readonly bodies: readonly (readonly (readonly Point[])[])[]
  /** Marks over the labels' leaders. */
  readonly marks: readonly PlainPrimitive[]
  readonly labels: readonly Label[]
}

/** A length as a dimension prints it: mm to a tenth, inches to a thousandth, without the unit. */
export function dimensionText(job: Job, mm: number): string {
  return job.displayUnits === 'in' ? plain(convert(mm, 'mm', 'in'), 3) : plain(mm, 1)
}

/** Radius of the station from the spindle axis, mm; null for loose packing. */
export function stationRadius(piece: MountedPiece): number | null {
  return piece.item.kind === 'packing' ? null : Math.hypot(piece.at.x, piece.at.y)
}

/** Where clamps bear on the part, plate frame, as far as it is given. */
export const noses = ({ pieces }: Pick<Mounted, 'pieces'>): Point[] =>
  pieces.flatMap((p) => pressPoint(p) ?? [])

/** The largest radius that anything sweeps, mm. */
export function largestSwing(analysis: Analysis, plateDiameter: number): number {
  return Math.max(plateDiameter / 2, ...analysis.clearances.map((c) => c.swept_radius_mm))
}

/** The obstacle that the bed is here: the gap's floor where the gap piece is out. */
export function bedRadius(job: Job): { radius: number; name: string } {
  const { gap, swingOverBed } = job.lathe
  return gap?.open ? { radius: gap.swing / 2, name: 'gap floor' } : { radius: swingOverBed / 2, name: 'bed' }
}

/** Centre of mass of everything that turns but the counterweights, plate frame; null where there are none. */
export function centreBefore(mounted: Mounted, analysis: Analysis): Point | null {
  const weights = new Set(mounted.pieces.filter((p) => isCounterweight(p.item)).map((p) => p.item.id))
  if (weights.size === 0) return null
  let mass = 0
  let x = 0
  let y = 0
  for (const t of analysis.terms) {
    if (weights.has(t.item)) continue
    mass += t.mass_kg
    x += t.unbalance_g_mm.x / 1000
    y += t.unbalance_g_mm.y / 1000
  }
  return mass > 0 ? { x: x / mass, y: y / mass } : null
}

/** Whether the bed is near enough to be drawn; far below it would only make everything else small. */
export function bedIsShown(job: Job, analysis: Analysis): boolean {
  return bedRadius(job).radius <= largestSwing(analysis, job.plate.diameter) * 1.3
}

/** Whether the set-up is heavy to one side by more than nothing. */
export const hasHeavySide = ({ unbalance }: Analysis): boolean => isHeavySide(unbalance.static_g_mm)
