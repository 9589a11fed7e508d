/** Outlines of things of different heights, seen from in front: what lies behind is dashed. */
import { edgesBox, ringEdges, type Edge } from '../../geometry/edges.ts'
import { apart } from '../../geometry/polygonBox.ts'
import { TOLERANCE } from '../../geometry/tolerance.ts'
import type { Point, Ring } from '../../geometry/types.ts'
import { chain, edgePieces } from '../model/edgePieces.ts'
import type { LayerName, PathPrimitive, PathStep } from '../model/model.ts'
import type { Cover } from './covers.ts'

export interface Shape {
  readonly ring: Ring
  /** Height of the outline, plate frame, mm. */
  readonly z: number
  readonly shown: LayerName
  /** Line of what something stands over; null: none. */
  readonly behind: LayerName | null
  /** Things that it is one with: within them it has no edge at their height or below. */
  readonly joins: readonly Cover[]
  /** Its own, which never hides it. */
  readonly own?: Cover
}

/** mm between places at which a height that changes everywhere is looked at. */
const STEP = 1
/** A long edge is looked at in no more places. */
const MOST_STEPS = 400

type Sort = 'shown' | 'behind' | 'joined'

/** @param map plate frame to sheet, without mirroring. */
export function outlines(
  shapes: readonly Shape[],
  covers: readonly Cover[],
  map: (p: Point) => Point,
): PathPrimitive[] {
  return shapes.flatMap((shape) => {
    const edges = ringEdges(shape.ring)
    const box = edgesBox(edges)
    const near = covers.filter((c) => c !== shape.own && !apart(c.box, box))
    const boundaries = near.flatMap((c) => c.boundary)
    const uneven = near.some((c) => c.isUneven)
    const sort = (p: Point): Sort => {
      if (shape.joins.some((c) => c.top(p) >= shape.z - TOLERANCE.height)) return 'joined'
      return near.some((c) => c.top(p) > shape.z + TOLERANCE.height) ? 'behind' : 'shown'
    }
    const pieces = edges.flatMap((edge) => edgePieces(edge, boundaries, sort, uneven ? steps(edge) : 0))
    const drawn = (of: Sort, layer: LayerName | null): PathPrimitive[] => {
      const kept = pieces.flatMap((p) => (p.sort === of ? [p.edge] : []))
      if (layer === null || kept.length === 0) return []
      const whole = kept.length === edges.length && kept.every((e, i) => e === edges[i])
      const run = mapped(chain(kept), map)
      return [{ kind: 'path', layer, steps: whole ? closed(run) : run, fill: 'none' }]
    }
    return [...drawn('behind', shape.behind), ...drawn('shown', shape.shown)]
  })
}

const steps = ({ a, b, bulge }: Edge): number =>
  Math.min(MOST_STEPS, Math.floor((Math.hypot(b.x - a.x, b.y - a.y) * (1 + Math.abs(bulge))) / STEP))

const mapped = (run: readonly PathStep[], map: (p: Point) => Point): PathStep[] =>
  run.map((s) => (s.to === 'close' ? s : { ...s, ...map(s) }))

/** A run round the whole ring; a straight step back to its start is the closing one. */
function closed(run: readonly PathStep[]): PathStep[] {
  const last = run.at(-1)
  return [...(last?.to === 'line' ? run.slice(0, -1) : run), { to: 'close' }]
}
