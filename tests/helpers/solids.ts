/** Solids by manifold-3d, an independent kernel, and files made from them. */
import Module, { type Manifold } from 'manifold-3d'
import type { TriangleMesh } from '../../src-core/mesh/types.ts'

const wasm = await Module()
wasm.setup()

export const { Manifold: Solid } = wasm
export type { Manifold }

export function meshOf(solid: Manifold): TriangleMesh {
  const { numProp, vertProperties, triVerts } = solid.getMesh()
  const vertices: number[] = []
  for (let v = 0; v < vertProperties.length; v += numProp) vertices.push(...vertProperties.subarray(v, v + 3))
  return { vertices, triangles: Array.from(triVerts) }
}

/** The corners of a mesh, nine numbers a triangle. */
export function cornersOf({ vertices, triangles }: TriangleMesh): Float64Array {
  return Float64Array.from(
    { length: 3 * triangles.length },
    (_, i) => vertices[3 * triangles[Math.floor(i / 3)]! + (i % 3)]!,
  )
}

export function binaryStl(corners: ArrayLike<number>, header = 'made for a test'): Uint8Array {
  const count = corners.length / 9
  const bytes = new Uint8Array(84 + 50 * count)
  bytes.set(new TextEncoder().encode(header).subarray(0, 80))
  const data = new DataView(bytes.buffer)
  data.setUint32(80, count, true)
  for (let i = 0; i < corners.length; i++) {
    data.setFloat32(84 + 50 * Math.floor(i / 9) + 12 + 4 * (i % 9), corners[i]!, true)
  }
  return bytes
}

export function textStl(corners: ArrayLike<number>, newline = '\n'): string {
  const lines = ['solid made for a test']
  for (let i = 0; i < corners.length; i += 9) {
    lines.push('  facet normal 0 0 0', '    outer loop')
    for (let k = 0; k < 9; k += 3)
      lines.push(`      vertex ${corners[i + k]} ${corners[i + k + 1]} ${corners[i + k + 2]}`)
    lines.push('    endloop', '  endfacet')
  }
  lines.push('endsolid made for a test', '')
  return lines.join(newline)
}

/** A repeatable source of numbers from 0 to 1. */
export function seeded(seed: number): () => number {
  return () => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0
    return seed / 2 ** 32
  }
}

/** A union or difference of a few turned and moved boxes, cylinders and balls. */
export function randomSolid(random: () => number): Manifold {
  const between = (low: number, high: number) => low + (high - low) * random()
  const piece = () => {
    const kind = random()
    const raw =
      kind < 0.4
        ? Solid.cube([between(5, 40), between(5, 40), between(5, 40)], true)
        : kind < 0.7
          ? Solid.cylinder(
              between(5, 40),
              between(3, 20),
              between(3, 20),
              5 + Math.floor(between(0, 30)),
              true,
            )
          : Solid.sphere(between(5, 20), 12)
    const turn: [number, number, number] =
      random() < 0.3 ? [0, 0, 0] : [between(0, 360), between(0, 360), between(0, 360)]
    return raw.rotate(turn).translate([between(-20, 20), between(-20, 20), between(-20, 20)])
  }
  let solid = piece()
  const count = 1 + Math.floor(random() * 4)
  for (let i = 0; i < count; i++) {
    const cut = random() < 0.5 ? solid.subtract(piece()) : solid.add(piece())
    if (!cut.isEmpty()) solid = cut
  }
  return solid
}
