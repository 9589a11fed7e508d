/** The surface of a mesh from in front, under a flat pad. Kept per mesh object, which must not be changed. */
import { keptOf } from '../geometry/kept.ts'
import type { Point } from '../geometry/types.ts'
import { meshBox } from './properties.ts'
import type { TriangleMesh } from './types.ts'

/** What a pad finds under it. mm in the mesh's own frame. */
export interface SurfaceUnder {
  /** Highest point. */
  readonly z: number
  /** Lowest point of what faces forward under the pad. */
  readonly low: number
  /** mm² of the pad over material within `play` of the highest point. */
  readonly flat: number
}

/** Triangles that face forward, by strips of x: strip s holds items[starts[s]] up to items[starts[s + 1]]. */
interface Strips {
  readonly x0: number
  readonly width: number
  readonly starts: Int32Array
  readonly items: Int32Array
}

const MOST_STRIPS = 512
const stripsOf: (mesh: TriangleMesh) => Strips = keptOf(makeStrips)

function makeStrips(mesh: TriangleMesh): Strips {
  const { vertices: v, triangles: t } = mesh
  const { low, high } = meshBox(mesh)
  const count = Math.max(1, Math.min(MOST_STRIPS, Math.ceil(Math.sqrt(t.length / 3))))
  const width = Math.max(1e-9, (high[0] - low[0]) / count)
  const stripAt = (x: number) => Math.max(0, Math.min(count - 1, Math.floor((x - low[0]) / width)))
  const facing: number[] = []
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * t[i]!, 3 * t[i + 1]!, 3 * t[i + 2]!]
    const turn = (v[b]! - v[a]!) * (v[c + 1]! - v[a + 1]!) - (v[c]! - v[a]!) * (v[b + 1]! - v[a + 1]!)
    if (turn > 0) facing.push(i)
  }
  const range = (i: number): [number, number] => {
    const xs = [v[3 * t[i]!]!, v[3 * t[i + 1]!]!, v[3 * t[i + 2]!]!]
    return [stripAt(Math.min(...xs)), stripAt(Math.max(...xs))]
  }
  const starts = new Int32Array(count + 1)
  for (const i of facing) {
    const [from, to] = range(i)
    for (let s = from; s <= to; s++) starts[s + 1]! += 1
  }
  for (let s = 0; s < count; s++) starts[s + 1]! += starts[s]!
  const next = starts.slice()
  const items = new Int32Array(starts[count]!)
  for (const i of facing) {
    const [from, to] = range(i)
    for (let s = from; s <= to; s++) items[next[s]!++] = i
  }
  return { x0: low[0], width, starts, items }
}

type Corner = readonly [x: number, y: number, z: number]

/**
 * Null where nothing of the mesh lies under the pad. `pad`: convex, counter-clockwise, in the mesh's frame. A surface
 * that lies hidden under another counts for `low`.
 */
export function surfaceUnder(mesh: TriangleMesh, pad: readonly Point[], play: number): SurfaceUnder | null {
  const pieces = piecesUnder(mesh, pad)
  if (pieces.length === 0) return null
  const heights = pieces.flatMap((p) => p.map((c) => c[2]))
  const z = heights.reduce((a, b) => Math.max(a, b))
  const low = heights.reduce((a, b) => Math.min(a, b))
  const level = pieces.filter((p) => p.every((c) => c[2] >= z - play))
  return { z, low, flat: level.reduce((sum, p) => sum + areaOf(p), 0) }
}

function piecesUnder(mesh: TriangleMesh, pad: readonly Point[]): Corner[][] {
  const { vertices: v, triangles: t } = mesh
  const strips = stripsOf(mesh)
  const last = strips.starts.length - 2
  const xs = pad.map((p) => p.x)
  const stripAt = (x: number) => Math.max(0, Math.min(last, Math.floor((x - strips.x0) / strips.width)))
  const from = stripAt(Math.min(...xs))
  const to = stripAt(Math.max(...xs))
  const seen = new Set<number>()
  const out: Corner[][] = []
  for (let k = strips.starts[from]!; k < strips.starts[to + 1]!; k++) {
    const i = strips.items[k]!
    if (seen.has(i)) continue
    seen.add(i)
    const corner = (n: number): Corner => {
      const at = 3 * t[i + n]!
      return [v[at]!, v[at + 1]!, v[at + 2]!]
    }
    const piece = clipTo([corner(0), corner(1), corner(2)], pad)
    if (piece.length > 2 && areaOf(piece) > 0) out.push(piece)
  }
  return out
}

/** What of a polygon lies in a convex outline in plan, one edge after the other (Sutherland and Hodgman). */
function clipTo(polygon: readonly Corner[], pad: readonly Point[]): Corner[] {
  let left: Corner[] = [...polygon]
  for (let e = 0; e < pad.length && left.length > 0; e++) {
    const a = pad[e]!
    const b = pad[(e + 1) % pad.length]!
    const side = ([x, y]: Corner) => (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x)
    const kept: Corner[] = []
    left.forEach((p, i) => {
      const q = left[(i + 1) % left.length]!
      const sp = side(p)
      const sq = side(q)
      if (sp >= 0) kept.push(p)
      if (sp < 0 !== sq < 0) {
        const f = sp / (sp - sq)
        kept.push([p[0] + f * (q[0] - p[0]), p[1] + f * (q[1] - p[1]), p[2] + f * (q[2] - p[2])])
      }
    })
    left = kept
  }
  return left
}

function areaOf(polygon: readonly Corner[]): number {
  let double = 0
  polygon.forEach((p, i) => {
    const q = polygon[(i + 1) % polygon.length]!
    double += p[0] * q[1] - q[0] * p[1]
  })
  return Math.abs(double) / 2
}
