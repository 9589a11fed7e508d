/** Joins the loose corners of a triangle list into shared vertices. */
export interface WeldedMesh {
  /** x, y, z in mm, one vertex after the other. */
  readonly vertices: number[]
  /** Three vertex indices a triangle, in the winding of the input. */
  readonly triangles: number[]
  /** Triangles dropped because two of their corners became one; dropping them opens nothing. */
  readonly collapsed: number
}

/**
 * @param triangles nine finite numbers a triangle, mm.
 * @param tolerance mm: corners this near become one vertex, the first one met; 0 joins equal corners only.
 */
export function weld(triangles: Float64Array, tolerance: number): WeldedMesh {
  const equal = joinEqual(triangles)
  const { vertices, corners } = tolerance > 0 ? joinNear(equal, tolerance) : equal
  const indices: number[] = []
  let collapsed = 0
  for (let i = 0; i < corners.length; i += 3) {
    const a = corners[i]!
    const b = corners[i + 1]!
    const c = corners[i + 2]!
    if (a === b || b === c || a === c) collapsed++
    else indices.push(a, b, c)
  }
  return { vertices: Array.from(vertices), triangles: indices, collapsed }
}

interface Joined {
  readonly vertices: Float64Array
  /** Vertex index of each corner. */
  readonly corners: Uint32Array
}

const powerOfTwo = (least: number) => 2 ** Math.ceil(Math.log2(Math.max(16, least)))

function mix(a: number, b: number, c: number): number {
  let h = Math.imul(a, 0x9e3779b1) ^ Math.imul(b, 0x85ebca77) ^ Math.imul(c, 0xc2b2ae3d)
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d)
  h = Math.imul(h ^ (h >>> 12), 0x297a2d39)
  return (h ^ (h >>> 15)) >>> 0
}

/** Equal corners by an open hash table over the bits of their coordinates. */
function joinEqual(points: Float64Array): Joined {
  const count = points.length / 3
  const corners = new Uint32Array(count)
  const vertices = new Float64Array(points.length)
  const mask = powerOfTwo(2 * count) - 1
  const table = new Int32Array(mask + 1).fill(-1)
  const number = new Float64Array(1)
  const bits = new Int32Array(number.buffer)
  const folded = (value: number) => {
    number[0] = value
    return bits[0]! ^ Math.imul(bits[1]!, 0x1b873593)
  }
  let found = 0
  for (let i = 0; i < count; i++) {
    // + 0 turns −0 into 0.
    const x = points[3 * i]! + 0
    const y = points[3 * i + 1]! + 0
    const z = points[3 * i + 2]! + 0
    let slot = mix(folded(x), folded(y), folded(z)) & mask
    let v = table[slot]!
    while (v >= 0 && !(vertices[3 * v] === x && vertices[3 * v + 1] === y && vertices[3 * v + 2] === z)) {
      slot = (slot + 1) & mask
      v = table[slot]!
    }
    if (v < 0) {
      v = found++
      table[slot] = v
      vertices[3 * v] = x
      vertices[3 * v + 1] = y
      vertices[3 * v + 2] = z
    }
    corners[i] = v
  }
  return { vertices: vertices.slice(0, 3 * found), corners }
}

/** Cells are four tolerances wide, so a vertex looks into at most eight, and each holds few that stay apart. */
function joinNear({ vertices, corners }: Joined, tolerance: number): Joined {
  const count = vertices.length / 3
  const cell = 4 * tolerance
  const mask = powerOfTwo(2 * count) - 1
  const heads = new Int32Array(mask + 1).fill(-1)
  const next = new Int32Array(count)
  const kept = new Float64Array(vertices.length)
  const becomes = new Uint32Array(count)
  let found = 0
  const search = (x: number, y: number, z: number) => {
    for (let i = Math.floor((x - tolerance) / cell); i <= Math.floor((x + tolerance) / cell); i++) {
      for (let j = Math.floor((y - tolerance) / cell); j <= Math.floor((y + tolerance) / cell); j++) {
        for (let k = Math.floor((z - tolerance) / cell); k <= Math.floor((z + tolerance) / cell); k++) {
          for (let v = heads[mix(i, j, k) & mask]!; v >= 0; v = next[v]!) {
            const dx = kept[3 * v]! - x
            const dy = kept[3 * v + 1]! - y
            const dz = kept[3 * v + 2]! - z
            if (dx * dx + dy * dy + dz * dz <= tolerance * tolerance) return v
          }
        }
      }
    }
    return -1
  }
  for (let i = 0; i < count; i++) {
    const x = vertices[3 * i]!
    const y = vertices[3 * i + 1]!
    const z = vertices[3 * i + 2]!
    let v = search(x, y, z)
    if (v < 0) {
      v = found++
      kept.set([x, y, z], 3 * v)
      const slot = mix(Math.floor(x / cell), Math.floor(y / cell), Math.floor(z / cell)) & mask
      next[v] = heads[slot]!
      heads[slot] = v
    }
    becomes[i] = v
  }
  return { vertices: kept.slice(0, 3 * found), corners: corners.map((c) => becomes[c]!) }
}
