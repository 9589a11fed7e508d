/** Sorts rings into outlines and their holes, and checks them. */
import { ringEdges, edgeBounds, edgesBox, type Edge } from '../geometry/edges.ts'
import { ringMoments, type Moments } from '../geometry/ringMoments.ts'
import { windingNumber } from '../geometry/nearest.ts'
import type { Box } from '../geometry/polygonBox.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point, Region, Ring, Vertex } from '../geometry/types.ts'
import { regionFaults } from '../geometry/validate.ts'
import { LIMITS } from '../job/schema.ts'
import { plain } from '../units/format.ts'
import { regionFaultWords } from '../words/ringFaults.ts'
import type { DropList } from './dropList.ts'
import { CAPS, Refusal } from './refusal.ts'
import type { PreviewFault } from './types.ts'

interface Placed {
  readonly ring: Vertex[]
  readonly edges: readonly Edge[]
  readonly moments: Moments
  readonly box: Box
  readonly holes: Placed[]
  depth: number
}

/**
 * Largest first, each ring is put into the smallest one that holds it: the outermost are outlines, what lies in them
 * holes, what lies in those outlines again, and so on. Rings that enclose nothing or were drawn twice are dropped.
 */
export function nestRings(rings: readonly Vertex[][], tolerance: number, drops: DropList): Region[] {
  if (rings.length > CAPS.rings)
    throw new Refusal('the whole file', `more than ${CAPS.rings} closed outlines`)
  const placed: Placed[] = []
  for (const given of rings) {
    const raw = closedOnce(given)
    const ring = withoutRepeats(raw)
    if (ring.length < raw.length)
      drops.add('vertex', 'the same as the one before it', spot(raw[0]), raw.length - ring.length)
    const p = place(ring)
    if (p) placed.push(p)
    else drops.add('outline', 'encloses no area', spot(raw[0]))
  }
  placed.sort((p, q) => q.moments.area - p.moments.area)
  const work = { left: CAPS.comparisons }
  const kept: Placed[] = []
  for (const p of placed) {
    if (kept.some((k) => isSame(k, p, tolerance))) {
      drops.add('outline', 'drawn twice', spot(p.ring[0]))
      continue
    }
    const holder = smallestHolder(kept, p, work)
    p.depth = holder ? holder.depth + 1 : 0
    if (holder && p.depth % 2 === 1) holder.holes.push(p)
    kept.push(p)
  }
  const outlines = kept.filter((p) => p.depth % 2 === 0)
  return outlines.map(({ ring, holes }) => ({ outline: ring, holes: holes.map((h) => h.ring) }))
}

const spot = (p: Point | undefined) => (p ? `x ${plain(p.x, 2)}, y ${plain(p.y, 2)}` : '')

function place(ring: Vertex[]): Placed | null {
  if (ring.length < (ring.some((v) => v.bulge) ? 2 : 3)) return null
  const edges = ringEdges(ring)
  const moments = ringMoments(ring, ring[0])
  const length = edges.reduce((sum, e) => sum + Math.hypot(e.b.x - e.a.x, e.b.y - e.a.y), 0)
  if (!(moments.area > TOLERANCE.coincident * length)) return null
  return { ring, edges, moments, box: edgesBox(edges), holes: [], depth: 0 }
}

const near = (p: Point, q: Point) => Math.hypot(p.x - q.x, p.y - q.y) <= TOLERANCE.coincident

/** A last vertex that repeats the first only says that the ring closes. */
function closedOnce(ring: readonly Vertex[]): readonly Vertex[] {
  return ring.length > 2 && near(ring[0]!, ring.at(-1)!) ? ring.slice(0, -1) : ring
}

function withoutRepeats(ring: readonly Vertex[]): Vertex[] {
  const kept = ring.filter((v, i) => !near(v, ring[(i + 1) % ring.length]!))
  return kept.length === ring.length ? [...ring] : kept
}

/** Boxes first, and no closures: this runs for every pair of rings. */
function isSame(p: Placed, q: Placed, tolerance: number): boolean {
  const a = p.box
  const b = q.box
  const most = 2 * tolerance
  if (Math.abs(a.x0 - b.x0) > most || Math.abs(a.x1 - b.x1) > most) return false
  if (Math.abs(a.y0 - b.y0) > most || Math.abs(a.y1 - b.y1) > most) return false
  return Math.abs(p.moments.area - q.moments.area) <= most * (a.x1 - a.x0 + a.y1 - a.y0)
}

function smallestHolder(kept: readonly Placed[], p: Placed, work: { left: number }): Placed | null {
  // The middle of an edge rather than a vertex, which might rest on the other ring.
  const [a, b] = [p.ring[0]!, p.ring[1]!]
  const at = p.edges[0]!.arc ? a : { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }
  for (let i = kept.length - 1; i >= 0; i--) {
    const k = kept[i]!
    if (k.box.x0 > p.box.x0 || k.box.x1 < p.box.x1 || k.box.y0 > p.box.y0 || k.box.y1 < p.box.y1) continue
    work.left -= k.edges.length
    if (work.left < 0)
      throw new Refusal('the whole file', 'too many outlines inside one another to be sorted')
    if (windingNumber(k.edges, at) !== 0) return k
  }
  return null
}

/** What keeps outlines from becoming bodies, each with its place. */
export function outlineFaults(outlines: readonly Region[]): PreviewFault[] {
  const work = { left: CAPS.comparisons }
  return outlines.flatMap((region, outline): PreviewFault[] => {
    const say = (message: string, at: Point | null): PreviewFault => ({ outline, at, message })
    const rings = [region.outline, ...region.holes]
    const most = Math.max(...rings.map((r) => r.length))
    if (most > LIMITS.verticesPerRing)
      return [say(`has ${most} vertices, more than the ${LIMITS.verticesPerRing} allowed`, null)]
    if (region.holes.length > LIMITS.holesPerBody) {
      return [say(`has ${region.holes.length} holes, more than the ${LIMITS.holesPerBody} allowed`, null)]
    }
    const far = rings
      .flat()
      .find((v) => !(Math.abs(v.x) <= LIMITS.coordinate && Math.abs(v.y) <= LIMITS.coordinate))
    if (far) return [say(`reaches beyond ${LIMITS.coordinate}`, { x: far.x, y: far.y })]
    work.left -= comparisons(rings)
    if (work.left < 0) return [say('is too intricate to be checked', null)]
    return regionFaults(region, 5).map((fault) => say(regionFaultWords(fault), fault.at))
  })
}

/** How many pairs of edges lie above one another: what a check by sweeping compares. */
function comparisons(rings: readonly Ring[]): number {
  const boxes = rings.flatMap((ring) => ringEdges(ring).map(edgeBounds))
  const starts = Float64Array.from(boxes, (b) => b.x0).sort()
  const ends = Float64Array.from(boxes, (b) => b.x1).sort()
  let open = 0
  let done = 0
  let pairs = 0
  for (const start of starts) {
    while (ends[done]! < start) {
      done++
      open--
    }
    pairs += open
    open++
  }
  return pairs
}
