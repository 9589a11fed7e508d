/** The part with what stands about it, enlarged within a circle, with the dimensions that it is placed by. Sheet mm. */
import { circleRing, ringEdges } from '../../geometry/edges.ts'
import { flattenRing } from '../../geometry/flatten.ts'
import { polygonIntersection } from '../../geometry/polygon.ts'
import { PAPER_TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point } from '../../geometry/types.ts'
import { boxed, chain, edgePieces, edgeRuns } from '../model/edgePieces.ts'
import type { PathPrimitive, PlainPrimitive, Primitive } from '../model/model.ts'
import { circle, ringsPath } from '../model/primitives.ts'
import { subPaths } from '../model/subPaths.ts'
import type { Bounds } from '../placing/inkMap.ts'
import { InkMap } from '../placing/inkMap.ts'
import { placeLabels } from '../placing/placeLabels.ts'
import type { Detail } from './detail.ts'
import { frontLines } from './frontLines.ts'
import { placingLabels } from './frontView.ts'
import { noseMark } from './symbols.ts'
import { noses, type ViewInput } from './view.ts'

/** Round the circle for its labels, mm. */
const LABELS = 18

/** Side of the square ground that a detail takes. */
export const detailSide = ({ radius, scale }: Detail): number => 2 * (radius * scale + LABELS)

export interface DrawnDetail {
  /** On ground with its lower left corner at (0, 0). */
  readonly lines: readonly PlainPrimitive[]
  readonly labels: readonly Primitive[]
  readonly origin: Point
  readonly unplaced: readonly string[]
}

export function detailView(
  setup: Pick<ViewInput, 'job' | 'mounted' | 'analysis' | 'choices'>,
  detail: Detail,
): DrawnDetail {
  const side = detailSide(detail)
  const { centre, scale } = detail
  const middle = { x: side / 2, y: side / 2 }
  const origin = { x: middle.x - centre.x * scale, y: middle.y - centre.y * scale }
  const area: Bounds = { x0: 0, y0: 0, x1: side, y1: side }
  const input: ViewInput = { ...setup, scale, origin, area }
  const lines = frontLines(input)
  const radius = detail.radius * scale
  const marks = noses(setup.mounted)
    .filter((p) => Math.hypot(p.x - centre.x, p.y - centre.y) < detail.radius)
    .map((p) => noseMark(lines.map(p)))
  const shown = [...within(lines.primitives, middle, radius), circle('outline-thin', middle, radius)]
  const ink = new InkMap(area)
  ink.addLines([...shown, ...marks])
  // What is not drawn beyond the circle leaves its ground to labels.
  const round = flattenRing(circleRing(middle, 2 * radius), PAPER_TOLERANCE.clipChord)
  for (const body of lines.bodies) ink.addBody(polygonIntersection(body, [round]))
  // Centre lines end at the circle, and nothing turns beyond it.
  const placed = placeLabels(placingLabels(input, { ...lines, rim: radius, swing: radius }), ink)
  return {
    lines: [...shown, ...marks],
    labels: placed.primitives,
    origin,
    unplaced: placed.unplaced.map((words) => `${words} in the detail`),
  }
}

/** What lies within a circle. */
function within(primitives: readonly PlainPrimitive[], centre: Point, radius: number): PlainPrimitive[] {
  const ring = circleRing(centre, 2 * radius)
  const boundary = boxed(ringEdges(ring))
  const flat = flattenRing(ring, PAPER_TOLERANCE.clipChord)
  const isIn = (p: Point): boolean => Math.hypot(p.x - centre.x, p.y - centre.y) < radius
  return primitives.flatMap((p): PlainPrimitive[] => {
    if (p.kind === 'text') return isIn(p.at) ? [p] : []
    if (p.kind === 'path' && p.layer === 'ground') return groundWithin(p, flat)
    const steps = edgeRuns(p).flatMap((run) =>
      chain(
        run.flatMap((edge) =>
          edgePieces(edge, boundary, isIn).flatMap((piece) => (piece.sort ? [piece.edge] : [])),
        ),
      ),
    )
    return steps.length > 0 ? [{ kind: 'path', layer: p.layer, steps, fill: 'none' }] : []
  })
}

function groundWithin(p: PathPrimitive, circle: readonly Point[]): PlainPrimitive[] {
  const rings = subPaths(p.steps).map((run) => flattenRing(run.vertices, PAPER_TOLERANCE.clipChord))
  const shown = polygonIntersection(rings, [circle])
  return shown.length > 0 ? [ringsPath('ground', shown, (q) => q, p.fill)] : []
}
