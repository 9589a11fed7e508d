import type { Point } from '../geometry/types.ts'
import type { Hardware } from '../job/schema.ts'
import type { MountedPiece, MountedSolid } from './types.ts'

/** A piece of its solids. @param main the solid that is drawn and dragged for it. @param weighed kg that all of it was weighed at, or null. */
export function pieceOf(
  item: Hardware,
  at: Point,
  facing: number,
  main: MountedSolid,
  parts: readonly MountedSolid[],
  weighed: number | null,
): MountedPiece {
  const computed = parts.reduce((sum, s) => sum + s.mass, 0)
  const scale = weighed === null || computed <= 0 ? 1 : weighed / computed
  const solids = scale === 1 ? parts : parts.map((s) => ({ ...s, mass: s.mass * scale }))
  const mass = computed * scale
  const centre = { x: 0, y: 0, z: 0 }
  for (const s of solids) {
    const share = mass > 0 ? s.mass / mass : 1 / solids.length
    centre.x += share * s.massCentre.x
    centre.y += share * s.massCentre.y
    centre.z += share * s.massCentre.z
  }
  return {
    item,
    at,
    facing,
    footprint: main.ring,
    z0: main.z0,
    z1: main.z1,
    mass,
    massCentre: solids.length === 1 ? solids[0]!.massCentre : centre,
    bolt: null,
    solids,
    fastenings: [],
    toe: null,
  }
}
