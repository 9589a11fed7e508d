/** What the drawing tools show over the part: the chosen ring with its grips, what is being drawn, faults. */
import { pointOnEdge, ringEdges } from '../../src-core/geometry/edges.ts'
import { bodyFaults } from '../../src-core/job/faults.ts'
import { isPrism, type Part } from '../../src-core/job/schema.ts'
import { placePoint, placeRing } from '../../src-core/mounting/place.ts'
import type { Placement } from '../../src-core/mounting/types.ts'
import { findRing } from '../editor/draw/grips.ts'
import type { DrawPreview } from '../editor/draw/drawPort.ts'
import type { RingRef } from '../editor/draw/snapping.ts'
import { ringOf } from '../editor/edits/bodies.ts'
import type { SceneItem } from './items.ts'

export interface DrawingState {
  readonly chosen: RingRef | null
  /** Rings chosen besides it. */
  readonly also?: readonly RingRef[]
  readonly vertex: number | null
  readonly edge: number | null
  readonly preview: DrawPreview | null
  /** Grips are for editing; while something new is drawn they are in the way. */
  readonly grips: boolean
}

export function describeDrawing(part: Part, placement: Placement, state: DrawingState): SceneItem[] {
  return [
    ...chosenItems(part, placement, state),
    ...faultItems(part, placement),
    ...previewItems(placement, state.preview),
  ]
}

function chosenItems(part: Part, placement: Placement, state: DrawingState): SceneItem[] {
  const { chosen, vertex } = state
  const body = chosen && part.bodies.find((b) => b.id === chosen.body)
  if (!chosen || !body || !isPrism(body)) return []
  const ring = placeRing(placement, ringOf(body, chosen.ring))
  const items: SceneItem[] = [
    { id: 'draw-ring', layer: 'overlay', role: 'draw-ring', kind: 'path', vertices: ring, closed: true },
  ]
  for (const ref of state.also ?? []) {
    const other = findRing(part, ref)
    if (other)
      items.push({
        id: `draw-ring:${ref.body}:${ref.ring}`,
        layer: 'overlay',
        role: 'draw-ring',
        kind: 'path',
        vertices: placeRing(placement, other),
        closed: true,
      })
  }
  // Of several rings none has grips.
  if (!state.grips || (state.also ?? []).length > 0) return items
  // Middles that lie a pixel from their vertices are no help.
  const middles = ring.length > 300 ? [] : ringEdges(ring).map((e) => pointOnEdge(e, 0.5))
  items.push({
    id: 'draw-middles',
    layer: 'overlay',
    role: 'draw-middle',
    kind: 'points',
    points: middles,
    sign: 'diamond',
  })
  items.push({
    id: 'draw-vertices',
    layer: 'overlay',
    role: 'draw-vertex',
    kind: 'points',
    points: ring,
    sign: 'square',
  })
  const from = state.edge === null ? undefined : ring[state.edge]
  const to = from && ring[(state.edge! + 1) % ring.length]
  if (from && to)
    items.push({
      id: 'draw-edge-chosen',
      layer: 'overlay',
      role: 'draw-edge-chosen',
      kind: 'path',
      vertices: [from, { x: to.x, y: to.y }],
      closed: false,
    })
  const at = vertex === null ? undefined : ring[vertex]
  if (at)
    items.push({
      id: 'draw-vertex-chosen',
      layer: 'overlay',
      role: 'draw-vertex-chosen',
      kind: 'points',
      points: [at],
      sign: 'square',
    })
  return items
}

function faultItems(part: Part, placement: Placement): SceneItem[] {
  return part.bodies.filter(isPrism).flatMap((body) =>
    bodyFaults(body)
      .slice(0, 20)
      .map((fault, i): SceneItem => ({
        id: `draw-fault:${body.id}:${i}`,
        layer: 'overlay',
        role: 'draw-fault',
        kind: 'sign',
        sign: 'corner',
        at: placePoint(placement, fault.at),
        verdict: 'stop',
      })),
  )
}

function previewItems(placement: Placement, preview: DrawPreview | null): SceneItem[] {
  if (!preview) return []
  const items: SceneItem[] = []
  const path = placeRing(placement, preview.path)
  if (path.length > 1)
    items.push({
      id: 'draw-preview',
      layer: 'overlay',
      role: 'draw-preview',
      kind: 'path',
      vertices: path,
      closed: preview.closed,
    })
  if (path.length > 0 && !preview.closed)
    items.push({
      id: 'draw-preview-points',
      layer: 'overlay',
      role: 'draw-vertex',
      kind: 'points',
      points: path.slice(0, -1),
      sign: 'square',
    })
  if (preview.at) {
    const at = placePoint(placement, preview.at)
    if (preview.snapped)
      items.push({
        id: 'draw-snap',
        layer: 'overlay',
        role: 'draw-vertex-chosen',
        kind: 'points',
        points: [at],
        sign: 'diamond',
      })
    items.push({
      id: 'draw-text',
      layer: 'overlay',
      role: 'guide-text',
      kind: 'text',
      at,
      offset: { x: 0, y: -28 },
      align: 'centre',
      text: preview.text,
      emphasis: { selected: preview.snapped },
    })
  }
  return items.filter((i) => i.kind !== 'text' || i.text !== '')
}
