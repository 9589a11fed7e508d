/** Another workpiece alike, bolted on opposite: what it is made of where it stands. */
import { keptOf } from '../geometry/kept.ts'
import { boxOf } from '../geometry/polygonBox.ts'
import { signedRingMoments } from '../geometry/ringMoments.ts'
import { separate } from '../geometry/separate.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Ring } from '../geometry/types.ts'
import { findThread } from '../hardware/threads.ts'
import type { ThroughBolt, Twin } from '../job/schema.ts'
import { centreOfMass, moveMass, turnMass } from '../mass/massMoments.ts'
import { partMass } from '../mass/part.ts'
import { tappedFace, type Bench } from './bench.ts'
import { removedBefore } from './cutAway.ts'
import { fasten, type FastenedSolids, type FasteningFields } from './fastening.ts'
import { discPolygons, flatBodies, isSound, materialBetween, restOn, type MountedPart } from './material.ts'
import { mountPart } from './mountPart.ts'
import { pieceOf } from './piece.ts'
import { placePoint } from './place.ts'
import { stationPoint } from './station.ts'
import type { MountedPiece, MountedSolid } from './types.ts'

/** The twin's own bodies where it stands. Bores of this setup's cuts are not cut in it. */
export function twinPart({ job, setup }: Pick<Bench, 'job' | 'setup'>, item: Twin) {
  const placement = { turn: item.facing, ...stationPoint(job.plate, item.at, setup.hardware) }
  const part = mountPart(job, setup, placement, item.raised)
  return {
    ...part,
    bores: part.bores.map((b) => (b.state === 'to cut' ? { ...b, state: 'uncut' as const } : b)),
  }
}

/** A stud with washer and nut through a part at a point of the plate, tightened on what of the part lies there. */
export function boltThrough(
  bench: Bench,
  part: MountedPart & { readonly front: number },
  fields: FasteningFields,
  at: { readonly x: number; readonly y: number },
): FastenedSolids {
  const washer = fields.washer?.diameter ?? 2 * (findThread(fields.stud.thread ?? '')?.diameter ?? 12)
  const rest = restOn(part, discPolygons(at, washer))
  return fasten(bench.job.plate, at, at, fields, rest?.z ?? part.front, tappedFace(bench, at))
}

/** The part's outline at the twin's place with its exact mass, and the bolts that hold it. */
export function mountTwin(bench: Bench, item: Twin): MountedPiece {
  const { job, setup } = bench
  const part = twinPart(bench, item)
  const { turn, x, y } = part.placement
  const mass = partMass(job.part, removedBefore(job, setup)).moments
  const moments = moveMass(turnMass(mass, turn), x, y, item.raised)
  const massCentre = moments.m > 0 ? centreOfMass(moments) : { x, y, z: item.raised }
  const shapes = isSound(part) ? solidShapes(part) : plainShapes(part)
  const body = shapes.map((shape, i): MountedSolid =>
    i === 0
      ? { role: 'twin', ...shape, mass: moments.m, massCentre, moments }
      : { role: 'twin', ...shape, mass: 0, massCentre },
  )
  const bolts = item.bolts.map((bolt) =>
    boltThrough(bench, part, bolt, placePoint(part.placement, bolt.at ?? { x: 0, y: 0 })),
  )
  const solids = [...body, ...bolts.flatMap((b) => b.solids)]
  const mounted = pieceOf(item, { x, y }, item.facing, body[0] ?? solids[0]!, solids, null)
  return {
    ...mounted,
    z0: item.raised,
    z1: part.front,
    fastenings: bolts.map((b) => b.fastening),
  }
}

type Shape = Pick<MountedSolid, 'ring' | 'holes' | 'z0' | 'z1'>

/** Of what is added alone, with its true arcs. */
const plainShapes = ({ bodies }: MountedPart): Shape[] =>
  bySize(
    bodies.flatMap(({ body, regions, z0, z1 }) =>
      body.effect === 'adds' ? regions.map(({ outline, holes }) => ({ ring: outline, holes, z0, z1 })) : [],
    ),
  )

/** Less what is cut away: then layer by layer, flattened. */
function solidShapes(part: MountedPart): Shape[] {
  const open = part.bores.filter((b) => b.state === 'open')
  if (open.length === 0 && part.bodies.every((b) => b.body.effect === 'adds')) return plainShapes(part)
  const bodies = flatBodies(part)
  const levels = [...new Set([...part.bodies, ...open].flatMap((b) => [b.z0, b.z1]))].sort((a, b) => a - b)
  const near = boxOf(bodies.flatMap((b) => b.polygons))
  return bySize(
    levels.slice(1).flatMap((z1, i) => {
      const z0 = levels[i]!
      if (z1 - z0 <= TOLERANCE.height) return []
      const separated = separate(materialBetween(part, bodies, z0, z1, near))
      return separated.map(({ outline, holes }) => ({ ring: outline, holes, z0, z1 }))
    }),
  )
}

const size = (ring: Ring): number => Math.abs(signedRingMoments(ring).area)

const bySize = (shapes: readonly Shape[]): Shape[] => [...shapes].sort((a, b) => size(b.ring) - size(a.ring))

/** Its bolts as bolts through a part; the same objects for the same twin. */
export const twinBolts = keptOf((item: Twin): readonly ThroughBolt[] =>
  item.bolts.map(({ at, ...fields }, i) => ({
    ...fields,
    id: `${item.id} bolt ${i + 1}`,
    kind: 'bolt',
    throughPart: at ?? { x: 0, y: 0 },
    fixed: true,
  })),
)
