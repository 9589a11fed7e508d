/** Solids in space against manifold-3d: their pieces, where they clash, how far they are apart and how far they reach. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { circleRing } from '../../../../src-core/geometry/edges.ts'
import { polygonArea, polygonDifference, polygonUnion } from '../../../../src-core/geometry/polygon.ts'
import { flattenRegion } from '../../../../src-core/geometry/flatten.ts'
import { distanceToRegion } from '../../../../src-core/geometry/nearest.ts'
import { convexParts } from '../../../../src-core/geometry/space/convexParts.ts'
import { regionOutward } from '../../../../src-core/geometry/space/outward.ts'
import { composed, outOf, poseOf, UPRIGHT, type Pose } from '../../../../src-core/geometry/space/pose.ts'
import { farthestReach } from '../../../../src-core/geometry/space/reach.ts'
import { clashOf, gapBetween, SpaceSolid } from '../../../../src-core/geometry/space/solid.ts'
import { cross3, dot3, minus3 } from '../../../../src-core/geometry/space/vector.ts'
import { TOLERANCE } from '../../../../src-core/geometry/tolerance.ts'
import type { Region, Ring } from '../../../../src-core/geometry/types.ts'
import { reversed, scaled, starRing } from '../../../helpers/arbitraries.ts'
import { expectNear } from '../../../helpers/near.ts'
import { manifoldPrism } from '../../../helpers/peers.ts'
import { meshOf, seeded, type Manifold } from '../../../helpers/solids.ts'
import { randomPose } from '../../../helpers/spacePrisms.ts'

/** mm: chords of what solids are compared with. */
const FINE = 1e-3

/** mm: the kernel's own chords, which leave material out of discs and add some to bores. */
const KERNEL_CHORD = 0.01

const regionOf: fc.Arbitrary<Region> = fc
  .tuple(starRing(), fc.integer({ min: 10, max: 85 }), fc.boolean(), fc.boolean())
  .map(([outline, share, flip, holed]) => {
    const hole = scaled(outline, share / 100)
    return { outline: flip ? reversed(outline) : outline, holes: holed ? [hole] : [] }
  })

describe('convex parts of an outline', () => {
  it('leave nothing out and add no more than the tolerance', () => {
    fc.assert(
      fc.property(regionOf, (region) => {
        const tolerance = 0.05
        const parts = convexParts(regionOutward(region, tolerance))
        const left = polygonDifference(flattenRegion(region, FINE), polygonUnion(parts, []))
        // No more than the chords leave out of the holes.
        expect(polygonArea(left)).toBeLessThan(FINE * 1000)
        for (const p of parts.flat()) expect(distanceToRegion(region, p)).toBeLessThan(tolerance + 1e-5)
      }),
      { numRuns: 60 },
    )
  })

  it('are convex, counter-clockwise and lie side by side', () => {
    fc.assert(
      fc.property(regionOf, (region) => {
        const rings = regionOutward(region, 0.05)
        const parts = convexParts(rings)
        for (const part of parts)
          part.forEach((p, i) => {
            const q = part[(i + 1) % part.length]!
            const r = part[(i + 2) % part.length]!
            expect((q.x - p.x) * (r.y - q.y) - (q.y - p.y) * (r.x - q.x)).toBeGreaterThan(-1e-6)
          })
        const sum = parts.reduce((s, p) => s + polygonArea([p]), 0)
        expectNear(sum, polygonArea(polygonUnion(rings, [])), { rel: 1e-6, abs: 1e-3 })
      }),
    )
  })

  it('are one of a disc and few of a plate with a bore', () => {
    const disc = { outline: circleRing({ x: 3, y: 4 }, 80), holes: [] }
    expect(convexParts(regionOutward(disc, 0.02))).toHaveLength(1)
    const bored = { outline: disc.outline, holes: [circleRing({ x: 3, y: 4 }, 30)] }
    expect(convexParts(regionOutward(bored, 0.02)).length).toBeLessThan(80)
  })
})

interface Drawn {
  readonly region: Region
  readonly z1: number
  readonly pose: Pose
}

const block = (w: number, h: number): Ring => [
  { x: -w, y: -h },
  { x: w, y: -h },
  { x: w, y: h },
  { x: -w, y: h },
]

