/** Whether what is drawn as the part is one piece: what does not touch the rest is held by nothing. */
import { keptBy } from '../geometry/kept.ts'
import { finding, type Finding } from '../findings/finding.ts'
import { farthestFrom } from '../geometry/farthest.ts'
import { nearestTo } from '../geometry/nearest.ts'
import {
  polygonArea,
  polygonIntersection,
  polygonOffset,
  polygonPlace,
  polygonUnion,
} from '../geometry/polygon.ts'
import { boxOf, type Polygons } from '../geometry/polygonBox.ts'
import { separate } from '../geometry/separate.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point, Ring } from '../geometry/types.ts'
import { isPrism, type Part, type Prism } from '../job/schema.ts'
import { bodyShapes } from '../mounting/bodyShapes.ts'
import { flatBodies, heightOverlap, materialBetween, type FlatBody } from '../mounting/material.ts'
import { placePoint } from '../mounting/place.ts'
import { turnedAway, turnedIn } from '../mounting/turnedAway.ts'
import type { Mounted, MountedBody, MountedBore } from '../mounting/types.ts'

/** mm: bodies that are drawn this near, in plan or in height, are taken for joined. */
const JOINED = 0.05
/** mm: a neck narrower than twice this holds nothing together. */
const NECK = 0.1

/** A piece within one layer. */
interface Slice {
  readonly polygons: Polygons
  readonly volume: number
  readonly bodies: readonly string[]
}

/** What hangs together: its bodies, its volume in mm³ and a place on it, part frame. */
export interface PartPiece {
  readonly bodies: readonly string[]
  readonly volume: number
  readonly at: Point
}

const kept = keptBy<Part, string, readonly PartPiece[]>()

/**
 * The pieces of a part with some of its bores cut, the largest first. It is looked at in layers between the heights where
 * anything begins or ends; a body that comes from a mesh counts as its silhouette's prism. Outlines must be sound.
 * @param away what is turned, faced and recessed away of it.
 */
export function partPieces(
  part: Part,
  bores: readonly MountedBore[],
  seat: number,
  away: readonly Prism[] = [],
): readonly PartPiece[] {
  const key = JSON.stringify([bores.map((b) => b.bore.id), away])
  return kept(part, key, () => findPieces(part, bores, seat, away))
}

function findPieces(
  part: Part,
  cut: readonly MountedBore[],
  seat: number,
  away: readonly Prism[],
): PartPiece[] {
  const still = { turn: 0, x: 0, y: 0 }
  const bodies = [...part.bodies, ...away].flatMap((body) =>
    bodyShapes(body).map((shape): MountedBody => ({ body, shape, regions: [], z0: shape.z0, z1: shape.z1 })),
  )
  const bores = cut.map((b): MountedBore => ({
    ...b,
    centre: b.bore,
    z0: b.z0 - seat,
    z1: b.z1 - seat,
    state: 'open',
  }))
  const flat = flatBodies({ placement: still, bodies, turned: [], bores })
  const layers = heightsOf(flat, bores).map((z0, i, all) => slices(flat, bores, z0, all[i + 1] ?? z0))
  return joined(layers)
}

function heightsOf(flat: readonly FlatBody[], bores: readonly MountedBore[]): number[] {
  const all = [...flat, ...bores].flatMap(({ z0, z1 }) => [z0, z1]).sort((a, b) => a - b)
  const heights: number[] = []
  for (const z of all) if (heights.length === 0 || z - heights.at(-1)! > JOINED) heights.push(z)
  return heights
}

function slices(flat: readonly FlatBody[], bores: readonly MountedBore[], z0: number, z1: number): Slice[] {
  if (z1 <= z0) return []
  const near = boxOf(flat.flatMap((b) => b.polygons))
  const material = materialBetween({ bores }, flat, z0, z1, near)
  if (material.length === 0) return []
  // The union winds outlines and holes oppositely, as growing wants them.
  const grown = polygonOffset(polygonUnion(material, []), JOINED / 2)
  return separate(polygonOffset(grown, -JOINED / 2 - NECK)).map(({ outline, holes }) => {
    const polygons = [outline, ...holes]
    return {
      polygons,
      volume: polygonArea(polygons) * (z1 - z0),
      bodies: flat
        .filter(
          (b) => b.adds && heightOverlap(b, { z0, z1 }) > TOLERANCE.height && meet(b.polygons, polygons),
        )
        .map((b) => b.id),
    }
  })
}

