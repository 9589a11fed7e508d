/** Whether a hollow round bears being pressed into its vee: its wall where it lies on a flank. */
import { directionOf, polar } from '../geometry/angles.ts'
import type { Pose } from '../geometry/space/pose.ts'
import type { Vee } from '../job/schema.ts'
import { columnAt, isSolidAt } from '../mounting/column.ts'
import { middleOfRound } from '../mounting/inVee.ts'
import type { Mounted, VeeRound } from '../mounting/types.ts'
import { BENDS_AT } from './support.ts'

/** Share of its diameter below which a wall bends as a thin ring. Own choice. */
const THIN = 1 / 6
/** mm between depths that are looked at. */
const STEP = 0.25
/** Largest bending moment in a ring of mean radius R that two opposite forces F press: F·R/π. Timoshenko, from memory. */
const RING = 1 / Math.PI

interface VeeWall {
  /** mm */
  readonly thickness: number
  /** N/mm² */
  readonly stress: number
}

/**
 * The thinnest wall over a flank, every bore cut, where what presses bends it beyond what support under a toe may; null
 * where none is. @param whole in the plate's frame. @param pose of the vee's lands. @param force N, the high side of all
 * that presses.
 */
export function thinWall(
  whole: Mounted,
  { angle }: Vee,
  pose: Pose,
  round: Extract<VeeRound, { lies: true }>,
  force: number,
): VeeWall | null {
  const { diameter, out } = round
  const middle = middleOfRound(pose, round)
  const most = THIN * diameter
  const heights = levels(whole, out)
  const walls = [-1, 1].map((side) => {
    const way = directionOf(pose.n) + 180 + side * (90 - angle / 2)
    for (let depth = STEP; depth < most; depth += STEP) {
      const off = polar(diameter / 2 - depth, way)
      const p = { x: middle.x + off.x, y: middle.y + off.y }
      const column = columnAt(whole, p, whole.bores)
      if (heights.some((z) => !isSolidAt(column, z))) return depth
    }
    return Infinity
  })
  const thickness = Math.min(...walls)
  if (!Number.isFinite(thickness)) return null
  const moment = RING * force * (diameter - thickness) * 0.5
  const stress = (6 * moment) / ((out[1] - out[0]) * thickness ** 2)
  return stress > BENDS_AT ? { thickness, stress } : null
}

/** Middle heights of what begins and ends between two heights. */
function levels({ bodies, turned, bores }: Mounted, [from, to]: readonly [number, number]): number[] {
  const marks = [...bodies, ...turned, ...bores]
    .flatMap((b) => [b.z0, b.z1])
    .filter((z) => z > from && z < to)
  const all = [from, ...marks, to].sort((a, b) => a - b)
  return all.slice(1).map((z, i) => (z + all[i]!) / 2)
}
