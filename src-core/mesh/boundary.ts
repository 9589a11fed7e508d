/** Outlines and holes of the part of a plane drawing whose winding number is above zero. */
import { isInside } from '../geometry/nearest.ts'
import { boxOf } from '../geometry/polygonBox.ts'
import type { Point, Region } from '../geometry/types.ts'
import type { EdgeTable } from './edgeTable.ts'
import type { PointTable } from './pointTable.ts'
import { head, tail, type Windings } from './winding.ts'

/** Rings of grid points with the inside on their left: outlines counter-clockwise, holes clockwise. */
export function boundaryRings(
  points: PointTable,
  edges: EdgeTable,
  { starts, out, left }: Windings,
): Point[][] {
  const isBoundary = (h: number) => left[h]! > 0 && left[h ^ 1]! <= 0
  const used = new Uint8Array(left.length)
  const onPath = new Map<number, number>()
  const rings: Point[][] = []
  for (let first = 0; first < left.length; first++) {
    if (edges.net[first >> 1] === 0 || used[first] || !isBoundary(first)) continue
    const path: number[] = []
    onPath.clear()
    for (let h = first; !used[h]; h = nextBoundary(h)) {
      used[h] = 1
      onPath.set(tail(edges, h), path.length)
      path.push(h)
      const back = onPath.get(head(edges, h))
      if (back === undefined) continue
      // The path has come back to a vertex: what it went round since is a ring of its own.
      const loop = path.splice(back)
      for (const l of loop) onPath.delete(tail(edges, l))
      rings.push(loop.map((l) => ({ x: points.xs[tail(edges, l)]!, y: points.ys[tail(edges, l)]! })))
    }
  }
  return rings.map(withoutStraightVertices).filter((ring) => ring.length >= 3)

  /** Turns as far left as the boundary allows: it keeps to the same face. */
  function nextBoundary(h: number): number {
    const v = head(edges, h)
    const begin = starts[v]!
    const degree = starts[v + 1]! - begin
    let at = 0
    while (out[begin + at] !== (h ^ 1)) at++
    for (let k = 1; k <= degree; k++) {
      const candidate = out[begin + ((at - k + degree) % degree)]!
      if (isBoundary(candidate)) return candidate
    }
    return h
  }
}

function withoutStraightVertices(ring: Point[]): Point[] {
  const kept: Point[] = []
  const straight = (a: Point, b: Point, c: Point) => (b.x - a.x) * (c.y - b.y) === (b.y - a.y) * (c.x - b.x)
  for (const p of ring) {
    while (kept.length >= 2 && straight(kept.at(-2)!, kept.at(-1)!, p)) kept.pop()
    kept.push(p)
  }
  while (kept.length >= 3 && straight(kept.at(-2)!, kept.at(-1)!, kept[0]!)) kept.pop()
  while (kept.length >= 3 && straight(kept.at(-1)!, kept[0]!, kept[1]!)) kept.shift()
  return kept
}

/** Twice the signed area of a ring. */
export function doubleArea(ring: readonly Point[]): number {
  const { x: ox, y: oy } = ring[0]!
  let sum = 0
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length]!
    sum += (p.x - ox) * (q.y - oy) - (q.x - ox) * (p.y - oy)
  })
  return sum
}

/** Gives each clockwise ring to the smallest counter-clockwise one that holds it. */
export function nestRings(rings: readonly Point[][]): Region[] {
  const outlines = rings
    .map((ring) => ({ ring, area: doubleArea(ring), box: boxOf([ring]), holes: [] as Point[][] }))
    .filter((o) => o.area > 0)
    .sort((p, q) => p.area - q.area)
  for (const hole of rings) {
    if (doubleArea(hole) >= 0) continue
    const box = boxOf([hole])
    const a = hole[0]!
    const b = hole[1]!
    // The middle of an edge: the boundary of another ring may touch the hole at its vertices.
    const at = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }
    const holder = outlines.find(
      (o) =>
        o.box.x0 <= box.x0 &&
        o.box.x1 >= box.x1 &&
        o.box.y0 <= box.y0 &&
        o.box.y1 >= box.y1 &&
        isInside(o.ring, at),
    )
    holder?.holes.push(hole)
  }
  return outlines.map(({ ring, holes }) => ({ outline: ring, holes }))
}
