/** Names of the plate's slots, beside what covers their place; where it covers all of them, none. */
import { polar } from '../../src-core/geometry/angles.ts'
import { edgesBox, ringEdges } from '../../src-core/geometry/edges.ts'
import { distanceToRegion } from '../../src-core/geometry/nearest.ts'
import { inBox, widened, type Box } from '../../src-core/geometry/polygonBox.ts'
import type { Point, Region } from '../../src-core/geometry/types.ts'
import type { Plate, Slot } from '../../src-core/job/schema.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'
import type { Target } from '../editor/target.ts'
import type { SceneItem } from './items.ts'

/** Of the plate's diameter: what a name takes round its middle, and how far beyond the rim or beside its slot it stands. */
const ROOM = 0.024
const BEYOND = 0.526
const BESIDE = 0.04

/** Where a slot's name may stand: between its end and the rim if it has room there, beyond the rim, to either side of its end. */
function placesOf({ diameter }: Plate, slot: Slot): Point[] {
  const end = slot.to + slot.width / 2
  const flank = (side: 1 | -1) => {
    const at = polar(slot.to, slot.angle)
    const out = polar(slot.width / 2 + BESIDE * diameter, slot.angle + side * 90)
    return { x: at.x + out.x, y: at.y + out.y }
  }
  return [
    ...(diameter / 2 - end < ROOM * diameter ? [] : [polar((end + diameter / 2) / 2, slot.angle)]),
    polar(BEYOND * diameter, slot.angle),
    flank(1),
    flank(-1),
  ]
}

interface Cover {
  readonly region: Region
  /** Beyond it nothing of the region is near enough to cover a name. */
  readonly box: Box
}

/** What lies over the plate. @param room mm that a name takes round its middle. */
function coversOf({ bodies, pieces }: Pick<Mounted, 'bodies' | 'pieces'>, room: number): Cover[] {
  const regions = [
    ...bodies.flatMap((b) => (b.body.effect === 'adds' ? b.regions : [])),
    ...pieces.flatMap((p) => p.solids.map((s) => ({ outline: s.ring, holes: [] }))),
  ]
  return regions.map((region) => ({ region, box: widened(edgesBox(ringEdges(region.outline)), room) }))
}

/**
 * Which of its places each slot's name takes, a digit a slot, `-` where it is covered wherever it stands. As text, so
 * that the plate's picture stays while a drag changes nothing of it.
 */
export function slotLabelChoice(plate: Plate, mounted: Pick<Mounted, 'bodies' | 'pieces'> | null): string {
  const room = ROOM * plate.diameter
  const covers = mounted ? coversOf(mounted, room) : []
  const isFree = (p: Point) =>
    covers.every(({ region, box }) => !inBox(box, p) || distanceToRegion(region, p) > room)
  return plate.slots
    .map((slot) => {
      const at = placesOf(plate, slot).findIndex(isFree)
      return at < 0 ? '-' : String(at)
    })
    .join('')
}

/** @param choice from `slotLabelChoice`. */
export const slotLabels = (
  plate: Plate,
  choice: string,
  pointed: { readonly selection: Target | null; readonly hover: Target | null },
): SceneItem[] =>
  plate.slots.flatMap((slot, i): SceneItem[] => {
    const at = placesOf(plate, slot)[Number(choice[i] ?? '0')]
    const is = (t: Target | null) => t?.kind === 'slot' && t.id === slot.id
    return at
      ? [
          {
            id: `slot-label:${slot.id}`,
            layer: 'plate',
            role: 'label',
            kind: 'text',
            at,
            text: slot.id,
            align: 'centre',
            emphasis: { selected: is(pointed.selection), hovered: is(pointed.hover) },
          },
        ]
      : []
  })
