/** Prisms in any pose, drawn at random, and the same as solids of manifold-3d. */
import { convexHull } from '../../src-core/geometry/convexHull.ts'
import { convexPrism, type Convex } from '../../src-core/geometry/space/convex.ts'
import { outOf, poseOf, type Pose } from '../../src-core/geometry/space/pose.ts'
import type { Point, Point3 } from '../../src-core/geometry/types.ts'
import { Solid, type Manifold } from './solids.ts'

type Draw = () => number
const within = (draw: Draw, low: number, high: number) => low + (high - low) * draw()

export const randomVector = (draw: Draw): Point3 => {
  for (;;) {
    const v = { x: within(draw, -1, 1), y: within(draw, -1, 1), z: within(draw, -1, 1) }
    const square = v.x * v.x + v.y * v.y + v.z * v.z
    if (square > 0.05 && square < 1) return v
  }
}

/** Now and then with the axes, so that sides lie in one plane or edges run one way. */
export function randomPose(draw: Draw, reach: number): Pose {
  const origin = {
    x: within(draw, -reach, reach),
    y: within(draw, -reach, reach),
    z: within(draw, -reach, reach),
  }
  if (draw() < 0.7) return poseOf(origin, randomVector(draw), randomVector(draw))
  const axis = (k: number) => ({ x: +(k === 0), y: +(k === 1), z: +(k === 2) })
  const k = Math.floor(3 * draw())
  return poseOf(
    { x: Math.round(origin.x), y: Math.round(origin.y), z: Math.round(origin.z) },
    axis(k),
    axis((k + 1) % 3),
  )
}

export interface DrawnPrism {
  readonly polygon: readonly Point[]
  readonly z0: number
  readonly z1: number
  readonly pose: Pose
}

export function randomPrism(draw: Draw, reach: number): DrawnPrism {
  const size = () => Math.round(within(draw, 3, 30))
  const [w, h] = [size(), size()]
  const block = [
    { x: -w, y: -h },
    { x: w, y: -h },
    { x: w, y: h },
    { x: -w, y: h },
  ]
  const any = Array.from({ length: 12 }, () => ({ x: within(draw, -w, w), y: within(draw, -h, h) }))
  return { polygon: draw() < 0.5 ? block : convexHull(any), z0: 0, z1: size(), pose: randomPose(draw, reach) }
}

export const asConvex = ({ polygon, z0, z1, pose }: DrawnPrism): Convex => convexPrism(polygon, z0, z1, pose)

export const cornersOfPrism = ({ polygon, z0, z1, pose }: DrawnPrism): Point3[] =>
  [z0, z1].flatMap((z) => polygon.map(({ x, y }) => outOf(pose, { x, y, z })))

export const hullSolid = (corners: readonly Point3[]): Manifold =>
  Solid.hull(corners.map(({ x, y, z }) => [x, y, z]))
