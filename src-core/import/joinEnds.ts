/** Joins loose edges into rings, end to end. */
import type { Point, Vertex } from '../geometry/types.ts'
import { plain } from '../units/format.ts'
import { reverseChain, type Chain } from './chain.ts'
import type { DropList } from './dropList.ts'

interface Link {
  readonly chain: Chain
  /** Nodes at its beginning and end. */
  readonly from: number
  readonly to: number
  alive: boolean
}

/**
 * Rings made of open chains whose ends lie within `tolerance` of each other. What is not part of a ring is dropped
 * with its reason: too short, drawn twice, ending nowhere, or branching.
 */
export function joinEnds(chains: readonly Chain[], tolerance: number, drops: DropList): Vertex[][] {
  const nodes = new Nodes(tolerance)
  const rings: Vertex[][] = []
  const links: Link[] = []
  for (const chain of chains) {
    const first = chain.vertices[0]!
    const last = chain.vertices.at(-1)!
    const from = nodes.find(first)
    const to = nodes.find(last)
    if (from !== to) links.push({ chain, from, to, alive: true })
    else if (runLength(chain.vertices) <= 2 * tolerance)
      drops.add(chain.kind, 'shorter than the joining tolerance', chain.place)
    else rings.push(chain.vertices.slice(0, -1))
  }
  dropRepeated(links, tolerance, drops)
  const around: Link[][] = nodes.points.map(() => [])
  for (const link of links) {
    if (!link.alive) continue
    around[link.from]!.push(link)
    around[link.to]!.push(link)
  }
  dropLooseEnds(around, nodes.points, drops)
  const left = around.map((list) => list.filter((link) => link.alive))
  rings.push(...traceRings(links, left, nodes.points, drops))
  return rings
}

/** Numbers places; one within the tolerance of an earlier one is that one. */
class Nodes {
  readonly points: Point[] = []
  private readonly tolerance: number
  private readonly cell: number
  private readonly cells = new Map<string, number[]>()

  constructor(tolerance: number) {
    this.tolerance = tolerance
    this.cell = 4 * tolerance
  }

  find({ x, y }: Point): number {
    const { tolerance, cell } = this
    for (let i = Math.floor((x - tolerance) / cell); i <= Math.floor((x + tolerance) / cell); i++) {
      for (let j = Math.floor((y - tolerance) / cell); j <= Math.floor((y + tolerance) / cell); j++) {
        for (const n of this.cells.get(`${i} ${j}`) ?? []) {
          const p = this.points[n]!
          if (Math.hypot(p.x - x, p.y - y) <= tolerance) return n
        }
      }
    }
    const key = `${Math.floor(x / cell)} ${Math.floor(y / cell)}`
    const here = this.cells.get(key)
    if (here) here.push(this.points.length)
    else this.cells.set(key, [this.points.length])
    return this.points.push({ x, y }) - 1
  }
}

const other = (link: Link, node: number) => (link.from === node ? link.to : link.from)

/** Length of a run along its chords. */
function runLength(vertices: readonly Vertex[]): number {
  let sum = 0
  for (let i = 1; i < vertices.length; i++) {
    const a = vertices[i - 1]!
    const b = vertices[i]!
    sum += Math.hypot(b.x - a.x, b.y - a.y) * (1 + Math.abs(a.bulge ?? 0))
  }
  return sum
}

/** The same edge drawn twice, either way round: one edge or one polyline with the same vertices. */
function dropRepeated(links: readonly Link[], tolerance: number, drops: DropList): void {
  const byEnds = new Map<string, Link[]>()
  for (const link of links) {
    const key = `${Math.min(link.from, link.to)} ${Math.max(link.from, link.to)}`
    const same = byEnds.get(key)
    if (!same) byEnds.set(key, [link])
    // A few are compared: many edges between the same two ends branch in any case.
    else if (same.slice(0, 8).some((earlier) => equalRun(earlier, link, tolerance))) {
      link.alive = false
      drops.add(link.chain.kind, 'drawn twice', link.chain.place)
    } else same.push(link)
  }
}

