import type { Point } from '../../src-core/geometry/types.ts'
import type { SceneItem } from './items.ts'

/** A line over the picture, of a size or to what it points at. mm, in the view's own frame. */
export const lineItem = (id: string, role: SceneItem['role'], a: Point, b: Point): SceneItem => ({
  id,
  layer: 'overlay',
  role,
  kind: 'line',
  points: [a, b],
})
