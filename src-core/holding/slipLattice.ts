/**
 * Directions to start a search over slips from: points spread evenly over half a sphere (a golden-angle spiral), each
 * with its nearest neighbours. A slip and its opposite count as one, so half a sphere holds them all.
 */
export type Direction = readonly [number, number, number]

const POINTS = 240
const NEIGHBOURS = 7
const GOLDEN_ANGLE = Math.PI * (3 - Math.sqrt(5))

function spiralPoint(i: number): Direction {
  const z = (i + 0.5) / POINTS
  const r = Math.sqrt(1 - z * z)
  return [r * Math.cos(i * GOLDEN_ANGLE), r * Math.sin(i * GOLDEN_ANGLE), z]
}

/** Unit vectors, z above 0. */
export const LATTICE: readonly Direction[] = Array.from({ length: POINTS }, (_, i) => spiralPoint(i))

/** For each point of the lattice in turn the indices of those nearest to it or to its opposite. */
const NEAREST = Int16Array.from(
  LATTICE.flatMap((a, i) =>
    LATTICE.map((b, k) => ({ k, near: k === i ? -1 : Math.abs(a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) }))
      .sort((p, q) => q.near - p.near)
      .slice(0, NEIGHBOURS)
      .map(({ k }) => k),
  ),
)

function isLocalMinimum(values: Float64Array, i: number): boolean {
  const value = values[i]!
  for (let n = i * NEIGHBOURS; n < (i + 1) * NEIGHBOURS; n++) if (values[NEAREST[n]!]! < value) return false
  return value < Infinity
}

/** Indices of the lattice's local minima of `values`, lowest first, at most `most` of them. */
export function localMinima(values: Float64Array, most: number): number[] {
  const found: number[] = []
  for (let i = 0; i < POINTS; i++) if (isLocalMinimum(values, i)) found.push(i)
  return found.sort((a, b) => values[a]! - values[b]!).slice(0, most)
}
