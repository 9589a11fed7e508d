/** The faceplate: its face, slots, holes. */
import { circleRing } from '../../src-core/geometry/edges.ts'
import type { Ring } from '../../src-core/geometry/types.ts'
import type { Plate } from '../../src-core/job/schema.ts'
import { slotRing } from '../../src-core/mounting/plateFace.ts'
import type { Target } from '../editor/target.ts'
import type { SceneItem } from './items.ts'

const AXIS = { x: 0, y: 0 }

/** Its rim, and its bore where it has one. */
export const plateRings = ({ diameter, bore }: Plate): readonly Ring[] => [
  circleRing(AXIS, diameter),
  ...(bore > 0 ? [circleRing(AXIS, bore)] : []),
]

export function describePlate(
  plate: Plate,
  pointed: { selection: Target | null; hover: Target | null },
): SceneItem[] {
  const is = (t: Target | null, kind: Target['kind'], id: string) =>
    t !== null && t.kind === kind && 'id' in t && t.id === id
  const emphasis = (kind: 'slot' | 'hole', id: string) => ({
    selected: is(pointed.selection, kind, id),
    hovered: is(pointed.hover, kind, id),
  })
  return [
    {
      id: 'plate',
      layer: 'plate',
      role: 'plate',
      kind: 'region',
      rings: plateRings(plate),
    },
    ...plate.slots.map((slot): SceneItem => ({
      id: `slot:${slot.id}`,
      layer: 'plate',
      role: 'slot',
      kind: 'region',
      rings: [slotRing(slot)],
      emphasis: emphasis('slot', slot.id),
    })),
    ...plate.holes.map((hole): SceneItem => ({
      id: `hole:${hole.id}`,
      layer: 'plate',
      role: 'plate-hole',
      kind: 'circle',
      centre: { x: hole.x, y: hole.y },
      radius: hole.diameter / 2,
      emphasis: emphasis('hole', hole.id),
    })),
  ]
}
