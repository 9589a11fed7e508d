/** A piece of hardware where it stands, as the solids it is made of. */
import { centreOf, regionMoments, ringCentre, ringMoments } from '../geometry/ringMoments.ts'
import { circleRing } from '../geometry/edges.ts'
import { polar } from '../geometry/angles.ts'
import type { Point, Ring } from '../geometry/types.ts'
import { STEEL_PER_MM3 } from '../hardware/steel.ts'
import { threadDiameter } from '../hardware/threads.ts'
import type {
  Box,
  Dowel,
  Fixture,
  Footprint,
  Hardware,
  Plate,
  StopBlock,
  ThroughBolt,
  Weight,
} from '../job/schema.ts'
import { mountClamp, steelBlock } from './clamp.ts'
import { tappedFace, type Bench } from './bench.ts'
import { fasten } from './fastening.ts'
import { fixtureOpenings, groundAt, stationOver } from './fixtures.ts'
import { pieceOf } from './piece.ts'
import { placePoint } from './place.ts'
import { mountShelf } from './shelfSolids.ts'
import { boltThrough, mountTwin } from './twin.ts'
import { facingOf, footprintRing, stationPoint } from './station.ts'
import type { Bolt, MountedPiece, MountedSolid } from './types.ts'

/** Any piece of hardware in the frame of the bench's plate. Throws RangeError on an unknown station. */
export function mountPiece(bench: Bench, item: Hardware): MountedPiece {
  const { plate } = bench.job
  const { hardware } = bench.setup
  switch (item.kind) {
    case 'clamp':
      return mountClamp(bench, item)
    case 'weight':
      return mountWeight(bench, item)
    case 'bolt':
      return mountBolt(bench, item)
    case 'stop':
      return mountStop(bench, item)
    case 'dowel':
      return mountDowel(plate, item, hardware)
    case 'fixture':
      return mountFixture(plate, item)
    case 'anglePlate':
    case 'vee':
      return mountShelf(plate, item)
    case 'twin':
      return mountTwin(bench, item)
    case 'packing':
    case 'bracket':
    case 'counterweight':
    case 'press':
    case 'other':
      return mountBox(plate, item, hardware)
  }
}

function mountBox(plate: Plate, item: Box, hardware: readonly Hardware[]): MountedPiece {
  const at = stationPoint(plate, item.at, hardware)
  const facing = facingOf(plate, item, hardware)
  const ring = footprintRing(item.footprint, at, facing)
  const plan = item.massCentre
    ? placePoint({ turn: facing, x: at.x, y: at.y }, item.massCentre)
    : footprintCentre(item.footprint, ring, at)
  const block: MountedSolid = {
    role: item.kind === 'packing' ? 'packing' : 'block',
    ring,
    z0: item.base,
    z1: item.base + item.height,
    mass: item.mass,
    massCentre: { ...plan, z: item.base + (item.massCentre?.z ?? item.height / 2) },
  }
  // Its bolts are in the box's own mass.
  const fastenings = (item.held ?? []).map((held) => {
    const point = placePoint({ turn: facing, x: at.x, y: at.y }, held.at ?? { x: 0, y: 0 })
    return fasten(plate, item.at, point, held, block.z1).fastening
  })
  return { ...pieceOf(item, at, facing, block, [block], null), bolt: boltOf(plate, item, at), fastenings }
}

function footprintCentre(footprint: Footprint, ring: Ring, at: Point): Point {
  return 'outline' in footprint ? ringCentre(ring, at) : at
}

/** Packing lies loose; every other box is bolted: through its slot's width, its hole, or its thread. */
function boltOf(plate: Plate, item: Box, at: Point): Bolt | null {
  if (item.kind === 'packing') return null
  const named = item.held?.[0]?.stud.thread ?? item.press?.thread
  const thread = named ? threadDiameter(named) : null
  if (thread !== null) return { at, diameter: thread }
  const where = item.at
  if ('slot' in where) return { at, diameter: plate.slots.find((s) => s.id === where.slot)?.width ?? 0 }
  if ('on' in where) return null
  if ('hole' in where) return { at, diameter: plate.holes.find((h) => h.id === where.hole)?.diameter ?? 0 }
  return null
}

