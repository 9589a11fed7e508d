/** The plate on a card: what the step is about stands out, what else is on it is thin, slots and index say which way up. */
import { angleOf, onCircle, toRadians } from '../../geometry/angles.ts'
import { farthestFrom } from '../../geometry/farthest.ts'
import type { Point, Ring } from '../../geometry/types.ts'
import { indexAngle } from '../../mounting/plateAngle.ts'
import { slotRing } from '../../mounting/plateFace.ts'
import type { Mounted, MountedPiece } from '../../mounting/types.ts'
import type { PlainPrimitive, Primitive } from '../model/model.ts'
import { circle, ringsPath } from '../model/primitives.ts'
import { InkMap } from '../placing/inkMap.ts'
import { placeLabels, type Label } from '../placing/placeLabels.ts'
import { LETTERING } from '../text/lettering.ts'
import { around, noteCandidates } from '../views/callouts.ts'
import { slotLabels } from '../views/frontLabels.ts'
import { indexMark } from '../views/symbols.ts'

const AXIS: Point = { x: 0, y: 0 }
/** Round the circle that all is drawn into, for names, mm. */
const NAMES = { across: 11, up: 11 }
/** From what a name is of to the name, mm. */
const AWAY = [6, 9, 13, 18, 24, 31, 40, 50]

/** Into a circle on the sheet, mm, seen from the tailstock; names stand round it. */
export function cardPlate(
  mounted: Mounted,
  lit: readonly string[],
  centre: Point,
  radius: number,
): Primitive[] {
  const { job } = mounted
  const { plate } = job
  const bodies = mounted.bodies.filter((b) => b.body.effect === 'adds')
  const outlines = [
    ...bodies.flatMap((b) => b.regions.map((r) => r.outline)),
    ...mounted.pieces.flatMap((p) => p.solids.map((s) => s.ring)),
  ]
  const reach = Math.max(plate.diameter / 2, ...outlines.map((ring) => farthestFrom(ring, AXIS).distance))
  const scale = radius / reach
  const rim = (plate.diameter / 2) * scale
  const map = (p: Point): Point => ({ x: centre.x + p.x * scale, y: centre.y + p.y * scale })
  const isLit = (id: string) => lit.includes(id)
  const shape = (id: string, rings: readonly Ring[]) =>
    isLit(id) ? ringsPath('outline', rings, map, 'tint') : ringsPath('outline-thin', rings, map)
  const things = [
    ...bodies.map(({ regions }) => ({
      id: 'part',
      shapes: regions.map((r) => shape('part', [r.outline, ...r.holes])),
    })),
    ...mounted.pieces.map(({ item, solids }) => ({
      id: item.id,
      shapes: solids.map(({ ring, holes = [] }) => shape(item.id, [ring, ...holes])),
    })),
  ]
  const shown = (those: boolean) => things.filter((t) => isLit(t.id) === those).flatMap((t) => t.shapes)
  const index = toRadians(indexAngle(job))
  const lines: PlainPrimitive[] = [
    circle(isLit('plate') ? 'outline' : 'outline-thin', centre, rim),
    ...(plate.bore > 0 ? [circle('outline-thin', centre, (plate.bore / 2) * scale)] : []),
    ...plate.slots.map((slot) => ringsPath('outline-thin', [slotRing(slot)], map)),
    // What the step is about last: what stands over it is not on yet, or not its matter.
    ...shown(false),
    ...shown(true),
    indexMark(onCircle(centre, rim, index), index),
  ]
  const ink = new InkMap({
    x0: centre.x - radius - NAMES.across,
    x1: centre.x + radius + NAMES.across,
    y0: centre.y - radius - NAMES.up,
    y1: centre.y + radius + NAMES.up,
  })
  ink.addLines(lines)
  const labels = [
    ...slotLabels({ job, origin: centre, scale }, { rim, swing: radius }),
    ...mounted.pieces.filter(({ item }) => isLit(item.id)).map((piece) => pieceLabel(piece, map, centre)),
  ]
  return [...lines, ...placeLabels(labels, ink).primitives]
}

/** A piece's id, on a leader to its middle. */
function pieceLabel({ item, massCentre }: MountedPiece, map: (p: Point) => Point, centre: Point): Label {
  const target = map(massCentre)
  const home = angleOf({ x: target.x - centre.x, y: target.y - centre.y })
  const places = [0, 90, -90, 180].flatMap((turn, i) =>
    around(target, home + toRadians(turn), AWAY).map(({ at, cost }) => ({ at, cost: cost + 4 * i })),
  )
  return {
    id: item.id,
    candidates: noteCandidates({ lines: [item.id], height: LETTERING.read, bold: true, target, places }),
  }
}
