import { describe, it } from 'vitest'
import { ringMoments } from '../../../src-core/geometry/ringMoments.ts'
import { meshProperties, type MeshProperties } from '../../../src-core/mesh/properties.ts'
import { expectNear } from '../../helpers/near.ts'
import { Solid, meshOf, randomSolid, seeded, type Manifold } from '../../helpers/solids.ts'

const KEYS = ['volume', 'x', 'y', 'z', 'xx', 'yy', 'xy', 'xz', 'yz'] as const

function expectProperties(
  actual: MeshProperties,
  expected: Record<(typeof KEYS)[number], number>,
  rel: number,
  size = 30,
) {
  for (const key of KEYS) {
    const scale = Math.abs(expected.volume) * size ** (key === 'volume' ? 0 : key.length)
    expectNear(actual[key], expected[key], { abs: rel * scale })
  }
}

/** Of a box from (x0, y0, z0) with sides a, b, c: integrals of powers along each axis, multiplied. */
function boxMoments(at: number[], sides: number[]) {
  const power = (k: number, n: number) => ((at[k]! + sides[k]!) ** (n + 1) - at[k]! ** (n + 1)) / (n + 1)
  const m = (i: number, j: number, k: number) => power(0, i) * power(1, j) * power(2, k)
  return {
    volume: m(0, 0, 0),
    x: m(1, 0, 0),
    y: m(0, 1, 0),
    z: m(0, 0, 1),
    xx: m(2, 0, 0),
    yy: m(0, 2, 0),
    xy: m(1, 1, 0),
    xz: m(1, 0, 1),
    yz: m(0, 1, 1),
  }
}

/**
 * The same integrals from plane sections cut by manifold: between two vertex heights each is a polynomial of z of
 * degree four at most, which three Gauss points integrate exactly.
 */
function sectionMoments(solid: Manifold) {
  const { vertices } = meshOf(solid)
  const heights = [...new Set(Array.from(vertices).filter((_, i) => i % 3 === 2))].sort((p, q) => p - q)
  const total = boxMoments([0, 0, 0], [0, 0, 0])
  for (let k = 0; k + 1 < heights.length; k++) {
    const middle = (heights[k]! + heights[k + 1]!) / 2
    const half = (heights[k + 1]! - heights[k]!) / 2
    for (const [at, weight] of [
      [-Math.sqrt(0.6), 5 / 9],
      [0, 8 / 9],
      [Math.sqrt(0.6), 5 / 9],
    ] as const) {
      const z = middle + at * half
      const w = weight * half
      const polygons = solid.slice(z).toPolygons()
      for (const polygon of polygons) {
        const ring = polygon.map(([x, y]) => ({ x, y }))
        const turn = ring.reduce(
          (s, p, i) => s + p.x * ring[(i + 1) % ring.length]!.y - p.y * ring[(i + 1) % ring.length]!.x,
          0,
        )
        const m = ringMoments(ring)
        const f = turn > 0 ? w : -w
        total.volume += f * m.area
        total.x += f * m.x
        total.y += f * m.y
        total.z += f * z * m.area
        total.xx += f * m.xx
        total.yy += f * m.yy
        total.xy += f * m.xy
        total.xz += f * z * m.x
        total.yz += f * z * m.y
      }
    }
  }
  return total
}

describe('meshProperties', () => {
  it('is exact for a box, also far from the origin', () => {
    const at: [number, number, number] = [-3, 5, 11]
    const sides: [number, number, number] = [10, 20, 30]
    expectProperties(meshProperties(meshOf(Solid.cube(sides).translate(at))), boxMoments(at, sides), 1e-14)
    const far: [number, number, number] = [8192, -4096, 2048]
    const moved = meshProperties(meshOf(Solid.cube(sides).translate(far)))
    const expected = boxMoments([0, 0, 0], sides)
    // Moved back by hand: the central moments must keep about nine digits.
    expectNear(moved.xx - moved.x ** 2 / moved.volume, expected.xx - expected.x ** 2 / expected.volume, {
      rel: 1e-6,
    })
    expectNear(moved.volume, 6000, { rel: 1e-14 })
  })

  it('nears the ball: volume 4/3 πr³, ∫x² dV = 4/15 πr⁵', () => {
    const p = meshProperties(meshOf(Solid.sphere(20, 400)))
    expectNear(p.volume, (4 / 3) * Math.PI * 20 ** 3, { rel: 5e-4 })
    for (const key of ['xx', 'yy'] as const) expectNear(p[key], (4 / 15) * Math.PI * 20 ** 5, { rel: 1e-3 })
    for (const key of ['x', 'y', 'z', 'xy', 'xz', 'yz'] as const) expectNear(p[key], 0, { abs: 1e-3 * p.xx })
  })

  it('agrees with manifold on volume and with its sections on every moment, on 60 random solids', () => {
    const random = seeded(20)
    for (let i = 0; i < 60; i++) {
      const solid = randomSolid(random)
      const p = meshProperties(meshOf(solid))
      expectNear(p.volume, solid.volume(), { rel: 1e-5 })
      if (solid.numVert() < 250) expectProperties(p, sectionMoments(solid), 2e-5)
    }
  })

  it('turns all signs with the winding', () => {
    const mesh = meshOf(randomSolid(seeded(4)))
    const p = meshProperties(mesh)
    const triangles = Array.from(mesh.triangles)
    for (let i = 0; i < triangles.length; i += 3) triangles.splice(i, 2, triangles[i + 1]!, triangles[i]!)
    const q = meshProperties({ vertices: mesh.vertices, triangles })
    for (const key of KEYS) expectNear(q[key], -p[key], { rel: 1e-9, abs: 1e-6 * p.volume })
  })
})
