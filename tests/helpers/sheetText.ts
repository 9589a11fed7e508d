/** Where the text of a drawing stands, and what lines there are, worked out apart from the code that placed them. */
import { flattenRing } from '../../src-core/geometry/flatten.ts'
import { polygonArea, polygonIntersection } from '../../src-core/geometry/polygon.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import type { Drawing, PlainPrimitive, TextPrimitive } from '../../src-core/drawing/model/model.ts'
import { plainPrimitives } from '../../src-core/drawing/model/plain.ts'
import { subPaths } from '../../src-core/drawing/model/subPaths.ts'
import { textWidth } from '../../src-core/drawing/text/textWidth.ts'

export interface Lettering {
  readonly text: string
  readonly primitive: TextPrimitive
  /** Its ground as a polygon, from baseline to capital height, a little shrunk. */
  readonly ground: readonly Point[]
}

const SHRINK = 0.15

export function lettering(drawing: Drawing): Lettering[] {
  return plainPrimitives(drawing).flatMap((p) => (p.kind === 'text' && p.text.trim() ? [lettered(p)] : []))
}

function lettered(p: TextPrimitive): Lettering {
  const width = textWidth(p.text, p.height, p.bold ?? false)
  const start = -width * { start: 0, middle: 0.5, end: 1 }[p.anchor]
  const a = (p.angle * Math.PI) / 180
  const at = (u: number, v: number): Point => ({
    x: p.at.x + u * Math.cos(a) - v * Math.sin(a),
    y: p.at.y + u * Math.sin(a) + v * Math.cos(a),
  })
  const [u0, u1, v0, v1] = [start + SHRINK, start + width - SHRINK, SHRINK, p.height - SHRINK]
  return { text: p.text, primitive: p, ground: [at(u0, v0), at(u1, v0), at(u1, v1), at(u0, v1)] }
}

const box = (points: readonly Point[]) => ({
  x0: Math.min(...points.map((p) => p.x)),
  x1: Math.max(...points.map((p) => p.x)),
  y0: Math.min(...points.map((p) => p.y)),
  y1: Math.max(...points.map((p) => p.y)),
})

const apart = (a: readonly Point[], b: readonly Point[]): boolean => {
  const p = box(a)
  const q = box(b)
  return p.x1 <= q.x0 || q.x1 <= p.x0 || p.y1 <= q.y0 || q.y1 <= p.y0
}

const meet = (a: readonly Point[], b: readonly Point[]): boolean =>
  !apart(a, b) && polygonArea(polygonIntersection([a], [b])) > 1e-3

/** `"one" over "other"` for texts that overlap. */
export function overlaps(texts: readonly Lettering[]): string[] {
  return texts.flatMap((a, i) =>
    texts.slice(i + 1).flatMap((b) => (meet(a.ground, b.ground) ? [`"${a.text}" over "${b.text}"`] : [])),
  )
}

/** Texts with a corner outside a rectangle. */
export function outside(
  texts: readonly Lettering[],
  area: { x0: number; y0: number; x1: number; y1: number },
): string[] {
  const isOut = (p: Point) => p.x < area.x0 || p.x > area.x1 || p.y < area.y0 || p.y > area.y1
  return texts.filter((t) => t.ground.some(isOut)).map((t) => `"${t.text}"`)
}

/** Texts over ground that a filter of primitives fills: the part, say. */
export function onGround(
  drawing: Drawing,
  texts: readonly Lettering[],
  isGround: (p: PlainPrimitive) => boolean,
): string[] {
  const grounds = plainPrimitives(drawing)
    .filter(isGround)
    .flatMap((p) =>
      p.kind === 'path' ? [subPaths(p.steps).map((run) => flattenRing(run.vertices, 0.05))] : [],
    )
  return texts
    .filter((t) =>
      grounds.some(
        (rings) =>
          !apart(t.ground, rings.flat()) && polygonArea(polygonIntersection([t.ground], rings)) > 1e-3,
      ),
    )
    .map((t) => `"${t.text}"`)
}

/** Texts that a drawn line passes through. */
export function struckThrough(drawing: Drawing, texts: readonly Lettering[]): string[] {
  const lines = plainPrimitives(drawing).flatMap((p) => {
    if (p.kind === 'text') return []
    if (p.kind === 'circle') {
      if (p.fill === 'solid') return []
      const ring = [
        { x: p.centre.x - p.radius, y: p.centre.y, bulge: 1 },
        { x: p.centre.x + p.radius, y: p.centre.y, bulge: 1 },
      ]
      return edges(flattenRing(ring, 0.05), true, p.layer)
    }
    return subPaths(p.steps).flatMap((run) => edges(flattenRing(run.vertices, 0.05), run.closed, p.layer))
  })
  return texts.flatMap((t) => {
    const hit = lines.find((s) => !apart([s.a, s.b], t.ground) && passes(s, t.ground))
    return hit ? [`"${t.text}" by ${hit.layer}`] : []
  })
}

function edges(points: readonly Point[], closed: boolean, layer: string) {
  const all = closed ? [...points, points[0]!] : points
  return all.slice(1).map((b, i) => ({ a: all[i]!, b, layer }))
}

/** Whether a segment has a point strictly within a convex polygon (counter-clockwise). */
function passes({ a, b }: { a: Point; b: Point }, polygon: readonly Point[]): boolean {
  let t0 = 0
  let t1 = 1
  for (let i = 0; i < polygon.length; i++) {
    const p = polygon[i]!
    const q = polygon[(i + 1) % polygon.length]!
    const inside = (r: Point) => (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x)
    const da = inside(a)
    const db = inside(b)
    if (da <= 0 && db <= 0) return false
    if (da < 0) t0 = Math.max(t0, da / (da - db))
    else if (db < 0) t1 = Math.min(t1, da / (da - db))
  }
  return t1 - t0 > 1e-9
}
