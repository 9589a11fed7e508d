import { describe, expect, test } from 'vitest'
import { lainOn, restingFaces, type Direction } from '../../../src-core/mesh/lying.ts'
import { shaded } from '../../../src-core/mesh/shaded.ts'
import { importFile } from '../../../src-core/import/importFile.ts'
import { toBodies } from '../../../src-core/import/toBodies.ts'
import { meshBox, meshProperties } from '../../../src-core/mesh/properties.ts'
import { textStl } from '../../helpers/solids.ts'

/** A quarter-corner wedge of 60 × 40 × 30: three faces square to each other and a slanting one. */
const WEDGE = ['0 0 0,0 40 0,60 0 0', '0 0 0,60 0 0,0 0 30', '0 0 0,0 0 30,0 40 0', '60 0 0,0 40 0,0 0 30']
const numbers = (facets: readonly string[]) =>
  Float64Array.from(facets.flatMap((f) => f.split(',').flatMap((v) => v.split(' ').map(Number))))
/** An L of two blocks: its inner faces cannot be lain on. */
const L_PROFILE = [[0, 0], [50, 0], [50, 10], [10, 10], [10, 40], [0, 40]] as const // prettier-ignore
function prism(profile: readonly (readonly [number, number])[], length: number): Float64Array {
  const out: number[] = []
  const n = profile.length
  for (let i = 0; i < n; i++) {
    const [a, b] = [profile[i]!, profile[(i + 1) % n]!]
    out.push(...a, 0, ...b, 0, ...b, length, ...a, 0, ...b, length, ...a, length)
  }
  for (const [i, j, k] of [[0, 1, 2], [0, 2, 3], [0, 3, 5], [3, 4, 5]] as const) {
    out.push(...profile[i]!, length, ...profile[j]!, length, ...profile[k]!, length)
    out.push(...profile[i]!, 0, ...profile[k]!, 0, ...profile[j]!, 0)
  } // prettier-ignore
  return Float64Array.from(out)
}

describe('faces to lie on', () => {
  test('of a wedge all four, by their areas', () => {
    const faces = restingFaces(numbers(WEDGE), 9)
    // Slanting: half |(-60, 40, 0) × (-60, 0, 30)|; then 60·40/2, 60·30/2, 40·30/2.
    const slant = Math.hypot(40 * 30, 60 * 30, 60 * 40) / 2
    expect(faces.map((f) => f.area)).toEqual([
      expect.closeTo(slant, 6),
      expect.closeTo(1200, 6),
      expect.closeTo(900, 6),
      expect.closeTo(600, 6),
    ])
    expect(faces[1]!.down).toEqual([0, 0, -1])
  })

  test('of an angle neither of its inner faces', () => {
    const faces = restingFaces(prism(L_PROFILE, 70), 9)
    expect(faces.map((f) => Math.round(f.area))).toEqual([3500, 2800, 800, 800, 700, 700])
    expect(faces.some((f) => f.down[0] > 0.9 && Math.round(f.area) === 2100)).toBe(false)
  })

  test('a face cut into many facets counts whole', () => {
    const fine = WEDGE.flatMap((f) => {
      const [a, b, c] = f.split(',').map((v) => v.split(' ').map(Number)) as [number[], number[], number[]]
      const m = a.map((v, k) => (v + b[k]! + c[k]!) / 3)
      return [[a, b, m], [b, c, m], [c, a, m]].map((t) => t.map((v) => v.join(' ')).join(',')) // prettier-ignore
    })
    expect(restingFaces(numbers(fine), 9).map((f) => Math.round(f.area))).toEqual(
      restingFaces(numbers(WEDGE), 9).map((f) => Math.round(f.area)),
    )
  })

  test('without a flat face there is none', () => {
    expect(restingFaces(new Float64Array(), 5)).toEqual([])
  })
})

