/** A shelf or a vee's lands looked at square: x along it, y out from the plate. */
import { circleRing, oblongRing, rectRing } from '../../src-core/geometry/edges.ts'
import { boxAround } from '../../src-core/geometry/polygonBox.ts'
import type { Ring } from '../../src-core/geometry/types.ts'
import { holesInFrame, standsOut } from '../../src-core/mounting/shelf.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'
import type { Extent } from '../editor/camera.ts'
import { ringBox } from '../editor/draw/rings.ts'
import type { SceneItem } from './items.ts'

/** mm that are shown: the shelf with some room about it, and all that stands on it. */
export function shelfExtent({ shelf, bodies, pieces }: Mounted): Extent {
  const [along, , out] = shelf!.item.size
  const stands = [
    ...bodies.flatMap((b) => b.regions.map((r) => r.outline)),
    ...pieces.map((p) => p.footprint),
  ]
  const shown = { x0: -0.75 * along, x1: 0.75 * along, y0: -0.25 * out, y1: 1.3 * out }
  return boxAround([shown, ...stands.filter((ring) => ring.length > 0).map(ringBox)])
}

/** @param view the setup as it looks from the shelf. */
export function describeShelfFace({ shelf, job }: Mounted): SceneItem[] {
  if (!shelf) return []
  const { item } = shelf
  const [along, , out] = item.size
  const middle = { x: 0, y: standsOut(item) + out / 2 }
  const face = (id: string, role: SceneItem['role'], ring: Ring): SceneItem => ({
    id,
    layer: 'plate',
    role,
    kind: 'region',
    rings: [ring],
  })
  const openings = [
    ...(item.kind === 'anglePlate'
      ? item.slots.map((s) => ({ id: s.id, at: s, ring: oblongRing(s, s.length, s.width, s.angle) }))
      : []),
    ...holesInFrame(item).map((h) => ({ id: h.id, at: h, ring: circleRing(h, h.diameter) })),
  ]
  return [
    face(
      'face-plate',
      'bed',
      rectRing({ x: 0, y: -job.plate.thickness / 2 }, 1.4 * along, job.plate.thickness, 0),
    ),
    face('face', 'fixture', rectRing(middle, along, out, 0)),
    ...(item.kind === 'vee' ? [face('face-mouth', 'slot', rectRing(middle, item.opening, out, 0))] : []),
    ...openings.map((o) => face(`face-open:${o.id}`, 'slot', o.ring)),
    ...openings.map((o): SceneItem => ({
      id: `face-label:${o.id}`,
      layer: 'plate',
      role: 'label',
      kind: 'text',
      // Over its outer end, as dark letters in the opening would be lost.
      at: { x: o.at.x, y: ringBox(o.ring).y1 },
      offset: { x: 0, y: -9 },
      text: o.id,
      align: 'centre',
    })),
    {
      id: 'face-plate-word',
      layer: 'plate',
      role: 'machine-label',
      kind: 'text',
      at: { x: 0, y: -job.plate.thickness / 2 },
      text: 'plate',
      align: 'centre',
    },
  ]
}
