/** The camera for drawing: the part upright and whole, whatever way it sits on the plate. */
import { boxAround, boxOf, discBox } from '../../src-core/geometry/polygonBox.ts'
import type { Ring } from '../../src-core/geometry/types.ts'
import type { Part } from '../../src-core/job/schema.ts'
import { isPrism } from '../../src-core/job/schema.ts'
import { placePoint } from '../../src-core/mounting/place.ts'
import type { Placement } from '../../src-core/mounting/types.ts'
import { clearOf, fit, freeOf, toScreen, type Camera, type Insets, type Size, type View } from './camera.ts'
import { ringBox } from './draw/rings.ts'

/** What the drawing tools above and the fields below take at least: as much as they do when a ring is chosen. */
export const DRAWING_ROOM: Insets = { top: 60, bottom: 170, sides: 50 }

/** mm: what is shown of a part that has nothing to show. */
const NOTHING = { x0: -50, y0: -50, x1: 50, y1: 50 } as const

/** px: about the part, so that its grips are not at the edge. */
const MARGIN = 30

/** Whether a ring of the part is seen whole between the tools and the fields. */
export function ringInView(view: View, placement: Placement, ring: Ring, room: Insets): boolean {
  const { x0, y0, x1, y1 } = ringBox(ring)
  return [
    { x: x0, y: y0 },
    { x: x1, y: y0 },
    { x: x1, y: y1 },
    { x: x0, y: y1 },
  ]
    .map((p) => toScreen(view, placePoint(placement, p)))
    .every(
      (p) =>
        p.x >= room.sides &&
        p.x <= view.width - room.sides &&
        p.y >= room.top &&
        p.y <= view.height - room.bottom,
    )
}

/** The whole part, and what is being drawn, in the room that tools and fields leave. */
export function partCamera(
  part: Part,
  placement: Placement,
  size: Size,
  room: Insets,
  drawn: Ring = [],
): Camera {
  const all = boxAround([
    ...part.bodies.filter(isPrism).map((b) => ringBox(b.outline)),
    ...part.bores.map((b) => discBox(b, b.diameter)),
    boxOf([part.photograph?.ties ?? []]),
    ringBox(drawn),
  ])
  const box = Number.isFinite(all.x0) ? all : NOTHING
  const camera = fit(box, freeOf(size, room), MARGIN, -placement.turn)
  const middle = { x: (box.x0 + box.x1) / 2, y: (box.y0 + box.y1) / 2 }
  return clearOf({ ...camera, at: placePoint(placement, middle) }, size, room)
}