/** A block, an angle, a disc, a ring or a bored plate, in any pose. */
function drawn(draw: () => number, reach: number): Drawn {
  const size = () => 4 + Math.round(26 * draw())
  const [w, h] = [size(), size()]
  const bore = circleRing({ x: 0, y: 0 }, Math.min(w, h))
  const angle: Ring = [
    { x: 0, y: 0 },
    { x: 2 * w, y: 0 },
    { x: 2 * w, y: 5, bulge: -0.1 },
    { x: 5, y: 2 * h },
    { x: 0, y: 2 * h },
  ]
  const regions: readonly Region[] = [
    { outline: block(w, h), holes: [] },
    { outline: angle, holes: [] },
    { outline: circleRing({ x: 2, y: -1 }, 2 * w), holes: [] },
    { outline: circleRing({ x: 0, y: 0 }, 2 * w), holes: [circleRing({ x: 0, y: 0 }, w)] },
    { outline: block(w, h), holes: [bore] },
  ]
  const region = regions[Math.floor(regions.length * draw())]!
  return { region, z1: size(), pose: randomPose(draw, reach) }
}

const solidOf = ({ region, z1, pose }: Drawn) => new SpaceSolid([region], 0, z1, pose)

/** The same by the kernel. */
function kernelSolid({ region, z1, pose: { origin: o, u, v, n } }: Drawn): Manifold {
  const flat = manifoldPrism(region, 0, z1, KERNEL_CHORD)
  const placed = flat.transform([u.x, u.y, u.z, 0, v.x, v.y, v.z, 0, n.x, n.y, n.z, 0, o.x, o.y, o.z, 1])
  flat.delete()
  return placed
}

describe('two solids in space', () => {
  it('clash only where the kernel finds a volume in common, and wherever that has some depth', () => {
    const draw = seeded(21)
    let clashed = 0
    let clear = 0
    for (let i = 0; i < 250; i++) {
      const [a, b] = [drawn(draw, 30), drawn(draw, 30)]
      const [one, two] = [kernelSolid(a), kernelSolid(b)]
      const both = one.intersect(two)
      const common = both.volume()
      const clash = clashOf(solidOf(a), solidOf(b))
      if (clash) {
        clashed++
        expect(common, `pair ${i}`).toBeGreaterThan(0)
        expect(clash.depth).toBeGreaterThan(0)
      } else {
        // What is in common lies in a skin: moved apart along no more than a fraction of a millimetre it is gone.
        clear++
        expect(thickness(both), `pair ${i}`).toBeLessThan(4 * TOLERANCE.clashDepth)
      }
      for (const s of [one, two, both]) s.delete()
    }
    expect(clashed).toBeGreaterThan(60)
    expect(clear).toBeGreaterThan(40)
  })

  it('are as far apart as the kernel says, less what is drawn around arcs', () => {
    const draw = seeded(22)
    let seen = 0
    for (let i = 0; i < 120; i++) {
      const [a, b] = [drawn(draw, 80), drawn(draw, 80)]
      const { distance } = gapBetween(solidOf(a), solidOf(b))
      if (distance === 0) continue
      seen++
      const [one, two] = [kernelSolid(a), kernelSolid(b)]
      const gap = one.minGap(two, 1000)
      expect(distance).toBeLessThan(gap + 2.1 * KERNEL_CHORD)
      expect(distance).toBeGreaterThan(gap - 2.1 * (TOLERANCE.spaceChord + KERNEL_CHORD))
      for (const s of [one, two]) s.delete()
    }
    expect(seen).toBeGreaterThan(60)
  })

  it('clash as deep when both are moved together or change places', () => {
    const draw = seeded(23)
    for (let i = 0; i < 200; i++) {
      const [a, b] = [drawn(draw, 35), drawn(draw, 35)]
      const pose = randomPose(draw, 200)
      const moved = (d: Drawn) => solidOf({ ...d, pose: composed(pose, d.pose) })
      const before = clashOf(solidOf(a), solidOf(b))
      const after = clashOf(moved(a), moved(b))
      const turned = clashOf(solidOf(b), solidOf(a))
      expect([!!after, !!turned]).toEqual([!!before, !!before])
      if (!before) continue
      expectNear(after!.depth, before.depth, { abs: 1e-6 })
      expectNear(turned!.depth, before.depth, { abs: 1e-6 })
      const at = outOf(pose, before.at)
      expectNear(Math.hypot(at.x - after!.at.x, at.y - after!.at.y, at.z - after!.at.z), 0, { abs: 1e-5 })
    }
  })

  it('touch without a clash: face on face, a peg in its hole, a shim of a twentieth', () => {
    const plate = {
      region: { outline: block(40, 30), holes: [circleRing({ x: 5, y: 5 }, 20)] },
      z1: 12,
      pose: UPRIGHT,
    }
    const turn = poseOf({ x: 3, y: -7, z: 40 }, { x: 1, y: 2, z: 3 }, { x: 0, y: 0, z: 1 })
    const at = (z: number, d: Omit<Drawn, 'pose'>) =>
      solidOf({ ...d, pose: composed(turn, { ...UPRIGHT, origin: { x: 0, y: 0, z } }) })
    const tilted = at(0, plate)
    const peg = { region: { outline: circleRing({ x: 5, y: 5 }, 20), holes: [] }, z1: 12 }
    expect(clashOf(tilted, at(12, { region: { outline: block(9, 9), holes: [] }, z1: 5 }))).toBeNull()
    expect(clashOf(tilted, at(2, peg))).toBeNull()
    expect(
      clashOf(tilted, at(-1, { ...peg, region: { outline: circleRing({ x: 5, y: 5 }, 20.5), holes: [] } })),
    ).not.toBeNull()
    expect(clashOf(tilted, at(12, { region: { outline: block(9, 9), holes: [] }, z1: 0.05 }))).toBeNull()
    expect(clashOf(tilted, at(11.8, { region: { outline: block(40, 30), holes: [] }, z1: 5 }))).not.toBeNull()
  })
})

