/** An item's outline as a path, traced once however often it is filled, stroked or drawn again. */
import { FULL_TURN } from '../../src-core/geometry/angles.ts'
import { ringEdges } from '../../src-core/geometry/edges.ts'
import type { Ring } from '../../src-core/geometry/types.ts'
import type { SceneItem } from '../scene/items.ts'
import { plainOutline } from './plainOutline.ts'

/**
 * Vertices beyond which an outline is drawn without what only adorns it and no finer than the screen shows, so that it
 * still follows the pointer.
 */
const PLAIN_BEYOND = 400

export const isLong = (item: SceneItem): boolean =>
  item.kind === 'path'
    ? item.vertices.length > PLAIN_BEYOND
    : item.kind === 'region' && item.rings.some((r) => r.length > PLAIN_BEYOND)

const kept = new WeakMap<SceneItem, { readonly path: Path2D; readonly scale: number | null }>()

/** @param scale pixels a millimetre */
export function outlineOf(item: SceneItem, scale: number): Path2D {
  const fineness = isLong(item) ? scale : null
  const known = kept.get(item)
  if (known?.scale === fineness) return known.path
  const path = new Path2D()
  trace(path, item, fineness)
  kept.set(item, { path, scale: fineness })
  return path
}

function trace(path: Path2D, item: SceneItem, scale: number | null): void {
  switch (item.kind) {
    case 'region':
      for (const ring of item.rings) traceVertices(path, ring, true, scale)
      return
    case 'path':
      return traceVertices(path, item.vertices, item.closed, scale)
    case 'circle':
      return path.arc(item.centre.x, item.centre.y, item.radius, 0, FULL_TURN)
    case 'line':
      return item.points.forEach((p, i) => (i === 0 ? path.moveTo(p.x, p.y) : path.lineTo(p.x, p.y)))
  }
}

function traceVertices(path: Path2D, vertices: Ring, closed: boolean, scale: number | null): void {
  const first = vertices[0]
  if (!first) return
  path.moveTo(first.x, first.y)
  const edges =
    scale === null
      ? closed
        ? ringEdges(vertices)
        : ringEdges(vertices).slice(0, -1)
      : plainOutline(vertices, closed, scale)
  for (const { b, arc } of edges) {
    if (arc) path.arc(arc.centre.x, arc.centre.y, arc.radius, arc.start, arc.start + arc.sweep, arc.sweep < 0)
    else path.lineTo(b.x, b.y)
  }
  if (closed) path.closePath()
}
