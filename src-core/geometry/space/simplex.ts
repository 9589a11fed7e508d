/** Up to four differences of corners, and the point of their hull nearest to the origin. */
import type { Point3 } from '../types.ts'
import { cross3, dot3, minus3, plus3, scale3 } from './vector.ts'

interface Corner {
  /** a − b */
  readonly at: Point3
  readonly a: Point3
  readonly b: Point3
}

/** Weights of up to four corners; their sum is 1. */
interface Held {
  readonly corners: readonly Corner[]
  readonly weights: readonly number[]
}

const ORIGIN: Point3 = { x: 0, y: 0, z: 0 }

export class Simplex {
  private held: Held = { corners: [], weights: [] }
  /** Whether the origin lies within the tetrahedron. */
  holdsOrigin = false

  /** False where the difference is one of its corners already. */
  add(first: Float64Array, second: Float64Array): boolean {
    const a = { x: first[0]!, y: first[1]!, z: first[2]! }
    const b = { x: second[0]!, y: second[1]!, z: second[2]! }
    const at = minus3(a, b)
    const { corners } = this.held
    if (corners.some((c) => c.at.x === at.x && c.at.y === at.y && c.at.z === at.z)) return false
    this.held = { corners: [...corners, { at, a, b }], weights: [] }
    return true
  }

  /** Drops the corners that the nearest point does not hang on. */
  reduce(): void {
    const { corners } = this.held
    const [p, q, r, s] = corners
    if (!q) this.held = { corners, weights: [1] }
    else if (!r) this.held = ofLine(p!, q)
    else if (!s) this.held = ofTriangle(p!, q, r)
    else {
      const inside = ofTetrahedron(p!, q, r, s)
      this.holdsOrigin = inside.corners.length === 4
      this.held = inside
    }
  }

  nearest(): Point3 {
    return this.sum((c) => c.at)
  }

  /** The points of both pieces whose difference is nearest. */
  points(): { onA: Point3; onB: Point3 } {
    return { onA: this.sum((c) => c.a), onB: this.sum((c) => c.b) }
  }

  private sum(of: (c: Corner) => Point3): Point3 {
    const { corners, weights } = this.held
    return corners.reduce((s, c, i) => plus3(s, scale3(of(c), weights[i]!)), ORIGIN)
  }
}

function ofLine(p: Corner, q: Corner): Held {
  const along = minus3(q.at, p.at)
  const t = -dot3(p.at, along) / dot3(along, along)
  if (!(t > 0)) return { corners: [p], weights: [1] }
  if (t >= 1) return { corners: [q], weights: [1] }
  return { corners: [p, q], weights: [1 - t, t] }
}

/** The face where the origin is over it, else the nearest of its sides. */
function ofTriangle(p: Corner, q: Corner, r: Corner): Held {
  const n = cross3(minus3(q.at, p.at), minus3(r.at, p.at))
  const square = dot3(n, n)
  // Areas of the triangles that the origin's foot makes with each side, by the normal.
  const wp = dot3(n, cross3(q.at, r.at)) / square
  const wq = dot3(n, cross3(r.at, p.at)) / square
  const wr = 1 - wp - wq
  if (wp > 0 && wq > 0 && wr > 0) return { corners: [p, q, r], weights: [wp, wq, wr] }
  return nearer([ofLine(p, q), ofLine(q, r), ofLine(r, p)])
}

function ofTetrahedron(p: Corner, q: Corner, r: Corner, s: Corner): Held {
  const whole = volume(p.at, q.at, r.at, s.at)
  const weights = [
    volume(ORIGIN, q.at, r.at, s.at) / whole,
    volume(p.at, ORIGIN, r.at, s.at) / whole,
    volume(p.at, q.at, ORIGIN, s.at) / whole,
    volume(p.at, q.at, r.at, ORIGIN) / whole,
  ]
  if (weights.every((w) => w > 0)) return { corners: [p, q, r, s], weights }
  return nearer([ofTriangle(p, q, r), ofTriangle(p, q, s), ofTriangle(p, r, s), ofTriangle(q, r, s)])
}

const volume = (p: Point3, q: Point3, r: Point3, s: Point3): number =>
  dot3(minus3(q, p), cross3(minus3(r, p), minus3(s, p)))

/** The one whose point lies nearest to the origin. */
function nearer(list: readonly Held[]): Held {
  const square = ({ corners, weights }: Held) => {
    const at = corners.reduce((s, c, i) => plus3(s, scale3(c.at, weights[i]!)), ORIGIN)
    return dot3(at, at)
  }
  return list.map((held) => ({ held, square: square(held) })).reduce((a, b) => (b.square < a.square ? b : a))
    .held
}
