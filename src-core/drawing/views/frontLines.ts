/** The drawn lines of the front view: plate, part, hardware, axes, swing circle, bed. No labels. */
import { TOLERANCE } from '../../geometry/tolerance.ts'
import { flattenRegion, flattenRing } from '../../geometry/flatten.ts'
import { isInside } from '../../geometry/nearest.ts'
import type { Point } from '../../geometry/types.ts'
import { slotRing } from '../../mounting/plateFace.ts'
import type { MountedBody, MountedPiece } from '../../mounting/types.ts'
import type { LayerName, PlainPrimitive } from '../model/model.ts'
import { circle, line, ringsPath } from '../model/primitives.ts'
import { bedIsShown, bedRadius, largestSwing, type ViewInput } from './view.ts'

/** mm on the sheet. */
const CENTRE_OVERSHOOT = 4
const BED_TICK = 2

export interface FrontLines {
  readonly primitives: readonly PlainPrimitive[]
  /** Flat outlines, sheet mm, of what labels keep off: part and pieces. */
  readonly bodies: readonly (readonly (readonly Point[])[])[]
  readonly map: (p: Point) => Point
  /** Sheet mm. */
  readonly rim: number
  readonly swing: number
}

export function frontLines(input: ViewInput): FrontLines {
  const { job, mounted, analysis, scale, origin } = input
  const map = (p: Point): Point => ({ x: origin.x + p.x * scale, y: origin.y + p.y * scale })
  const { plate } = job
  const rim = (plate.diameter / 2) * scale
  const swing = largestSwing(analysis, plate.diameter) * scale
  const out: PlainPrimitive[] = []
  out.push(circle('outline', origin, rim), circle('outline', origin, (plate.bore / 2) * scale))
  for (const slot of plate.slots) out.push(ringsPath('outline-thin', [slotRing(slot)], map))
  for (const hole of plate.holes) out.push(circle('outline-thin', map(hole), (hole.diameter / 2) * scale))
  const over = piecesOver(mounted)
  const under = mounted.pieces.filter((p) => !over.includes(p))
  const adding = mounted.bodies.filter((b) => b.body.effect === 'adds').sort((a, b) => a.z1 - b.z1)
  for (const body of adding) out.push(...bodyPaths(body, 'outline', map, 'tint'))
  for (const body of mounted.bodies) {
    if (body.body.effect === 'adds') continue
    out.push(...bodyPaths(body, isCovered(body, adding) ? 'hidden' : 'outline-thin', map, 'none'))
  }
  for (const piece of under) out.push(ringsPath('hidden', [piece.footprint], map))
  if (adding.some(({ regions }) => regions.some((r) => isInside(r.outline, { x: plate.bore / 2, y: 0 }))))
    out.push(circle('hidden', origin, (plate.bore / 2) * scale))
  for (const { bore, centre, state } of mounted.bores) {
    const layer: LayerName = state === 'uncut' ? 'phantom' : state === 'open' ? 'outline' : 'mark'
    out.push(circle(layer, map(centre), (bore.diameter / 2) * scale))
    if (state !== 'open' && bore.start > 0)
      out.push(circle('outline-thin', map(centre), (bore.start / 2) * scale))
    if (Math.hypot(centre.x, centre.y) > TOLERANCE.coincident)
      out.push(...centreMark(map(centre), (bore.diameter / 2) * scale))
  }
  for (const piece of over) out.push(ringsPath('outline-thin', [piece.footprint], map, 'paper'))
  for (const { bolt } of over)
    if (bolt) out.push(circle('outline-thin', map(bolt.at), (bolt.diameter / 2) * scale))
  const reach = rim + CENTRE_OVERSHOOT
  out.push(line('centre', { x: origin.x - reach, y: origin.y }, { x: origin.x + reach, y: origin.y }))
  out.push(line('centre', { x: origin.x, y: origin.y - reach }, { x: origin.x, y: origin.y + reach }))
  if (swing > rim + 0.1) out.push(circle('phantom', origin, swing))
  if (bedIsShown(job, analysis)) out.push(...ground(origin, swing + 10, bedRadius(job).radius * scale))
  return {
    primitives: out,
    bodies: [
      ...adding.flatMap(({ regions }) =>
        regions.map((r) => flattenRegion(r, 0.2).map((ring) => ring.map(map))),
      ),
      ...over.map((p) => [flattenRing(p.footprint, 0.2).map(map)]),
    ],
    map,
    rim,
    swing,
  }
}

/** Pieces that stand in front of the part's seat and so hide what is behind them; the rest lies under the part. */
export function piecesOver(mounted: ViewInput['mounted']): MountedPiece[] {
  return mounted.pieces
    .filter((p) => p.item.kind !== 'packing' || p.z1 > mounted.setup.packing + TOLERANCE.height)
    .sort((a, b) => a.z1 - b.z1)
}

/** A level with ground hatching below it, centred under a point, `below` sheet mm down. */
export function ground(under: Point, reach: number, below: number): PlainPrimitive[] {
  const y = under.y - below
  const out: PlainPrimitive[] = [line('outline', { x: under.x - reach, y }, { x: under.x + reach, y })]
  for (let x = under.x - reach + BED_TICK; x <= under.x + reach; x += 2 * BED_TICK)
    out.push(line('hatch', { x, y }, { x: x - BED_TICK, y: y - BED_TICK }))
  return out
}

function bodyPaths(
  { regions }: MountedBody,
  layer: LayerName,
  map: (p: Point) => Point,
  fill: 'tint' | 'none',
): PlainPrimitive[] {
  return regions.map((region) => ringsPath(layer, [region.outline, ...region.holes], map, fill))
}

/** Whether material stands in front of what a body takes away. */
function isCovered(body: MountedBody, adding: readonly MountedBody[]): boolean {
  const inner = body.regions[0]?.outline[0]
  if (!inner) return false
  return adding.some(
    (a) => a.z0 >= body.z1 - TOLERANCE.height && a.regions.some((r) => isInside(r.outline, inner)),
  )
}

function centreMark(at: Point, radius: number): PlainPrimitive[] {
  const reach = radius + 2.5
  return [
    line('centre', { x: at.x - reach, y: at.y }, { x: at.x + reach, y: at.y }),
    line('centre', { x: at.x, y: at.y - reach }, { x: at.x, y: at.y + reach }),
  ]
}
