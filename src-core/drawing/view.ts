/** What every view of a setup needs: the setup, its analysis, and where model points go on the sheet. */
import type { Analysis } from '../analysis/result.ts'
import type { Point } from '../geometry/types.ts'
import type { Job } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
import { convert } from '../units/convert.ts'
import { plain } from '../units/format.ts'
import type { Placer } from './placer.ts'

export interface ViewInput {
  readonly job: Job
  readonly mounted: Mounted
  readonly analysis: Analysis
  /** Sheet mm a model mm. */
  readonly scale: number
  /** Sheet place of the spindle axis (front view) or of axis and plate face (side view). */
  readonly origin: Point
  readonly placer: Placer
}

/** A length as a dimension prints it: mm to a tenth, inches to a thousandth, without the unit. */
export function dimensionText(job: Job, mm: number): string {
  return job.displayUnits === 'in' ? plain(convert(mm, 'mm', 'in'), 3) : plain(mm, 1)
}

/** The largest radius that anything sweeps, mm. */
export function largestSwing(analysis: Analysis, plateDiameter: number): number {
  return Math.max(plateDiameter / 2, ...analysis.clearances.map((c) => c.swept_radius_mm))
}

/** The obstacle that the bed is here: the gap's floor where the gap piece is out. */
export function bedRadius(job: Job): { radius: number; name: string } {
  const { gap, swingOverBed } = job.lathe
  return gap?.open ? { radius: gap.swing / 2, name: 'gap' } : { radius: swingOverBed / 2, name: 'bed' }
}

/** Centre of mass of everything that turns but the counterweights, plate frame; null where there are none. */
export function centreBefore(mounted: Mounted, analysis: Analysis): Point | null {
  const weights = new Set(mounted.pieces.filter((p) => p.item.kind === 'counterweight').map((p) => p.item.id))
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
  return bedRadius(job).radius <= largestSwing(analysis, job.plate.diameter) * 1.25
}
