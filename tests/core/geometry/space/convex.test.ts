/** Distance and overlap of convex pieces in space against solids of manifold-3d and against brute force. */
import { describe, expect, it } from 'vitest'
import { nearestPoints } from '../../../../src-core/geometry/space/distance.ts'
import { overlapOf } from '../../../../src-core/geometry/space/depth.ts'
import { composed, poseOf } from '../../../../src-core/geometry/space/pose.ts'
import { dot3, minus3, scale3 } from '../../../../src-core/geometry/space/vector.ts'
import type { Point3 } from '../../../../src-core/geometry/types.ts'
import { expectNear } from '../../../helpers/near.ts'
import { seeded } from '../../../helpers/solids.ts'
import {
  asConvex,
  cornersOfPrism,
  hullSolid,
  randomPose,
  randomPrism,
  randomVector,
  type DrawnPrism,
} from '../../../helpers/spacePrisms.ts'

const length = (v: Point3) => Math.hypot(v.x, v.y, v.z)
const RUNS = 300

/** mm³ of both, by an independent kernel; it reckons in single precision at the end. */
function commonVolume(a: DrawnPrism, b: DrawnPrism, shift: Point3 = { x: 0, y: 0, z: 0 }): number {
  const one = hullSolid(cornersOfPrism(a))
  const two = hullSolid(cornersOfPrism(b)).translate(shift.x, shift.y, shift.z)
  const both = one.intersect(two)
  const volume = both.volume()
  for (const s of [one, two, both]) s.delete()
  return volume
}

function pairs(
  seed: number,
  reach: number,
  each: (a: DrawnPrism, b: DrawnPrism, draw: () => number) => void,
) {
  const draw = seeded(seed)
  for (let i = 0; i < RUNS; i++) each(randomPrism(draw, reach), randomPrism(draw, reach), draw)
}

const block = (x: number, y: number, z: number, half: number): DrawnPrism => ({
  polygon: [
    { x: -half, y: -half },
    { x: half, y: -half },
    { x: half, y: half },
    { x: -half, y: half },
  ],
  z0: -half,
  z1: half,
  pose: poseOf({ x, y, z }, { x: 0, y: 0, z: 1 }, { x: 1, y: 0, z: 0 }),
})

/** A block of a nanometre at a point. */
const speck = (p: Point3) => asConvex(block(p.x, p.y, p.z, 1e-6))

/** mm: within it, solids may touch for one and miss or meet for the other. */
const BAND = 1e-4

