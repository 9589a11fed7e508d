/** Angle plates and vees as the solids they are made of. Bolt holes and slots are left in, as in other blocks. */
import { keptLast } from '../geometry/kept.ts'
import { rectRing } from '../geometry/edges.ts'
import { facingPose } from '../geometry/space/facing.ts'
import { centreOf, ringMoments } from '../geometry/ringMoments.ts'
import type { Point, Ring } from '../geometry/types.ts'
import { STEEL_PER_MM3 } from '../hardware/steel.ts'
import { veeDepth } from '../job/fixtureFaults.ts'
import type { AnglePlate, Plate, Shelf, Vee } from '../job/schema.ts'
import { fasten } from './fastening.ts'
import { stationOver } from './fixtures.ts'
import { lyingSolid } from './lying.ts'
import { pieceOf } from './piece.ts'
import { placePoint } from './place.ts'
import { stationPoint } from './station.ts'
import type { MountedPiece, MountedSolid } from './types.ts'

const perMm3 = ({ density }: Shelf): number => (density ? density * 1e-9 : STEEL_PER_MM3)

/** An outline in plan, x along `facing` and y along the shelf from the station, between two heights over the plate. */
function upright(item: Shelf, at: Point, outline: Ring, z0: number, z1: number): MountedSolid {
  const frame = { turn: item.facing, ...at }
  const ring = outline.map((p) => placePoint(frame, p))
  const m = ringMoments(ring, at)
  return {
    role: 'fixture',
    ring,
    z0,
    z1,
    mass: m.area * (z1 - z0) * perMm3(item),
    massCentre: { ...centreOf(m, at), z: (z0 + z1) / 2 },
  }
}

/** From x0 to x1 along `facing`, `along` wide. */
const strip = (x0: number, x1: number, along: number): Ring =>
  rectRing({ x: (x0 + x1) / 2, y: 0 }, x1 - x0, along, 0)

function angleSolids(item: AnglePlate, at: Point): MountedSolid[] {
  const [along, foot, out] = item.size
  const { thickness } = item
  return [
    upright(item, at, strip(-foot, 0, along), 0, thickness),
    upright(item, at, strip(-thickness, 0, along), thickness, out),
    ...webPlaces(item).map(({ middle }) => web(item, at, middle)),
  ]
}

/** Where webs stand along the shelf from its middle, mm; the outermost flush with the ends. */
export function webPlaces({
  size: [along],
  webs: { count, thickness },
}: Pick<AnglePlate, 'size' | 'webs'>): { readonly middle: number; readonly thickness: number }[] {
  const room = along - thickness
  return Array.from({ length: count }, (_, i) => ({
    middle: count === 1 ? 0 : room * (i / (count - 1) - 1 / 2),
    thickness,
  }))
}

/** A triangle in the corner between foot and shelf. */
function web(item: AnglePlate, at: Point, middle: number): MountedSolid {
  const [, foot, out] = item.size
  const { thickness, webs } = item
  // Its u points away from the shelf's face, its n along the shelf.
  const pose = facingPose(placePoint({ turn: item.facing, ...at }, { x: 0, y: middle }), item.facing + 90)
  const corner: Ring = [
    { x: thickness, y: thickness },
    { x: foot, y: thickness },
    { x: thickness, y: out },
  ]
  return lyingSolid('fixture', pose, corner, -webs.thickness / 2, webs.thickness / 2, perMm3(item))
}

/** @param at in plan where the middle between its lands stands. @param z0 of the end that looks to the plate. */
export function veeSolids(item: Vee, at: Point, z0 = 0): MountedSolid[] {
  const [across, deep, out] = item.size
  const { foot, opening } = item
  const [side, mouth] = [across / 2, opening / 2]
  const block: Ring = [
    { x: 0, y: -side },
    { x: 0, y: -mouth },
    { x: -veeDepth(item), y: 0 },
    { x: 0, y: mouth },
    { x: 0, y: side },
    { x: -deep, y: side },
    { x: -deep, y: -side },
  ]
  return [
    upright(item, at, block, z0, z0 + out),
    ...(foot.length > 0
      ? [upright(item, at, strip(-deep - foot.length, -deep, across), z0, z0 + foot.thickness)]
      : []),
  ]
}

/** mm from the plate's face to that of its foot, which washers press on. */
export const footFace = (item: Shelf): number =>
  item.kind === 'anglePlate' ? item.thickness : item.foot.length > 0 ? item.foot.thickness : item.size[2]

/** Its own solids with the mass that it was weighed at, if it was. */
export function asWeighed({ mass }: Shelf, own: readonly MountedSolid[]): MountedSolid[] {
  const solid = own.reduce((sum, s) => sum + s.mass, 0)
  return own.map((s) => ({ ...s, mass: mass ? (s.mass * mass) / solid : s.mass }))
}

const mounted = keptLast<Shelf, MountedPiece>()

/** With the bolts that hold it; kept as long as it and the plate are the same. */
export const mountShelf = (plate: Plate, item: Shelf): MountedPiece =>
  mounted(item, [plate], () => standing(plate, item))

function standing(plate: Plate, item: Shelf): MountedPiece {
  const at = stationPoint(plate, item.at, [])
  const body = item.kind === 'anglePlate' ? angleSolids(item, at) : veeSolids(item, at)
  const bolts = item.bolts.map((bolt) => {
    const point = placePoint({ turn: item.facing, ...at }, bolt.at ?? { x: 0, y: 0 })
    return fasten(plate, stationOver(plate, point), point, bolt, footFace(item))
  })
  const own = asWeighed(item, body)
  const whole = pieceOf(item, at, item.facing, own[0]!, [...own, ...bolts.flatMap((b) => b.solids)], null)
  return {
    ...whole,
    z1: Math.max(...own.map((s) => s.z1)),
    fastenings: bolts.map((b) => b.fastening),
  }
}
