/** What solids cover in plan between two heights, and from the side, against manifold-3d. */
import { describe, expect, test } from 'vitest'
import { circleRing, rectRing } from '../../../../src-core/geometry/edges.ts'
import { polygonArea, polygonUnion } from '../../../../src-core/geometry/polygon.ts'
import type { Polygons } from '../../../../src-core/geometry/polygonBox.ts'
import { poseOf, type Pose } from '../../../../src-core/geometry/space/pose.ts'
import { planBetween, seenAlong } from '../../../../src-core/geometry/space/shadow.ts'
import { SpaceSolid } from '../../../../src-core/geometry/space/solid.ts'
import type { Region } from '../../../../src-core/geometry/types.ts'
import { manifoldPrism } from '../../../helpers/peers.ts'
import { expectNear } from '../../../helpers/near.ts'
import { seeded, type Manifold } from '../../../helpers/solids.ts'

const areaOf = (polygons: readonly Polygons[number][]): number =>
  polygonArea(polygons.reduce<Polygons>((all, p) => polygonUnion(all, [p]), []))

/** As a prism of manifold-3d in the same pose. */
function inPose(region: Region, z0: number, z1: number, { u, v, n, origin: o }: Pose): Manifold {
  const { x, y, z } = o
  return manifoldPrism(region, z0, z1).transform([
    ...[u.x, u.y, u.z, 0, v.x, v.y, v.z, 0],
    ...[n.x, n.y, n.z, 0, x, y, z, 1],
  ] as unknown as Parameters<Manifold['transform']>[0])
}

/** Its shadow in plan between two heights. */
function shadowArea(solid: Manifold, from: number, to: number): number {
  const slice = solid.trimByPlane([0, 0, 1], from).trimByPlane([0, 0, -1], -to)
  return slice.isEmpty() ? 0 : slice.project().area()
}

const L: Region = {
  outline: [
    { x: 0, y: 0 },
    { x: 40, y: 0 },
    { x: 40, y: 12 },
    { x: 14, y: 12 },
    { x: 5, y: 50 },
    { x: 0, y: 50 },
  ],
  holes: [rectRing({ x: 7, y: 6 }, 4, 4, 20)],
}
const ROUND: Region = { outline: circleRing({ x: 3, y: 4 }, 36), holes: [circleRing({ x: 3, y: 4 }, 20)] }

describe('in plan between two heights', () => {
  const random = seeded(7)
  const between = (low: number, high: number) => low + (high - low) * random()
  const cases = Array.from({ length: 40 }, (_, i) => {
    const direction = () => ({ x: between(-1, 1), y: between(-1, 1), z: between(-1, 1) })
    const pose = poseOf(
      { x: between(-20, 20), y: between(-20, 20), z: between(-20, 20) },
      direction(),
      direction(),
    )
    const from = between(-40, 30)
    return { i, pose, z0: between(-10, 0), z1: between(3, 25), from, to: from + between(1, 40) }
  })
  test.each(cases)('what has straight sides, exactly: $i', ({ pose, z0, z1, from, to }) => {
    const own = planBetween(new SpaceSolid([L], z0, z1, pose).pieces, from, to)
    expectNear(areaOf(own), shadowArea(inPose(L, z0, z1, pose), from, to), { abs: 0.02 })
  })
  test.each(cases.slice(0, 15))('what is round, never less than it is: $i', ({ pose, z0, z1, from, to }) => {
    const own = areaOf(planBetween(new SpaceSolid([ROUND], z0, z1, pose).pieces, from, to))
    const truth = shadowArea(inPose(ROUND, z0, z1, pose), from, to)
    expect(own).toBeGreaterThanOrEqual(truth - 0.02)
    expect(own).toBeLessThanOrEqual(truth * 1.05 + 12)
  })
})

test('nothing where no more than a face or an edge is between', () => {
  const upright = poseOf({ x: 0, y: 0, z: 0 }, { x: 0, y: 1, z: 0 }, { x: 1, y: 0, z: 0 })
  const { pieces, box } = new SpaceSolid(
    [{ outline: rectRing({ x: 0, y: 0 }, 20, 10, 0), holes: [] }],
    0,
    5,
    upright,
  )
  expect(areaOf(planBetween(pieces, box.high.z + 1e-6, 100))).toBe(0)
  expect(areaOf(planBetween(pieces, -100, 100))).toBeCloseTo(20 * 5, 9)
  expect(areaOf(planBetween(pieces, box.low.z, box.low.z))).toBeCloseTo(20 * 5, 9)
})

test('from the side', () => {
  const pose = poseOf({ x: 1, y: 2, z: 3 }, { x: 0.3, y: 1, z: 0.2 }, { x: 1, y: 0, z: 0.1 })
  const seen = seenAlong(new SpaceSolid([L], 0, 10, pose).pieces, { x: 0, y: 0, z: 1 }, { x: 0, y: 1, z: 0 })
  // Turned so that x points at the eye.
  const turned = inPose(L, 0, 10, pose).rotate(0, -90, 0)
  expectNear(areaOf(seen), turned.project().area(), { abs: 0.02 })
})
