/** A shelf or a vee's lands looked at square: x along it, y out from the plate. */
import { circleRing, oblongRing, rectRing } from '../../src-core/geometry/edges.ts'
import type { Ring } from '../../src-core/geometry/types.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'
import type { Extent } from '../editor/camera.ts'
import type { SceneItem } from './items.ts'

/** mm that are shown of it, and of what hangs over it. */
export function shelfExtent({ shelf }: Mounted): Extent {
  const [along, , out] = shelf!.item.size
  return { x0: -0.75 * along, x1: 0.75 * along, y0: -0.25 * out, y1: 1.3 * out }
}

/** @param view the setup as it looks from the shelf. */
export function describeShelfFace({ shelf, job }: Mounted): SceneItem[] {
  if (!shelf) return []
  const { item } = shelf
  const [along, , out] = item.size
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
    ...item.holes.map((h) => ({ id: h.id, at: h, ring: circleRing(h, h.diameter) })),
  ]
  return [
    face(
      'face-plate',
      'bed',
      rectRing({ x: 0, y: -job.plate.thickness / 2 }, 1.4 * along, job.plate.thickness, 0),
    ),
    face('face', 'fixture', rectRing({ x: 0, y: out / 2 }, along, out, 0)),
    ...(item.kind === 'vee'
      ? [face('face-mouth', 'slot', rectRing({ x: 0, y: out / 2 }, item.opening, out, 0))]
      : []),
    ...openings.map((o) => face(`face-open:${o.id}`, 'slot', o.ring)),
    ...openings.map((o): SceneItem => ({
      id: `face-label:${o.id}`,
      layer: 'plate',
      role: 'label',
      kind: 'text',
      at: o.at,
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