describe('lain on a face', () => {
  const directions: Direction[] = [
    [0, 0, -1],
    [0, 0, 1],
    [1, 0, 0],
    [0, -1, 0],
    ...restingFaces(numbers(WEDGE), 9).map((f) => f.down),
  ]
  test.each(directions)('%f %f %f points down; lengths, angles and volume stay', (...down) => {
    const before = prism(L_PROFILE, 70)
    const after = lainOn(before, down)
    // The direction itself, as a triangle's corner.
    const at = lainOn(Float64Array.from([...down, 0, 0, 0, 0, 0, 0]), down)
    expect([...at.slice(0, 3)]).toEqual([0, 0, -1].map((v) => expect.closeTo(v, 9) as number))
    const volume = (t: Float64Array) =>
      meshProperties({ vertices: t, triangles: Array.from({ length: t.length / 3 }, (_, i) => i) }).volume
    expect(volume(after)).toBeCloseTo(volume(before), 6)
    expect(volume(before)).toBeCloseTo((50 * 10 + 30 * 10) * 70, 6)
  })

  test('a quarter turn gives whole numbers back', () => {
    expect([...lainOn(numbers(WEDGE), [1, 0, 0])].every(Number.isInteger)).toBe(true)
  })

  test('the body that comes of it stands on that face, as high as the solid is across it', () => {
    const preview = importFile('w.stl', new TextEncoder().encode(textStl(numbers(WEDGE))))
    if (!preview.ok) throw new Error('not read')
    const lie = (down?: Direction) => {
      const made = toBodies(preview, { thickness: 1, units: 'mm', ...(down ? { down } : {}) })
      if (!made.ok || !('mesh' in made.bodies[0]!)) throw new Error('not made')
      const { mesh, base } = made.bodies[0]
      const { low, high } = meshBox(mesh)
      expect(base + low[2]!).toBeCloseTo(0, 6)
      return high[2]! - low[2]!
    }
    expect(lie()).toBeCloseTo(30, 6)
    expect(lie([-1, 0, 0])).toBeCloseTo(60, 6)
    expect(lie([0, -1, 0])).toBeCloseTo(40, 6)
    // On the slanting face the far corner stands at its distance from the plane x/60 + y/40 + z/30 = 1.
    const [slanting] = restingFaces(numbers(WEDGE), 1)
    expect(lie(slanting!.down)).toBeCloseTo(1 / Math.hypot(1 / 60, 1 / 40, 1 / 30), 2)
  })
})

test('an outline turned over is its mirror image, its arcs bent the other way', () => {
  const csv = 'x,y\n0,0\n100,0\n100,40\n'
  const preview = importFile('t.csv', new TextEncoder().encode(csv), { units: 'mm' })
  if (!preview.ok) throw new Error('not read')
  const bent = {
    ...preview,
    outlines: [{ outline: preview.outlines[0]!.outline.map((v, i) => ({ ...v, bulge: i === 0 ? 0.5 : 0 })), holes: [] }],
  } // prettier-ignore
  const made = toBodies(bent, { thickness: 5, turnedOver: true })
  if (!made.ok || !('outline' in made.bodies[0]!)) throw new Error('not made')
  const { outline } = made.bodies[0]
  expect(outline.map((v) => [v.x, v.y])).toEqual([
    [-100, 40],
    [-100, 0],
    [0, 0],
  ])
  // The arc went from (0, 0) to (100, 0), to its right; it goes from (-100, 0) to (0, 0) now, to its right again.
  expect(outline.map((v) => v.bulge ?? 0)).toEqual([0, 0.5, 0])
})

describe('the picture', () => {
  test('a block shows three faces of three lights, its top the lightest, with dark edges', () => {
    const block = prism([[0, 0], [40, 0], [40, 40], [0, 40], [0, 30], [0, 20]], 40) // prettier-ignore
    const { light, width, height } = shaded(block, 120, 120)
    const at = (x: number, y: number) => light[Math.round(y * height) * width + Math.round(x * width)]!
    const [top, left, right] = [at(0.5, 0.28), at(0.3, 0.62), at(0.7, 0.62)]
    expect(top).toBeGreaterThan(Math.max(left, right))
    expect(left).not.toBe(right)
    expect([at(0.01, 0.01), at(0.99, 0.99)]).toEqual([0, 0])
    expect(Math.min(...light.filter((v) => v > 0))).toBeLessThan(70)
  })
  test('nothing gives an empty picture', () => {
    expect([...shaded(new Float64Array(), 4, 4).light].every((v) => v === 0)).toBe(true)
  })
})
