/** Both views on the first sheet: their lines, and all their labels placed together. */
import type { Analysis } from '../../analysis/result.ts'
import type { Job } from '../../job/schema.ts'
import type { Mounted } from '../../mounting/types.ts'
import { legend, viewTitle } from '../sheet/captions.ts'
import type { DimensionChoices } from './choices.ts'
import { SECTION_LETTER } from './cuttingPlane.ts'
import { frontView } from './frontView.ts'
import type { SheetPlan } from '../sheet/layout.ts'
import type { PlainPrimitive, Primitive } from '../model/model.ts'
import { InkMap } from '../placing/inkMap.ts'
import { placeLabels } from '../placing/placeLabels.ts'
import { sideView } from './sideView.ts'
import type { ViewInput } from './view.ts'

export interface ViewsInput {
  readonly job: Job
  readonly mounted: Mounted
  readonly analysis: Analysis
  readonly plan: SheetPlan
  /** Lines of the sheet's frame, for labels to keep off its marks. */
  readonly border: readonly PlainPrimitive[]
  readonly choices: DimensionChoices
}

export interface DrawnViews {
  readonly primitives: readonly Primitive[]
  /** Labels, in words, for which there was no free place; they are not drawn. */
  readonly unplaced: readonly string[]
  /** What is near the views but not in them, in words. */
  readonly asides: readonly string[]
}

export function drawViews({ plan, border, ...setup }: ViewsInput): DrawnViews {
  const input = (place: SheetPlan['front']): ViewInput => ({ ...setup, ...place, scale: plan.scale })
  const views = [frontView(input(plan.front)), sideView(input(plan.side))]
  const lines = views.flatMap((v) => v.lines)
  const marks = views.flatMap((v) => v.marks)
  const ink = new InkMap(plan.area)
  ink.addLines([...border, ...lines, ...marks])
  for (const body of views.flatMap((v) => v.bodies)) ink.addBody(body)
  const placed = placeLabels(
    views.flatMap((v) => v.labels),
    ink,
  )
  const { at, width } = plan.captions
  const title = ({ area }: SheetPlan['front'], words: string) =>
    viewTitle({ x: (area.x0 + area.x1) / 2, y: at.y }, words, at.x, at.x + width)
  return {
    primitives: [
      ...lines,
      ...placed.primitives,
      ...marks,
      title(plan.front, 'Plate seen from the tailstock'),
      title(plan.side, `Section ${SECTION_LETTER}–${SECTION_LETTER}, operator's side`),
      ...legend(setup.mounted, at, width),
    ],
    unplaced: placed.unplaced,
    asides: views.flatMap((v) => v.asides),
  }
}