const meet = (a: Polygons, b: Polygons) => polygonArea(polygonIntersection(a, b)) > TOLERANCE.clashArea

/** Pieces of neighbouring layers that lie on each other are one. */
function joined(layers: readonly (readonly Slice[])[]): PartPiece[] {
  const group = new Map<Slice, Set<Slice>>()
  for (const slice of layers.flat()) group.set(slice, new Set([slice]))
  for (const [i, layer] of layers.entries())
    for (const a of layer)
      for (const b of layers[i + 1] ?? [])
        if (group.get(a) !== group.get(b) && meet(a.polygons, b.polygons)) merge(group, a, b)
  return [...new Set(group.values())]
    .map((set) => {
      const all = [...set]
      const largest = all.reduce((p, q) => (q.volume > p.volume ? q : p))
      return {
        bodies: [...new Set(all.flatMap((s) => s.bodies))],
        volume: all.reduce((v, s) => v + s.volume, 0),
        at: polygonPlace(largest.polygons)!,
      }
    })
    .sort((a, b) => b.volume - a.volume)
}

function merge(group: Map<Slice, Set<Slice>>, a: Slice, b: Slice): void {
  const into = group.get(a)!
  for (const slice of group.get(b)!) {
    into.add(slice)
    group.set(slice, into)
  }
}

/** Whether it is plain without looking: one body, whose bores keep clear of its edges and of each other. */
function staysWhole(part: Part, cut: readonly MountedBore[]): boolean {
  const key = cut.map((b) => b.bore.id).join(' ')
  return whole(part, key, () => isPlainlyWhole(part, cut))
}

/** Kept per part for the bores that are cut: it stays so wherever it is moved. */
const whole = keptBy<Part, string, boolean>()

function isPlainlyWhole({ bodies }: Part, cut: readonly MountedBore[]): boolean {
  const [body] = bodies
  if (bodies.length !== 1 || !body || !isPrism(body)) return false
  const rings = [body.outline, ...body.holes]
  return cut.every(({ bore }, i) => {
    const clear = (ring: Ring) =>
      nearestTo(ring, bore).distance >= bore.diameter / 2 + 2 * NECK ||
      farthestFrom(ring, bore).distance <= bore.diameter / 2
    const apart = (other: MountedBore) =>
      Math.hypot(other.bore.x - bore.x, other.bore.y - bore.y) >=
      (other.bore.diameter + bore.diameter) / 2 + 2 * NECK
    return rings.every(clear) && cut.slice(i + 1).every(apart)
  })
}

/** What would fly off, before or once this setup's cuts are made: a stop for each piece but the largest. */
export function piecesFindings(mounted: Mounted): Finding[] {
  const { job, setup, bores, placement, seat } = mounted
  const before = turnedAway(job, setup)
  const away = [...before, ...turnedIn(job, setup)]
  const open = bores.filter((b) => b.state === 'open')
  const cut = bores.filter((b) => b.state !== 'uncut')
  if (away.length === 0 && staysWhole(job.part, cut)) return []
  const loose = partPieces(job.part, open, seat, before).slice(1)
  const after = loose.length > 0 ? [] : partPieces(job.part, cut, seat, away).slice(1)
  const say = (piece: PartPiece, message: string) =>
    finding('stop', 'part-in-pieces', piece.bodies[0] ?? 'part', message, placePoint(placement, piece.at))
  return [
    ...loose.map((piece) =>
      say(
        piece,
        `The part is not one piece: ${named(piece)} does not touch the rest, and nothing holds it. Draw what joins it, or take it off the job.`,
      ),
    ),
    ...after.map((piece) =>
      say(
        piece,
        `The cut parts the work: ${named(piece)} would come loose. Correct where and how wide it is cut.`,
      ),
    ),
  ]
}

const named = ({ bodies }: PartPiece) =>
  bodies.length === 0 ? 'a piece' : bodies.length === 1 ? `body ${bodies[0]}` : `bodies ${bodies.join(', ')}`
