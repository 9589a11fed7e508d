/** A clamp as the solids it is made of: what its toe meets decides its height. */
import { polar, toDegrees } from '../geometry/angles.ts'
import { rectRing } from '../geometry/edges.ts'
import type { Point } from '../geometry/types.ts'
import { heelDistance, toeLength } from '../hardware/toe.ts'
import { strapVolume } from '../hardware/straps.ts'
import { STEEL_PER_MM3 } from '../hardware/steel.ts'
import type { Clamp } from '../job/schema.ts'
import { fasten } from './fastening.ts'
import { groundAt } from './fixtures.ts'
import { tappedFace, type Bench } from './bench.ts'
import { restOn, ringPolygons } from './material.ts'
import { pieceOf } from './piece.ts'
import { stationPoint } from './station.ts'
import type { MountedPiece, MountedSolid, MountedToe } from './types.ts'

/** A block of steel, upright, its length along `facing`. */
export function steelBlock(
  role: MountedSolid['role'],
  at: Point,
  size: readonly [number, number],
  facing: number,
  z0: number,
  z1: number,
): MountedSolid {
  return {
    role,
    ring: rectRing(at, size[0], size[1], facing),
    z0,
    z1,
    mass: size[0] * size[1] * (z1 - z0) * STEEL_PER_MM3,
    massCentre: { ...at, z: (z0 + z1) / 2 },
  }
}

export function mountClamp(bench: Bench, item: Clamp): MountedPiece {
  const { part, seat, front } = bench
  const { plate } = bench.job
  const { hardware } = bench.setup
  const bolt = stationPoint(plate, item.at, hardware)
  const ground = groundAt(hardware, item.at)
  const { strap, heel, facing } = item
  const along = (by: number): Point => {
    const step = polar(by, facing)
    return { x: bolt.x + step.x, y: bolt.y + step.y }
  }
  const bearing = toeLength(strap)
  const at = along(strap.boltFrom - bearing / 2)
  const pad = rectRing(at, bearing, strap.width, facing)
  const rest = restOn(part, ringPolygons(pad))
  const given = typeof heel?.height === 'number' ? heel.height : null
  const under = rest?.z ?? (given === null ? front : ground + given)
  const toHeel = heel ? heelDistance(strap, heel) : null
  const height = heel?.height === 'suit' ? Math.max(0, under - ground) : given
  const rise = height === null ? 0 : ground + height - under
  const toe: MountedToe = {
    at,
    pad,
    rest,
    toWork: strap.boltFrom,
    toHeel,
    ground,
    heel: height,
    tilt: toHeel === null ? 0 : toDegrees(Math.atan2(rise, strap.boltFrom + toHeel)),
  }
  // The strap lies level for clashes; a heel that stands higher lifts its upper side.
  const top = under + strap.thickness + Math.max(0, rise)
  const middle = along(strap.boltFrom - strap.length / 2)
  const bar: MountedSolid = {
    role: 'strap',
    ring: rectRing(middle, strap.length, strap.width, facing),
    z0: under,
    z1: top,
    mass: strapVolume(strap) * STEEL_PER_MM3,
    massCentre: { ...middle, z: (under + top) / 2 },
  }
  const solids: MountedSolid[] = [bar]
  if (heel && toHeel !== null && height !== null && height > 0)
    solids.push(steelBlock('heel', along(-toHeel), heel.size, facing, ground, ground + height))
  if (item.packing && seat > bench.ground)
    solids.push(steelBlock('packing', at, item.packing.size, facing, bench.ground, seat))
  // At the bolt the strap has part of the heel's rise.
  const fastened = fasten(plate, item.at, bolt, item, top, tappedFace(bench, bolt))
  solids.push(...fastened.solids)
  const mounted = pieceOf(item, bolt, facing, bar, solids, item.mass ?? null)
  return {
    ...mounted,
    bolt: { at: bolt, diameter: fastened.fastening.thread?.diameter ?? strap.opening },
    fastenings: [fastened.fastening],
    toe,
  }
}
