/** The ways a mesh can lie, each with its sizes and a picture. */
import { lainOn, restingFaces, type Direction } from '../../src-core/mesh/lying.ts'
import { meshBox } from '../../src-core/mesh/properties.ts'
import { shaded } from '../../src-core/mesh/shaded.ts'
import type { Lying } from './importMessages.ts'

/** As in the file, and on so many of its faces. */
const MOST_FACES = 7
/** Pixels: of one chosen, shown large; the others are scaled down. */
const PICTURE = { width: 320, height: 240 } as const
const BACK: Direction = [0, 0, -1]

export function lyingsOf(triangles: Float64Array | null): Lying[] {
  if (!triangles || triangles.length === 0) return []
  const faces = restingFaces(triangles, MOST_FACES).map((f) => f.down)
  const others = faces.filter((d) => Math.hypot(...d.map((v, k) => v - BACK[k]!)) > ALIKE)
  return [null, ...others].map((down) => {
    const lain = down ? lainOn(triangles, down) : triangles
    const { low, high } = meshBox({ vertices: lain })
    return {
      down,
      size: high.map((h, k) => h - low[k]!),
      picture: shaded(lain, PICTURE.width, PICTURE.height),
    }
  })
}

/** Between two directions of length 1: less is the same face. */
const ALIKE = 0.01
