/** The plate on a card: what the step is about stands out, what else is on it is thin. */
import type { Point, Ring } from '../../geometry/types.ts'
import type { Primitive } from '../model/model.ts'
import { circle, ringsPath, text } from '../model/primitives.ts'
import { farthestFrom } from '../../geometry/farthest.ts'
import { slotRing } from '../../mounting/plateFace.ts'
import type { Mounted } from '../../mounting/types.ts'

const AXIS: Point = { x: 0, y: 0 }
/** Capital height of a piece's id, mm. */
const NAME = 3.5

/** Into a circle on the sheet, mm, seen from the tailstock. */
export function cardPlate(
  mounted: Mounted,
  lit: readonly string[],
  centre: Point,
  radius: number,
): Primitive[] {
  const { plate } = mounted.job
  const bodies = mounted.bodies.filter((b) => b.body.effect === 'adds')
  const outlines = [
    ...bodies.flatMap((b) => b.regions.map((r) => r.outline)),
    ...mounted.pieces.flatMap((p) => p.solids.map((s) => s.ring)),
  ]
  const reach = Math.max(plate.diameter / 2, ...outlines.map((ring) => farthestFrom(ring, AXIS).distance))
  const scale = radius / reach
  const map = (p: Point): Point => ({ x: centre.x + p.x * scale, y: centre.y + p.y * scale })
  const isLit = (id: string) => lit.includes(id)
  const shape = (id: string, rings: readonly Ring[]) =>
    isLit(id) ? ringsPath('outline', rings, map, 'tint') : ringsPath('outline-thin', rings, map)
  return [
    circle(isLit('plate') ? 'outline' : 'outline-thin', centre, (plate.diameter / 2) * scale),
    ...(plate.bore > 0 ? [circle('outline-thin', centre, (plate.bore / 2) * scale)] : []),
    ...plate.slots.map((slot) => ringsPath('outline-thin', [slotRing(slot)], map)),
    ...bodies.flatMap(({ regions }) => regions.map((r) => shape('part', [r.outline, ...r.holes]))),
    ...mounted.pieces.flatMap(({ item, solids }) =>
      solids.map(({ ring, holes = [] }) => shape(item.id, [ring, ...holes])),
    ),
    ...mounted.pieces
      .filter(({ item }) => isLit(item.id))
      .map(({ item, massCentre }) => {
        const at = map(massCentre)
        return text({ x: at.x, y: at.y - NAME / 2 }, item.id, NAME, { anchor: 'middle', bold: true })
      }),
  ]
}
