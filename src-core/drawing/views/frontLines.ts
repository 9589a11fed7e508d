/** The drawn lines of the front view: plate, part, hardware, axes, swing circle, bed. No labels. */
import { TOLERANCE } from '../../geometry/tolerance.ts'
import { flattenRegion, flattenRing } from '../../geometry/flatten.ts'
import { circleRing } from '../../geometry/edges.ts'
import type { Point, Ring } from '../../geometry/types.ts'
import type { MountedPiece, MountedSolid } from '../../mounting/types.ts'
import { slotRing } from '../../mounting/plateFace.ts'
import { bodyCovers, solidCover, type Cover } from './covers.ts'
import { outlines, type Shape } from './outlines.ts'
import type { LayerName, PlainPrimitive } from '../model/model.ts'
import { circle, line, ringsPath } from '../model/primitives.ts'
import { level } from './symbols.ts'
import { bedIsShown, bedRadius, largestSwing, type ViewInput } from './view.ts'

/** mm on the sheet. */
const CENTRE_OVERSHOOT = 4

export interface FrontLines {
  readonly primitives: readonly PlainPrimitive[]
  /** Flat outlines, sheet mm, of what labels keep off: part and pieces. */
  readonly bodies: readonly (readonly (readonly Point[])[])[]
  readonly map: (p: Point) => Point
  /** Whether something stands over a point of the plate, mm in front of z. */
  readonly isCovered: (p: Point, z: number) => boolean
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
  const bodies = bodyCovers(mounted)
  const solids = mounted.pieces.flatMap((p) => p.solids.filter((solid) => solid.z1 > 0))
  const covers: Cover[] = [...bodies.map((b) => b.cover), ...solids.map(solidCover)]
  const adding = bodies.map((b) => b.body)
  const grounds = [
    ...adding.flatMap(({ regions, z1 }) =>
      regions.map((r) => ({ rings: [r.outline, ...r.holes], z: z1, fill: 'tint' as const })),
    ),
    ...solids.map(({ ring, z1 }) => ({ rings: [ring], z: z1, fill: 'paper' as const })),
  ]
  for (const { rings, fill } of grounds.sort((a, b) => a.z - b.z))
    out.push(ringsPath('ground', rings, map, fill))
  out.push(circle('outline', origin, rim))
  out.push(...outlines(shapes(input, bodies), covers, map))
  for (const { bore, centre } of mounted.bores)
    if (Math.hypot(centre.x, centre.y) > TOLERANCE.coincident)
      out.push(...centreMark(map(centre), (bore.diameter / 2) * scale))
  const reach = rim + CENTRE_OVERSHOOT
  out.push(line('centre', { x: origin.x - reach, y: origin.y }, { x: origin.x + reach, y: origin.y }))
  out.push(line('centre', { x: origin.x, y: origin.y - reach }, { x: origin.x, y: origin.y + reach }))
  if (swing > rim + 0.1) out.push(circle('phantom', origin, swing))
  if (bedIsShown(job, analysis)) {
    const beside = swing + 10
    out.push(...level(origin.x - beside, origin.x + beside, origin.y - bedRadius(job).radius * scale))
  }
  return {
    primitives: out,
    bodies: [
      ...adding.flatMap(({ regions }) =>
        regions.map((r) => flattenRegion(r, 0.2).map((ring) => ring.map(map))),
      ),
      ...mounted.pieces.map((p) => [flattenRing(p.footprint, 0.2).map(map)]),
    ],
    isCovered: (p, z) => covers.some((c) => c.top(p) > z + TOLERANCE.height),
    map,
    rim,
    swing,
  }
}

/** All that has an outline, with its height and how its line is drawn where it shows and where it does not. */
function shapes({ job: { plate }, mounted }: ViewInput, bodies: ReturnType<typeof bodyCovers>): Shape[] {
  const face = (ring: Ring): Shape => ({ ring, z: 0, shown: 'outline-thin', behind: 'hidden', joins: [] })
  const middle = { x: 0, y: 0 }
  const out: Shape[] = [
    ...(plate.bore > 0 ? [{ ...face(circleRing(middle, plate.bore)), shown: 'outline' as const }] : []),
    ...plate.slots.map((slot) => face(slotRing(slot))),
    ...plate.holes.map((hole) => face(circleRing(hole, hole.diameter))),
  ]
  for (const { body, cover: own } of bodies) {
    // Where bodies run into one another there is no edge.
    const joins = bodies.flatMap((b) => (b.body === body ? [] : [b.cover]))
    for (const { outline, holes } of body.regions)
      for (const ring of [outline, ...holes])
        out.push({ ring, z: body.z1, shown: 'outline', behind: 'hidden', joins, own })
  }
  for (const { body, regions, z1 } of mounted.bodies)
    if (body.effect === 'removes')
      for (const { outline, holes } of regions)
        for (const ring of [outline, ...holes])
          out.push({ ring, z: z1, shown: 'outline-thin', behind: 'hidden', joins: [] })
  for (const { bore, centre, state, z1 } of mounted.bores) {
    const shown: LayerName = state === 'uncut' ? 'phantom' : 'outline'
    out.push({ ring: circleRing(centre, bore.diameter), z: z1, shown, behind: 'hidden', joins: [] })
    // What is there before the cut.
    if (state !== 'open' && bore.start > 0)
      out.push({
        ring: circleRing(centre, bore.start),
        z: z1,
        shown: state === 'uncut' ? 'outline-thin' : 'phantom',
        behind: null,
        joins: [],
      })
  }
  for (const piece of mounted.pieces) out.push(...pieceShapes(piece))
  return out
}

/** Outlines of a piece, each once; studs, nuts and washers only where they show. */
function pieceShapes({ solids }: MountedPiece): Shape[] {
  const front = solids.filter((s) => s.z1 > 0).sort((a, b) => b.z1 - a.z1)
  const isSame = (a: MountedSolid, b: MountedSolid) =>
    a.ring.length === b.ring.length &&
    a.ring.every((v, i) => Math.hypot(v.x - b.ring[i]!.x, v.y - b.ring[i]!.y) < TOLERANCE.coincident)
  return front
    .filter((s, i) => !front.slice(0, i).some((higher) => isSame(higher, s)))
    .flatMap(({ role, ring, holes = [], z1 }) =>
      [ring, ...holes].map((r) => ({
        ring: r,
        z: z1,
        shown: 'outline-thin',
        behind: role === 'stud' || role === 'nut' || role === 'washer' ? null : 'hidden',
        joins: [],
      })),
    )
}

function centreMark(at: Point, radius: number): PlainPrimitive[] {
  const reach = radius + 2.5
  return [
    line('centre', { x: at.x - reach, y: at.y }, { x: at.x + reach, y: at.y }),
    line('centre', { x: at.x, y: at.y - reach }, { x: at.x, y: at.y + reach }),
  ]
}
