/**
 * A part as it looks from a shelf that it stands on: each body as upright prisms or a mesh in the shelf's frame, x along
 * the shelf and y out from the plate, both from the part's origin, heights along the shelf's normal.
 */
import { keptLast } from '../geometry/kept.ts'
import { turnBetween } from '../geometry/angles.ts'
import { circleRing } from '../geometry/edges.ts'
import { pileOf } from '../geometry/pile.ts'
import type { Box } from '../geometry/polygonBox.ts'
import { facingPose } from '../geometry/space/facing.ts'
import { dot3 } from '../geometry/space/vector.ts'
import type { Point, Region, Ring } from '../geometry/types.ts'
import { bodyFaults } from '../job/faults.ts'
import { isPrism, liesAcross, type Body, type MeshBody, type Part, type Prism } from '../job/schema.ts'
import { boreRange } from '../mass/slabs.ts'
import { reachToward } from './flats.ts'

export interface ShelfPart {
  /** Without bores: those are bodies that remove here. */
  readonly part: Part
  /** Bodies that lie at a slant to the shelf: they are left out, and what they carry or meet is not known here. */
  readonly slanted: readonly string[]
  /** mm from the part's origin along the shelf's normal to the lowest of all of it, those bodies too; null where none lies at a slant. */
  readonly lowest: number | null
}

/** Degrees by which a body that lies across may miss a quarter turn to the shelf. */
const SQUARE = 1e-6

const kept = keptLast<Part, ShelfPart>()

/**
 * The same object for the same part from the same side: kept per part and shelf for the last direction.
 * @param shelf its id. @param facing of it in the part's frame, degrees. @param away bodies of what earlier setups turned
 * away.
 */
export const partFromShelf = (part: Part, shelf: string, facing: number, away: readonly Body[]): ShelfPart =>
  kept(part, [facing, ...away], () => fromShelf(part, facing, away), shelf)

function fromShelf(part: Part, facing: number, away: readonly Body[]): ShelfPart {
  const bodies: Body[] = []
  const slanted: string[] = []
  for (const body of [...part.bodies, ...away]) {
    const seen = isPrism(body) ? prismFromShelf(body, facing) : [meshFromShelf(body, facing)]
    if (seen) bodies.push(...seen)
    else slanted.push(body.id)
  }
  return {
    part: { ...part, bodies: [...bodies, ...boresFromShelf(part, facing)], bores: [] },
    slanted,
    lowest: slanted.length > 0 ? -reachToward(part, facing + 180) : null,
  }
}

/** Null where it lies at a slant. */
function prismFromShelf(body: Prism, facing: number): Prism[] | null {
  if (bodyFaults(body).length > 0) return [plain(body)]
  if (!liesAcross(body)) return fromSide(body, facing, body.base, body.base + body.thickness)
  const turn = turnBetween(facing, body.across)
  const near = (wanted: number) => Math.abs(turn - wanted) < SQUARE
  if (near(0)) return [plain(body)]
  const [e0, e1] = [body.base, body.base + body.thickness]
  if (near(180) || near(-180))
    return [{ ...plain(body), ...mapped(body, true, ({ x, y }) => ({ x: -x, y })), base: -e1 }]
  if (!near(90) && !near(-90)) return null
  // Its own x points along ∓n there, its thickness along ±u.
  const sign = turn > 0 ? 1 : -1
  const seen = mapped(body, sign < 0, ({ x, y }) => ({ x: y, y: -sign * x }))
  return pile(body, seen, ({ x0, x1 }) => ({
    x0: Math.min(sign * e0, sign * e1),
    x1: Math.max(sign * e0, sign * e1),
    y0: x0,
    y1: x1,
  }))
}

/** Of a body extruded along the spindle from z0 to z1. */
function fromSide(body: Prism, facing: number, z0: number, z1: number): Prism[] {
  const { u, n } = facingPose({ x: 0, y: 0 }, facing)
  const seen = mapped(body, true, ({ x, y }) => {
    const p = { x, y, z: 0 }
    return { x: dot3(p, u), y: dot3(p, n) }
  })
  return pile(body, seen, ({ x0, x1 }) => ({ x0, x1, y0: z0, y1: z1 }))
}

/** @param section of the body square to the shelf, y along its normal. @param plan of a layer of it, on the shelf. */
function pile(body: Prism, section: Region, plan: (layer: Box) => Box): Prism[] {
  return pileOf(section, body.effect === 'adds' ? 'outside' : 'inside').map((layer) => {
    const { x0, x1, y0, y1 } = plan(layer)
    return {
      ...plain(body),
      outline: [
        { x: x0, y: y0 },
        { x: x1, y: y0 },
        { x: x1, y: y1 },
        { x: x0, y: y1 },
      ],
      holes: [],
      base: layer.y0,
      thickness: layer.y1 - layer.y0,
    }
  })
}

const plain = (body: Prism): Prism => ({ ...body, across: null })

/** @param turnsOver whether the map mirrors, so that arcs bulge the other way. */
function mapped({ outline, holes }: Region, turnsOver: boolean, to: (p: Point) => Point): Region {
  const way = turnsOver ? -1 : 1
  const map = (ring: Ring) => ring.map((v) => ({ ...to(v), bulge: way * (v.bulge ?? 0) }))
  return { outline: map(outline), holes: holes.map(map) }
}

/** A turn in space: triangles keep their winding. */
function meshFromShelf(body: MeshBody, facing: number): MeshBody {
  const { u, n } = facingPose({ x: 0, y: 0 }, facing)
  const { vertices, triangles } = body.mesh
  const turned: number[] = []
  for (let i = 0; i + 2 < vertices.length; i += 3) {
    const p = { x: vertices[i]!, y: vertices[i + 1]!, z: vertices[i + 2]! + body.base }
    turned.push(dot3(p, u), p.z, dot3(p, n))
  }
  return { ...body, base: 0, mesh: { vertices: turned, triangles } }
}

/** Every bore as what it takes away, cut by now or not: nothing is to bear on what will go. */
function boresFromShelf(part: Part, facing: number): Prism[] {
  return part.bores.flatMap((bore) => {
    const range = boreRange(part, bore)
    if (!range) return []
    const tool: Prism = {
      id: bore.id,
      effect: 'removes',
      outline: circleRing(bore, bore.diameter),
      holes: [],
      base: range.z0,
      thickness: range.z1 - range.z0,
    }
    return fromSide(tool, facing, range.z0, range.z1)
  })
}
