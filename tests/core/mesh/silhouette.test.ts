import { describe, expect, it } from 'vitest'
import { regionMoments } from '../../../src-core/geometry/ringMoments.ts'
import { distanceToRegion } from '../../../src-core/geometry/nearest.ts'
import type { Region } from '../../../src-core/geometry/types.ts'
import { regionFaults } from '../../../src-core/geometry/validate.ts'
import { meshBody } from '../../../src-core/import/meshBody.ts'
import { meshHeights, silhouette, silhouetteOf } from '../../../src-core/mesh/silhouette.ts'
import type { TriangleMesh } from '../../../src-core/mesh/types.ts'
import { weld } from '../../../src-core/mesh/weld.ts'
import { expectNear } from '../../helpers/near.ts'
import { Solid, cornersOf, meshOf, randomSolid, seeded, type Manifold } from '../../helpers/solids.ts'

const area = (regions: readonly Region[]) =>
  regions.reduce((sum, r) => sum + regionMoments(r, r.outline[0]).area, 0)

/** Projected places of the mesh (corners and middles of triangles) that lie outside by more than `by` mm. */
function outside({ vertices, triangles }: TriangleMesh, regions: readonly Region[], by: number): number {
  let count = 0
  for (let i = 0; i < triangles.length; i += 3) {
    const corner = (k: number) => ({
      x: vertices[3 * triangles[i + k]!]!,
      y: vertices[3 * triangles[i + k]! + 1]!,
    })
    const [a, b, c] = [corner(0), corner(1), corner(2)]
    const middle = { x: (a.x + b.x + c.x) / 3, y: (a.y + b.y + c.y) / 3 }
    for (const p of [a, b, c, middle]) if (!regions.some((r) => distanceToRegion(r, p) <= by)) count++
  }
  return count
}

function check(solid: Manifold) {
  const mesh = meshOf(solid)
  const { regions, hull } = silhouetteOf(mesh)
  expect(hull).toBe(false)
  expect(outside(mesh, regions, 0.004)).toBe(0)
  const box = solid.boundingBox()
  const size = box.max[0] - box.min[0] + box.max[1] - box.min[1]
  expectNear(area(regions), solid.project().area(), { abs: 0.01 * size })
  return regions
}

