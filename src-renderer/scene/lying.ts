/** Bodies that lie across while one of them is drawn: each as it looks against the way it is extruded. */
import { turnBetween } from '../../src-core/geometry/angles.ts'
import { boxAround } from '../../src-core/geometry/polygonBox.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import { liesAcross, type Part, type Prism } from '../../src-core/job/schema.ts'
import { flatsOf } from '../../src-core/mounting/flats.ts'
import { placePoint, placeRing } from '../../src-core/mounting/place.ts'
import type { Placement } from '../../src-core/mounting/types.ts'
import { ringBox } from '../editor/draw/rings.ts'
import type { Guide } from '../editor/target.ts'
import { describeGuide } from './guide.ts'
import type { SceneItem } from './items.ts'

/** mm that the line of the part's back runs beyond what is drawn. */
const BEYOND = 20

/** The chosen body and those that lie the same way, over the line of the part's back. */
export function describeLying(
  part: Part,
  placement: Placement,
  chosen: Prism & { readonly across: number },
): SceneItem[] {
  const bodies = part.bodies
    .filter(liesAcross)
    .filter((b) => Math.abs(turnBetween(b.across, chosen.across)) < 1e-6 && b.outline.length > 1)
  const { x0, x1 } = boxAround(bodies.map((b) => ringBox(b.outline)))
  const back: Point[] = [
    { x: Math.min(0, x0) - BEYOND, y: 0 },
    { x: Math.max(0, x1) + BEYOND, y: 0 },
  ]
  return [
    ...bodies.map((b): SceneItem => ({
      id: `lying:${b.id}`,
      layer: 'work',
      role: b.effect === 'adds' ? 'part' : 'pocket',
      kind: 'region',
      rings: [b.outline, ...b.holes].map((r) => placeRing(placement, r)),
    })),
    {
      id: 'lying-back',
      layer: 'work',
      role: 'axis',
      kind: 'line',
      points: back.map((p) => placePoint(placement, p)),
    },
    {
      id: 'lying-back-word',
      layer: 'work',
      role: 'machine-label',
      kind: 'text',
      at: placePoint(placement, back[0]!),
      text: "the part's back; out from the plate is up",
      align: 'left',
      offset: { x: 0, y: 16 },
    },
  ]
}

/** Flats that the part may be laid on a shelf with, to be clicked. */
export function describeFlats(part: Part, placement: Placement, guide: Guide | null): SceneItem[] {
  const flats = flatsOf(part).map((flat, i): SceneItem => ({
    id: `flat:${i}`,
    layer: 'overlay',
    role: 'draw-edge-chosen',
    kind: 'line',
    points: flat.ends.map((p) => placePoint(placement, p)),
  }))
  return [...flats, ...describeGuide(guide, 26)]
}