describe('two convex pieces', () => {
  it('have a volume in common just where they are not apart', () => {
    let apart = 0
    let met = 0
    pairs(1, 30, (a, b) => {
      const { distance } = nearestPoints(asConvex(a), asConvex(b))
      const { depth } = overlapOf(asConvex(a), asConvex(b))
      const volume = commonVolume(a, b)
      if (distance > BAND) {
        apart++
        expect(volume).toBe(0)
      } else if (depth > BAND) {
        met++
        expect(volume).toBeGreaterThan(0)
      }
    })
    expect(apart).toBeGreaterThan(60)
    expect(met).toBeGreaterThan(60)
  })

  it('are as far apart as the kernel says', () => {
    let seen = 0
    pairs(2, 60, (a, b) => {
      const { distance, onA, onB } = nearestPoints(asConvex(a), asConvex(b))
      if (distance === 0) return
      seen++
      const one = hullSolid(cornersOfPrism(a))
      const two = hullSolid(cornersOfPrism(b))
      expectNear(distance, one.minGap(two, 1000), { abs: 2e-4 })
      for (const s of [one, two]) s.delete()
      expectNear(length(minus3(onA, onB)), distance, { abs: 1e-9 })
    })
    expect(seen).toBeGreaterThan(150)
  })

  it('are no nearer than the plane between their nearest points keeps them', () => {
    pairs(3, 60, (a, b) => {
      const { distance, onA, onB } = nearestPoints(asConvex(a), asConvex(b))
      if (distance < 1e-6) return
      const n = scale3(minus3(onB, onA), 1 / distance)
      for (const p of cornersOfPrism(a)) expect(dot3(minus3(p, onA), n)).toBeLessThan(1e-7)
      for (const p of cornersOfPrism(b)) expect(dot3(minus3(p, onB), n)).toBeGreaterThan(-1e-7)
    })
  })

  it('share the point that is given where they meet', () => {
    pairs(4, 20, (a, b) => {
      const found = nearestPoints(asConvex(a), asConvex(b))
      if (found.distance > 0) return
      for (const prism of [a, b])
        expect(nearestPoints(asConvex(prism), speck(found.onA)).distance).toBeLessThan(1e-6)
    })
  })

  it('come clear by the depth of their overlap, and by no less in any direction', () => {
    let seen = 0
    pairs(5, 20, (a, b, draw) => {
      const { distance } = nearestPoints(asConvex(a), asConvex(b))
      if (distance > 0) return
      const { depth, way } = overlapOf(asConvex(a), asConvex(b))
      expectNear(length(way), 1, { abs: 1e-9 })
      if (depth < 0.01) return
      seen++
      const moved = (by: Point3): DrawnPrism => ({
        ...b,
        pose: {
          ...b.pose,
          origin: { x: b.pose.origin.x + by.x, y: b.pose.origin.y + by.y, z: b.pose.origin.z + by.z },
        },
      })
      const gap = (by: Point3) => nearestPoints(asConvex(a), asConvex(moved(by))).distance
      expect(gap(scale3(way, depth + 1e-6))).toBeGreaterThan(0)
      expect(gap(scale3(way, depth - 1e-6))).toBe(0)
      for (let k = 0; k < 20; k++) {
        const v = randomVector(draw)
        expect(gap(scale3(v, (depth - 1e-6) / length(v)))).toBe(0)
      }
    })
    expect(seen).toBeGreaterThan(100)
  })

  it('keep distance and depth when both are moved together or change places', () => {
    pairs(6, 40, (a, b, draw) => {
      const pose = randomPose(draw, 200)
      const moved = (p: DrawnPrism) => asConvex({ ...p, pose: composed(pose, p.pose) })
      const before = nearestPoints(asConvex(a), asConvex(b)).distance
      expectNear(nearestPoints(moved(a), moved(b)).distance, before, { abs: 1e-7 })
      expectNear(nearestPoints(asConvex(b), asConvex(a)).distance, before, { abs: 1e-8 })
      if (before > 0) return
      const { depth } = overlapOf(asConvex(a), asConvex(b))
      expectNear(overlapOf(moved(a), moved(b)).depth, depth, { abs: 1e-7 })
      expectNear(overlapOf(asConvex(b), asConvex(a)).depth, depth, { abs: 1e-7 })
    })
  })
})

describe('by hand', () => {
  it('two blocks corner to corner', () => {
    const { distance, onA } = nearestPoints(asConvex(block(0, 0, 0, 10)), asConvex(block(23, 24, 30, 10)))
    expectNear(distance, Math.sqrt(9 + 16 + 100), { abs: 1e-9 })
    expect(onA).toEqual({ x: 10, y: 10, z: 10 })
  })

  it('two blocks on their edges, crossed', () => {
    // Half a diagonal of 10√2 each; crossed edges 1 mm into each other.
    const lower = {
      ...block(0, 0, 0, 10),
      pose: poseOf({ x: 0, y: 0, z: 0 }, { x: 1, y: 0, z: 0 }, { x: 0, y: 1, z: 1 }),
    }
    const at = { x: 0, y: 0, z: 2 * 10 * Math.SQRT2 - 1 }
    const upper = { ...block(0, 0, 0, 10), pose: poseOf(at, { x: 0, y: 1, z: 0 }, { x: 1, y: 0, z: 1 }) }
    const { depth, way } = overlapOf(asConvex(lower), asConvex(upper))
    expectNear(depth, 1, { abs: 1e-9 })
    expectNear(way.z, 1, { abs: 1e-9 })
    const face = nearestPoints(
      asConvex(lower),
      asConvex({ ...upper, pose: { ...upper.pose, origin: { ...at, z: at.z + 3 } } }),
    )
    expectNear(face.distance, 2, { abs: 1e-9 })
  })

  it('one face on another touches', () => {
    const [a, b] = [asConvex(block(0, 0, 0, 10)), asConvex(block(3, 4, 20, 10))]
    expect(nearestPoints(a, b).distance).toBe(0)
    expectNear(overlapOf(a, b).depth, 0, { abs: 1e-12 })
  })
})