/** The stack as it lies, undermost first. */
function mountWeight(bench: Bench, item: Weight): MountedPiece {
  const { job } = bench
  const { hardware } = bench.setup
  const at = stationPoint(job.plate, item.at, hardware)
  const facing = facingOf(job.plate, item, hardware)
  const ground = groundAt(hardware, item.at)
  let z = ground
  const stack = item.stack.flatMap(({ stock, count }): MountedSolid[] => {
    const piece = job.stock.find((s) => s.id === stock)
    if (!piece) return []
    const z0 = z
    z += piece.height * count
    const ring = footprintRing(piece.footprint, at, facing)
    const plan = footprintCentre(piece.footprint, ring, at)
    const massCentre = { ...plan, z: (z0 + z) / 2 }
    return [{ role: 'weight', ring, z0, z1: z, mass: piece.mass * count, massCentre }]
  })
  const { fastening, solids } = fasten(job.plate, item.at, at, item, z, tappedFace(bench, at))
  const all = [...stack, ...solids]
  const mounted = pieceOf(item, at, facing, widest(stack) ?? all[0]!, all, null)
  const diameter = fastening.thread?.diameter ?? 0
  return { ...mounted, z0: ground, z1: z, bolt: { at, diameter }, fastenings: [fastening] }
}

function widest(solids: readonly MountedSolid[]): MountedSolid | null {
  const size = (s: MountedSolid) => Math.abs(ringMoments(s.ring).area)
  return solids.reduce<MountedSolid | null>((a, b) => (a && size(a) >= size(b) ? a : b), null)
}

function mountBolt(bench: Bench, item: ThroughBolt): MountedPiece {
  const { part, front } = bench
  const at = placePoint(part.placement, item.throughPart)
  const { fastening, solids } = boltThrough(bench, { ...part, front }, item, at)
  const washers = solids.find((s) => s.role === 'washer')!
  const mounted = pieceOf(item, at, 0, washers, solids, null)
  return { ...mounted, bolt: { at, diameter: fastening.thread?.diameter ?? 0 }, fastenings: [fastening] }
}

function mountStop(bench: Bench, item: StopBlock): MountedPiece {
  const { plate } = bench.job
  const bolt = stationPoint(plate, item.at, bench.setup.hardware)
  const ground = groundAt(bench.setup.hardware, item.at)
  const [length, width, height] = item.size
  const forward = polar((item.boltFrom ?? length / 2) - length / 2, item.facing)
  const at = { x: bolt.x + forward.x, y: bolt.y + forward.y }
  const block = steelBlock('block', at, [length, width], item.facing, ground, ground + height)
  const { fastening, solids } = fasten(plate, item.at, bolt, item, ground + height, tappedFace(bench, bolt))
  const mounted = pieceOf(item, bolt, item.facing, block, [block, ...solids], null)
  const diameter = fastening.thread?.diameter ?? 0
  return { ...mounted, bolt: { at: bolt, diameter }, fastenings: [fastening] }
}

/** A pin through the plate. */
function mountDowel(plate: Plate, item: Dowel, hardware: readonly Hardware[]): MountedPiece {
  const at = stationPoint(plate, item.at, hardware)
  const whole = item.length + plate.thickness
  const pin: MountedSolid = {
    role: 'dowel',
    ring: circleRing(at, item.diameter),
    z0: -plate.thickness,
    z1: item.length,
    mass: (Math.PI / 4) * item.diameter ** 2 * whole * STEEL_PER_MM3,
    massCentre: { ...at, z: item.length - whole / 2 },
  }
  return { ...pieceOf(item, at, 0, pin, [pin], null), bolt: { at, diameter: item.diameter } }
}

/** A sub-plate flat on the plate, with the bolts that hold it; holes for those are left in, as in other blocks. */
function mountFixture(plate: Plate, item: Fixture): MountedPiece {
  const at = stationPoint(plate, item.at, [])
  const facing = facingOf(plate, item, [])
  const ring = footprintRing(item.footprint, at, facing)
  const holes = fixtureOpenings(plate, item)
  const m = regionMoments({ outline: ring, holes }, at)
  const volume = Math.max(0, m.area) * item.thickness
  const body: MountedSolid = {
    role: 'fixture',
    ring,
    holes,
    z0: 0,
    z1: item.thickness,
    mass: item.mass ?? volume * (item.density ? item.density * 1e-9 : STEEL_PER_MM3),
    massCentre: { ...centreOf(m, at), z: item.thickness / 2 },
  }
  const bolts = item.bolts.map((bolt) => {
    const point = placePoint({ turn: facing, x: at.x, y: at.y }, bolt.at ?? { x: 0, y: 0 })
    return fasten(
      plate,
      stationOver(plate, point),
      point,
      bolt,
      Math.max(0, item.thickness - (bolt.sunk ?? 0)),
    )
  })
  const solids = [body, ...bolts.flatMap((b) => b.solids)]
  return { ...pieceOf(item, at, facing, body, solids, null), fastenings: bolts.map((b) => b.fastening) }
}
