/** Both views on the first sheet: their lines, and all their labels placed together. */
import type { Analysis } from '../../analysis/result.ts'
import type { Job } from '../../job/schema.ts'
import type { Mounted } from '../../mounting/types.ts'
import { legend, viewTitle } from '../sheet/captions.ts'
import type { DimensionChoices } from './choices.ts'
import { SECTION_LETTER } from './cuttingPlane.ts'
import type { Detail } from './detail.ts'
import type { DrawnDetail } from './detailView.ts'
import { ITEM } from './frontLabels.ts'
import { frontAsides, frontView } from './frontView.ts'
import type { SheetPlan } from '../sheet/layout.ts'
import type { ModelView, PlainPrimitive, Primitive } from '../model/model.ts'
import { movedPrimitive } from '../model/moved.ts'
import { InkMap } from '../placing/inkMap.ts'
import { placeLabels } from '../placing/placeLabels.ts'
import { sideAsides, sideView } from './sideView.ts'
import type { ViewInput } from './view.ts'

export interface ViewsInput {
  /** What is drawn again, enlarged; null where nothing is. */
  readonly detail: { readonly of: Detail; readonly drawn: DrawnDetail } | null
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
  /** The same without the legend. */
  readonly model: ModelView
  /** Labels, in words, for which there was no free place; they are not drawn. */
  readonly unplaced: readonly string[]
}

type Placed = Omit<ViewsInput, 'border' | 'detail'>

const inputOf =
  ({ plan, ...setup }: Placed) =>
  (place: SheetPlan['front']): ViewInput => ({ ...setup, ...place, scale: plan.scale })

/** What is near the views but not in them, in words. */
export const viewAsides = (input: Placed): string[] => [
  ...frontAsides(inputOf(input)(input.plan.front)),
  ...sideAsides(inputOf(input)(input.plan.side)),
]

const isItem = (words: string): boolean => words.startsWith(ITEM)

export function drawViews({ border, detail, ...placed }: ViewsInput): DrawnViews {
  const { plan } = placed
  const input = (place: SheetPlan['front']): ViewInput => ({
    ...inputOf(placed)(place),
    detail: detail?.of ?? null,
  })
  const [front, side] = [frontView(input(plan.front)), sideView(input(plan.side))]
  const views = [front, side]
  const lines = views.flatMap((v) => v.lines)
  const marks = views.flatMap((v) => v.marks)
  const ink = new InkMap(plan.area)
  ink.addLines([...border, ...lines, ...marks])
  for (const body of views.flatMap((v) => v.bodies)) ink.addBody(body)
  const place = (crowded: boolean) => {
    const labels = crowded ? frontView({ ...input(plan.front), crowded }).labels : front.labels
    return placeLabels([...labels, ...side.labels], ink)
  }
  const usual = place(false)
  // Without radius and angle there is room for more of the item numbers.
  const bare = usual.unplaced.some(isItem) ? place(true) : usual
  const labels = bare.unplaced.length < usual.unplaced.length ? bare : usual
  const { at, width } = plan.captions
  const title = ({ area }: SheetPlan['front'], words: string) =>
    viewTitle({ x: (area.x0 + area.x1) / 2, y: at.y }, words, at.x, at.x + width)
  const shown = [
    ...lines,
    ...labels.primitives,
    ...marks,
    title(plan.front, 'Plate seen from the tailstock'),
    title(plan.side, `Section ${SECTION_LETTER}–${SECTION_LETTER}, operator's side`),
  ]
  return {
    primitives: [...shown, ...legend(placed.mounted, at, width)],
    model: {
      ...{ scale: plan.scale, origin: plan.front.origin, area: plan.area },
      primitives: [...shown, ...(detail ? inPlace(plan, detail) : [])],
    },
    unplaced: [...labels.unplaced, ...(detail?.drawn.unplaced ?? [])],
  }
}

/** The detail's dimensions where they are in the view, its lettering as much smaller. */
function inPlace({ scale, front }: SheetPlan, { of, drawn }: NonNullable<ViewsInput['detail']>): Primitive[] {
  const factor = scale / of.scale
  const by = {
    x: front.origin.x - factor * drawn.origin.x,
    y: front.origin.y - factor * drawn.origin.y,
  }
  return drawn.labels.map((p) => movedPrimitive(p, { factor, by }))
}