function equalRun(p: Link, q: Link, tolerance: number): boolean {
  const a = p.chain.vertices
  const b = q.from === p.from ? q.chain.vertices : reverseChain(q.chain.vertices)
  return (
    a.length === b.length &&
    a.every((v, i) => {
      const w = b[i]!
      const next = a[i + 1]
      const chord = next ? Math.hypot(next.x - v.x, next.y - v.y) : 0
      const sagitta = (Math.abs((v.bulge ?? 0) - (w.bulge ?? 0)) * chord) / 2
      return Math.hypot(v.x - w.x, v.y - w.y) <= 2 * tolerance && sagitta <= 2 * tolerance
    })
  )
}

/** Takes away runs with a free end, again and again, until every end meets another. */
function dropLooseEnds(around: readonly Link[][], points: readonly Point[], drops: DropList): void {
  const degree = around.map((list) => list.length)
  for (let start = 0; start < degree.length; start++) {
    let node = start
    let edges = 0
    let first: Chain | null = null
    while (degree[node] === 1) {
      const link = around[node]!.find((l) => l.alive)!
      link.alive = false
      first ??= link.chain
      edges++
      degree[node] = 0
      node = other(link, node)
      degree[node] = degree[node]! - 1
    }
    if (!first) continue
    const a = points[start]!
    const b = points[node]!
    const gap = Math.hypot(a.x - b.x, a.y - b.y)
    const reason =
      degree[node] === 0
        ? `an open run of ${count(edges)}: its ends are ${plain(gap, 3)} apart`
        : `a run of ${count(edges)} with a free end`
    drops.add(first.kind, reason, `x ${plain(a.x, 2)}, y ${plain(a.y, 2)} (${first.place})`, edges)
  }
}

const count = (edges: number) => (edges === 1 ? '1 edge' : `${edges} edges`)

/** Rings where every node joins two edges; a connected piece with a node that joins more is dropped whole. */
function traceRings(
  links: readonly Link[],
  around: readonly Link[][],
  points: readonly Point[],
  drops: DropList,
): Vertex[][] {
  const rings: Vertex[][] = []
  for (const start of links) {
    if (!start.alive) continue
    const piece = connected(start, around)
    for (const link of piece) link.alive = false
    const branch = piece
      .map((l) => [l.from, l.to].find((n) => around[n]!.length > 2))
      .find((n) => n !== undefined)
    if (branch !== undefined) {
      const { x, y } = points[branch]!
      const reason = `${around[branch]!.length} edges meet in one place, so that no single outline can be followed`
      drops.add(
        start.chain.kind,
        reason,
        `x ${plain(x, 2)}, y ${plain(y, 2)} (${start.chain.place})`,
        piece.length,
      )
      continue
    }
    rings.push(follow(start, around, points))
  }
  return rings
}

function connected(start: Link, around: readonly Link[][]): Link[] {
  const seen = new Set([start])
  for (const link of seen) {
    for (const node of [link.from, link.to]) for (const next of around[node]!) seen.add(next)
  }
  return [...seen]
}

function follow(start: Link, around: readonly Link[][], points: readonly Point[]): Vertex[] {
  const ring: Vertex[] = []
  let link = start
  let node = start.from
  do {
    const run = link.from === node ? link.chain.vertices : reverseChain(link.chain.vertices)
    // The joint itself is where the first of its edges ends, so that nothing is left between them.
    const joint = points[node]!
    run.slice(0, -1).forEach((v, i) => ring.push(i === 0 ? { ...v, x: joint.x, y: joint.y } : v))
    node = other(link, node)
    const [p, q] = around[node]!
    link = p === link ? q! : p!
  } while (link !== start)
  return ring
}