/** mm of the thinnest slab that holds a solid, of many directions and its own sides' normals. */
function thickness(solid: Manifold): number {
  if (solid.isEmpty()) return 0
  const { vertices, triangles } = meshOf(solid)
  const at = (i: number) => ({ x: vertices[3 * i]!, y: vertices[3 * i + 1]!, z: vertices[3 * i + 2]! })
  let least = Infinity
  for (let t = 0; t < triangles.length; t += 3) {
    const [p, q, r] = [at(triangles[t]!), at(triangles[t + 1]!), at(triangles[t + 2]!)]
    const n = cross3(minus3(q, p), minus3(r, p))
    const length = Math.hypot(n.x, n.y, n.z)
    if (length < 1e-9) continue
    let [low, high] = [Infinity, -Infinity]
    for (let i = 0; i < vertices.length / 3; i++) {
      const d = dot3(at(i), n) / length
      low = Math.min(low, d)
      high = Math.max(high, d)
    }
    least = Math.min(least, high - low)
  }
  return least
}

describe('how far a solid reaches from the axis', () => {
  it('as the kernel cuts it between two heights', () => {
    const draw = seeded(31)
    let seen = 0
    for (let i = 0; i < 300; i++) {
      const a = drawn(draw, 60)
      const from = -60 + 120 * draw()
      const to = from + 20 * draw()
      const reach = farthestReach(solidOf(a).pieces, from, to)
      const solid = kernelSolid(a)
      const above = solid.trimByPlane([0, 0, 1], from)
      const slab = above.trimByPlane([0, 0, -1], -to)
      if (!slab.isEmpty()) {
        seen++
        const { vertices } = meshOf(slab)
        let radius = 0
        for (let k = 0; k < vertices.length; k += 3)
          radius = Math.max(radius, Math.hypot(vertices[k]!, vertices[k + 1]!))
        expect(reach!.radius).toBeGreaterThan(radius - 2 * KERNEL_CHORD)
        expect(reach!.radius).toBeLessThan(radius + 0.6)
        expect(reach!.at.z).toBeGreaterThanOrEqual(from - 1e-9)
        expect(reach!.at.z).toBeLessThanOrEqual(to + 1e-9)
        expectNear(Math.hypot(reach!.at.x, reach!.at.y), reach!.radius, { abs: 1e-9 })
      }
      for (const s of [solid, above, slab]) s.delete()
    }
    expect(seen).toBeGreaterThan(100)
  })

  it('at the corner, or where an edge passes the height', () => {
    const tilted = poseOf({ x: 0, y: 100, z: 0 }, { x: 0, y: 1, z: 1 }, { x: 1, y: 0, z: 0 })
    const { pieces } = solidOf({ region: { outline: block(30, 20), holes: [] }, z1: 10, pose: tilted })
    const all = farthestReach(pieces, -1000, 1000)!
    // Half its width 30, its edge at 100 + (20 + 10)/√2 up.
    expectNear(all.radius, Math.hypot(30, 100 + 30 / Math.SQRT2), { abs: 1e-9 })
    expectNear(all.at.z, (10 - 20) / Math.SQRT2, { abs: 1e-9 })
    const back = farthestReach(pieces, 10 / Math.SQRT2, 1000)!
    // Its front face, y + z = 100 + 10√2, at that height.
    expectNear(back.radius, Math.hypot(30, 100 + 10 / Math.SQRT2), { abs: 1e-9 })
    expect(farthestReach(pieces, 500, 600)).toBeNull()
  })
})