describe('silhouette', () => {
  it('is the outline of a box, without the diagonals of its faces', () => {
    const [region, ...rest] = check(Solid.cube([10, 20, 30]))
    expect(rest).toEqual([])
    expect(region!.outline).toHaveLength(4)
    expect(region!.holes).toEqual([])
    expect(area([region!])).toBe(200)
  })

  it('keeps a hole that goes through and hides one that does not', () => {
    const box = Solid.cube([40, 40, 10], true)
    const pin = Solid.cylinder(40, 5, 5, 64, true)
    const [through] = check(box.subtract(pin))
    expect(through!.holes).toHaveLength(1)
    expect(through!.holes[0]).toHaveLength(64)
    const [blind] = check(box.subtract(pin.translate([0, 0, 20])))
    expect(blind!.holes).toEqual([])
  })

  it('takes a lying ring for what it covers', () => {
    const ring = Solid.cylinder(10, 30, 30, 60, true).subtract(Solid.cylinder(20, 20, 20, 60, true))
    const [lying] = check(ring.rotate([90, 0, 0]))
    expect(lying!.holes).toEqual([])
    const [tilted] = check(ring.rotate([30, 20, 0]))
    expect(tilted!.holes).toHaveLength(1)
  })

  it('keeps separate pieces apart, one within the hole of another too', () => {
    const tube = Solid.cylinder(10, 30, 30, 40).subtract(Solid.cylinder(10, 25, 25, 40))
    const regions = check(
      tube.add(Solid.cube([10, 10, 10], true)).add(Solid.cube([5, 5, 5]).translate([50, 0, 0])),
    )
    expect(regions).toHaveLength(3)
    expect(regions.map((r) => r.holes.length).sort()).toEqual([0, 0, 1])
  })

  it('unites overlapping pieces at different heights', () => {
    const low = Solid.cube([30, 10, 5])
    const regions = check(low.add(low.rotate([0, 0, 90]).translate([20, -10, 20])))
    expect(regions).toHaveLength(1)
    expect(area(regions)).toBeCloseTo(500, 6)
    expect(regions[0]!.outline).toHaveLength(12)
  })

  it('parts pieces that touch at a corner into simple outlines', () => {
    const mesh = meshOf(Solid.cube([10, 10, 10]).add(Solid.cube([10, 10, 10]).translate([10, 10, 0])))
    const regions = silhouette(mesh)
    expect(regions).toHaveLength(2)
    for (const r of regions) expect(regionFaults(r)).toEqual([])
  })

  it('covers 150 random solids and has the area that manifold finds', () => {
    const random = seeded(8)
    for (let i = 0; i < 150; i++) check(randomSolid(random))
  })

  it('covers open surfaces and inverted ones as well', () => {
    const mesh = meshOf(Solid.sphere(10, 24))
    const open = { vertices: mesh.vertices, triangles: Array.from(mesh.triangles).slice(0, 300) }
    expect(outside(open, silhouette(open), 0.004)).toBe(0)
    const turned = { vertices: mesh.vertices, triangles: Array.from(mesh.triangles).reverse() }
    expectNear(area(silhouette(turned)), area(silhouette(mesh)), { rel: 1e-12 })
  })

  it('covers heaps of random triangles; those of a few grid units do not upset it', () => {
    const random = seeded(3)
    for (let round = 0; round < 40; round++) {
      const size = [0.006, 0.03, 5, 50][round % 4]!
      const heap: number[] = []
      while (heap.length < 9 * 12) {
        const triangle = Array.from({ length: 9 }, () => random() * size)
        const [ax, ay, , bx, by, , cx, cy] = triangle as [
          number,
          number,
          number,
          number,
          number,
          number,
          number,
          number,
        ]
        const area = Math.abs((bx - ax) * (cy - ay) - (cx - ax) * (by - ay))
        // Needles may lose their tips.
        if (size < 1 || area > 0.05 * size) heap.push(...triangle)
      }
      const mesh = weld(Float64Array.from(heap), 0)
      const { regions, hull } = silhouetteOf(mesh)
      expect(hull).toBe(false)
      if (size > 1) expect(outside(mesh, regions, 0.004)).toBe(0)
    }
  })

  it('falls back on the convex hull when the contour is hopeless, and says so', () => {
    const random = seeded(5)
    const corners = Float64Array.from({ length: 9 * 20_000 }, () => random() * 300)
    const mesh = weld(corners, 0)
    const { regions, hull } = silhouetteOf(mesh)
    expect(hull).toBe(true)
    expect(outside({ ...mesh, triangles: mesh.triangles.slice(0, 3000) }, regions, 0.004)).toBe(0)
  })

  it('falls back on the convex hull for a cloud of thousands of specks', () => {
    const random = seeded(6)
    const tetra = [
      0, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 1, 0, 1, 0, 1, 0, 0, 0, 1, 0, 0, 0,
      1,
    ]
    const specks = Array.from({ length: 3000 }, () => {
      const at = [random() * 400, random() * 400, random() * 400]
      return tetra.map((v, i) => v + at[i % 3]!)
    })
    const mesh = weld(Float64Array.from(specks.flat()), 0)
    const { regions, hull } = silhouetteOf(mesh)
    expect(hull).toBe(true)
    expect(regions).toHaveLength(1)
    expect(outside(mesh, regions, 0.004)).toBe(0)
  })

  it('follows a rough casting of 200,000 triangles', () => {
    const rough = Solid.sphere(50, 632).warp((p) => {
      const s = 1 + 0.02 * Math.sin(p[0] * 3) * Math.sin(p[1] * 3.1) * Math.sin(p[2] * 2.9)
      for (let k = 0; k < 3; k++) p[k]! *= s
    })
    const mesh = weld(cornersOf(meshOf(rough)), 0)
    expect(mesh.triangles.length / 3).toBeGreaterThan(190_000)
    const { regions, hull } = silhouetteOf(mesh)
    expect(hull).toBe(false)
    expectNear(area(regions), rough.project().area(), { rel: 1e-5 })
  })

  it('leaves out the vertices of finely split walls that stray from straight by no more than their rounding', () => {
    const bush = Solid.cylinder(40, 50, 50, 100)
      .subtract(Solid.cylinder(40, 20, 20, 50))
      .refineToLength(2)
      .rotate([0, 0, 17])
    const body = meshBody({ triangles: cornersOf(meshOf(bush)) }, 'mm', 'bush')
    if (!body.ok) throw new Error(body.reason)
    const [region] = silhouette(body.body.mesh)
    // Thousands of vertices lie on the walls; those moved most by rounding and welding stay.
    expect(region!.outline.length).toBeLessThan(140)
    expect(region!.holes[0]!.length).toBeLessThan(80)
    expect(outside(body.body.mesh, [region!], 0.004)).toBe(0)
  })

  it('passes the checks of a region on 100 random solids', () => {
    const random = seeded(11)
    for (let i = 0; i < 100; i++) {
      const body = meshBody({ triangles: cornersOf(meshOf(randomSolid(random))) }, 'mm', 'a')
      if (!body.ok) throw new Error(body.reason)
      for (const region of silhouette(body.body.mesh)) expect(regionFaults(region)).toEqual([])
    }
  })

  it('gives the heights', () => {
    expect(meshHeights(meshOf(Solid.cube([1, 2, 3]).translate([0, 0, -1])))).toEqual({ z0: -1, z1: 2 })
  })
})
