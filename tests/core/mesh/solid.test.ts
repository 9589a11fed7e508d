import { describe, expect, it } from 'vitest'
import { jobSchema } from '../../../src-core/job/schema.ts'
import { meshBody } from '../../../src-core/import/meshBody.ts'
import { isSolid, meshFaults } from '../../../src-core/mesh/faults.ts'
import { meshProperties } from '../../../src-core/mesh/properties.ts'
import { weld } from '../../../src-core/mesh/weld.ts'
import { Solid, cornersOf, meshOf } from '../../helpers/solids.ts'

const cube = (at: [number, number, number] = [0, 0, 0]) =>
  cornersOf(meshOf(Solid.cube([10, 20, 30]).translate(at)))
const joined = (...lists: Float64Array[]) => Float64Array.from(lists.flatMap((list) => [...list]))
const flipped = (corners: Float64Array) => {
  const result = corners.slice()
  for (let i = 0; i < result.length; i += 9) {
    for (let k = 0; k < 3; k++) [result[i + k], result[i + 3 + k]] = [result[i + 3 + k]!, result[i + k]!]
  }
  return result
}
const faultsOf = (corners: Float64Array) => meshFaults(weld(corners, 1e-3))

describe('weld', () => {
  it('makes eight vertices of the 36 corners of a box', () => {
    const { vertices, triangles, collapsed } = weld(cube(), 0)
    expect([vertices.length / 3, triangles.length / 3, collapsed]).toEqual([8, 12, 0])
  })

  it('joins corners within the tolerance, across the borders of its cells, and no others', () => {
    for (let i = 0; i < 200; i++) {
      const x = i * 0.00137 - 0.1
      const triangles = Float64Array.of(
        x,
        0,
        0,
        5,
        0,
        0,
        0,
        5,
        0,
        x + 0.0009,
        0,
        0,
        0,
        5,
        0,
        0,
        0,
        5,
        x + 0.0021,
        0,
        0,
        0,
        5,
        0,
        0,
        0,
        5,
      )
      expect(weld(triangles, 0.001).vertices.length / 3).toBe(5)
      expect(weld(triangles, 0).vertices.length / 3).toBe(6)
    }
  })

  it('takes 0 and −0 for one', () => {
    expect(
      weld(Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0, -0, -0, -0, 0, 1, 0, -1, 0, 0), 0).vertices.length / 3,
    ).toBe(4)
  })

  it('drops triangles that collapse without opening the surface', () => {
    const corners = cube()
    // Splits one edge by a vertex so near its end that both become one.
    const sliver = Float64Array.of(0, 0, 0, 1e-5, 0, 0, 0, 1e-5, 0)
    const { triangles, collapsed } = weld(joined(corners, sliver), 1e-3)
    expect([triangles.length / 3, collapsed]).toEqual([12, 1])
    expect(isSolid(faultsOf(joined(corners, sliver)))).toBe(true)
  })
})

describe('meshFaults', () => {
  it('finds nothing wrong with a box, nor with two boxes that share an edge', () => {
    expect(faultsOf(cube())).toEqual({
      openEdges: 0,
      wronglyPairedEdges: 0,
      inverted: false,
      invertedShells: 0,
      empty: false,
      degenerateTriangles: 0,
      at: null,
    })
    expect(isSolid(faultsOf(joined(cube(), cube([10, 20, 0]))))).toBe(true)
  })

  it('counts the three open edges of a missing triangle and gives a place on them', () => {
    const faults = faultsOf(cube().subarray(9))
    expect(faults).toMatchObject({ openEdges: 3, wronglyPairedEdges: 0 })
    expect(isSolid(faults)).toBe(false)
    const [x, y, z] = faults.at!
    expect(x >= 0 && x <= 10 && y >= 0 && y <= 20 && z >= 0 && z <= 30).toBe(true)
  })

  it('counts the three wrongly paired edges of a turned triangle', () => {
    const corners = cube()
    const turned = joined(flipped(corners.slice(0, 9)), corners.subarray(9))
    expect(faultsOf(turned)).toMatchObject({ openEdges: 0, wronglyPairedEdges: 3 })
  })

  it('knows an inverted surface', () => {
    expect(faultsOf(flipped(cube()))).toMatchObject({ openEdges: 0, inverted: true })
  })

  it('knows an inverted shell beside a larger one from a cavity within it', () => {
    const large = cornersOf(meshOf(Solid.cube([50, 50, 50])))
    const small = cornersOf(meshOf(Solid.cube([5, 5, 5])))
    const away = small.map((v, i) => (i % 3 === 0 ? v + 100 : v + 1))
    expect(faultsOf(joined(large, flipped(away)))).toMatchObject({ inverted: false, invertedShells: 1 })
    expect(isSolid(faultsOf(joined(large, flipped(small.map((v) => v + 1)))))).toBe(true)
  })

  it('counts triangles without area and keeps them: their edges close the surface', () => {
    // A tetrahedron, one of whose edges is split on one side only, closed by a flat triangle.
    const corners = Float64Array.of(
      ...[0, 0, 0, 0, 5, 0, 5, 0, 0],
      ...[0, 0, 0, 5, 0, 0, 0, 0, 5],
      ...[0, 0, 0, 0, 0, 5, 0, 5, 0],
      ...[5, 0, 0, 2.5, 2.5, 0, 0, 0, 5],
      ...[2.5, 2.5, 0, 0, 5, 0, 0, 0, 5],
      ...[5, 0, 0, 0, 5, 0, 2.5, 2.5, 0],
    )
    const faults = faultsOf(corners)
    expect(faults).toMatchObject({ openEdges: 0, wronglyPairedEdges: 0, degenerateTriangles: 1 })
    expect(isSolid(faults)).toBe(true)
  })
})

describe('meshBody', () => {
  it('makes a body that the job schema takes, on its seat, in mm, to 1 µm', () => {
    const result = meshBody({ triangles: cube([1, 2, -3]).map((v) => v / 3) }, 'in', 'casting')
    if (!result.ok) throw new Error(result.reason)
    const { body } = result
    expect(body).toMatchObject({ id: 'casting', effect: 'adds', base: 25.4 })
    expect(body.mesh.vertices.every((v) => v === Math.round(v * 1000) / 1000)).toBe(true)
    expect(meshProperties(body.mesh).volume).toBeCloseTo(6000 * (25.4 / 3) ** 3, -2)
    expect(jobSchema.shape.part.shape.bodies.safeParse([body]).success).toBe(true)
  })

  it('closes corners that were one before they were rounded', () => {
    const corners = cube().map((v, i) => v + (i % 7) * 1e-4)
    expect(meshBody({ triangles: corners }, 'mm', 'a').ok).toBe(true)
  })

  it('says in words what keeps it from being a solid', () => {
    const words = (corners: Float64Array) => {
      const result = meshBody({ triangles: corners }, 'mm', 'a')
      return result.ok ? '' : result.reason
    }
    expect(words(cube().subarray(9))).toMatch(/^the surface is open at 3 edges, the first near x /)
    expect(words(flipped(cube()))).toBe('the surface is inside out: its volume comes out negative')
    expect(words(joined(cube(), flipped(cube())))).toBe('the surface encloses nothing')
    expect(words(cube().map((v) => v * 1e4))).toMatch(/is beyond 100000 mm/)
    expect(words(cube().subarray(0, 9))).toBe('fewer than four triangles with an area')
  })
})
