/**
 * A region in a plane as a pile of rectangles, so that what is extruded from it and lies on its side can be looked at as
 * upright blocks. Flat steps are where they are; a slope or an arc becomes stairs.
 */
import { arcFraction, ringEdges, type Edge } from './edges.ts'
import { flattenRing } from './flatten.ts'
import { polygonArea, polygonDifference, polygonIntersection } from './polygon.ts'
import { boxOf, type Polygons } from './polygonBox.ts'
import { TOLERANCE } from './tolerance.ts'
import type { Point, Region, Ring } from './types.ts'

/** From x0 to x1, between heights y0 and y1, mm. */
export interface Layer {
  readonly x0: number
  readonly x1: number
  readonly y0: number
  readonly y1: number
}

/** mm by which a slope strays from its stairs at most, while there are no more steps than these between two heights. Own choice. */
const STEP = 1
const MOST_STEPS = 8
/** mm: as thin as a layer is beside a corner or a crown, so that nothing passes for flat that is not. */
const THIN = 0.05

/**
 * @param stairs 'outside': the pile holds all of the region. 'inside': the region holds all of the pile. 'middle': both
 * miss by half a step, so that areas and their moments agree.
 */
export function pileOf(region: Region, stairs: 'outside' | 'inside' | 'middle'): Layer[] {
  const rings = [region.outline, ...region.holes]
  const material = polygonsOf(region)
  const box = boxOf(material)
  const layers: Layer[] = []
  const levels = levelsOf(rings)
  for (let i = 0; i + 1 < levels.length; i++) {
    const [from, to] = [levels[i]!, levels[i + 1]!]
    const slopes = rings.flatMap((r) => ringEdges(r).map((e) => leanBetween(e, from, to)))
    const most = to - from <= 3 * THIN ? 1 : MOST_STEPS
    const steps = Math.min(most, Math.max(1, Math.ceil(Math.max(0, ...slopes) / STEP)))
    for (let k = 0; k < steps; k++) {
      const y0 = from + ((to - from) * k) / steps
      const y1 = from + ((to - from) * (k + 1)) / steps
      for (const [x0, x1] of spansOf(material, box, y0, y1, stairs))
        if (x1 - x0 > TOLERANCE.height) layers.push({ x0, x1, y0, y1 })
    }
  }
  return joined(layers)
}

const polygonsOf = ({ outline, holes }: Region): Polygons => {
  const flat = (r: Ring) => flattenRing(r, TOLERANCE.clashChord)
  return holes.reduce<Polygons>((left, h) => polygonDifference(left, [flat(h)]), [flat(outline)])
}

/** Heights of corners and of the tops and bottoms of arcs, and just beside them. */
function levelsOf(rings: readonly Ring[]): number[] {
  const levels = keyLevels(rings)
  return levels.flatMap((y, i) => {
    const to = levels[i + 1]
    return to !== undefined && to - y > 3 * THIN ? [y, y + THIN, to - THIN] : [y]
  })
}

function keyLevels(rings: readonly Ring[]): number[] {
  const all = rings.flatMap((ring) =>
    ringEdges(ring).flatMap(({ a, arc }) => [
      a.y,
      ...(arc && arcFraction(arc, Math.PI / 2) !== null ? [arc.centre.y + arc.radius] : []),
      ...(arc && arcFraction(arc, -Math.PI / 2) !== null ? [arc.centre.y - arc.radius] : []),
    ]),
  )
  const levels: number[] = []
  for (const y of all.sort((p, q) => p - q))
    if (levels.length === 0 || y - levels.at(-1)! > TOLERANCE.height) levels.push(y)
  return levels
}

/** mm that an edge goes sideways between two heights, reckoned as if it leant evenly. */
function leanBetween({ a, b, arc }: Edge, from: number, to: number): number {
  const low = arc ? arc.centre.y - arc.radius : Math.min(a.y, b.y)
  const high = arc ? arc.centre.y + arc.radius : Math.max(a.y, b.y)
  const shared = Math.min(high, to) - Math.max(low, from)
  if (shared <= TOLERANCE.height) return 0
  return arc ? Math.max(arc.radius, shared) : (Math.abs(b.x - a.x) * shared) / Math.max(high - low, shared)
}

function spansOf(
  material: Polygons,
  box: { readonly x0: number; readonly x1: number },
  y0: number,
  y1: number,
  stairs: 'outside' | 'inside' | 'middle',
): [number, number][] {
  const strip = (low: number, high: number): Point[] => [
    { x: box.x0 - 1, y: low },
    { x: box.x1 + 1, y: low },
    { x: box.x1 + 1, y: high },
    { x: box.x0 - 1, y: high },
  ]
  if (stairs === 'middle') {
    // A sliver about the middle has the section's own spans.
    const [middle, half] = [(y0 + y1) / 2, (y1 - y0) / 1000]
    return merged(polygonIntersection(material, [strip(middle - half, middle + half)]))
  }
  const here = polygonIntersection(material, [strip(y0, y1)])
  const spans = merged(here)
  if (stairs === 'outside') return spans
  const missing = polygonDifference([strip(y0, y1)], material).filter((r) => polygonArea([r]) > 1e-6)
  return spans.flatMap((s) => lessSpans(s, merged(missing)))
}

/** What outlines cover of the x axis. Holes lie within. */
function merged(polygons: Polygons): [number, number][] {
  const spans = polygons
    .map((ring): [number, number] => [Math.min(...ring.map((p) => p.x)), Math.max(...ring.map((p) => p.x))])
    .sort((a, b) => a[0] - b[0])
  const out: [number, number][] = []
  for (const [x0, x1] of spans) {
    const last = out.at(-1)
    if (last && x0 <= last[1] + TOLERANCE.coincident) last[1] = Math.max(last[1], x1)
    else out.push([x0, x1])
  }
  return out
}

function lessSpans([x0, x1]: [number, number], gone: readonly [number, number][]): [number, number][] {
  const left: [number, number][] = []
  let from = x0
  for (const [a, b] of gone) {
    if (b <= from || a >= x1) continue
    if (a > from) left.push([from, a])
    from = Math.max(from, b)
  }
  if (from < x1) left.push([from, x1])
  return left
}

/** Layers of one width that stand on each other are one. */
function joined(layers: readonly Layer[]): Layer[] {
  const out: Layer[] = []
  for (const l of layers) {
    const under = out.findIndex(
      (o) =>
        Math.abs(o.y1 - l.y0) <= TOLERANCE.coincident &&
        Math.abs(o.x0 - l.x0) <= TOLERANCE.coincident &&
        Math.abs(o.x1 - l.x1) <= TOLERANCE.coincident,
    )
    if (under >= 0) out[under] = { ...out[under]!, y1: l.y1 }
    else out.push(l)
  }
  return out
}
