/** Makers of drawing primitives, all in sheet mm. */
import { toRadians } from '../../geometry/angles.ts'
import type { Point, Ring } from '../../geometry/types.ts'
import { settable } from '../text/textWidth.ts'
import type {
  CirclePrimitive,
  Fill,
  LayerName,
  PathPrimitive,
  PathStep,
  TextAnchor,
  TextPrimitive,
} from './model.ts'

export const line = (layer: LayerName, a: Point, b: Point): PathPrimitive => ({
  kind: 'path',
  layer,
  steps: [
    { to: 'move', x: a.x, y: a.y },
    { to: 'line', x: b.x, y: b.y },
  ],
})

export function polyline(
  layer: LayerName,
  points: readonly Point[],
  closed = false,
  fill: Fill = 'none',
): PathPrimitive {
  const steps: PathStep[] = points.map((p, i) => ({ to: i === 0 ? 'move' : 'line', x: p.x, y: p.y }))
  if (closed) steps.push({ to: 'close' })
  return { kind: 'path', layer, steps, fill }
}

export const box = (
  layer: LayerName,
  x: number,
  y: number,
  width: number,
  height: number,
  fill: Fill = 'none',
): PathPrimitive =>
  polyline(
    layer,
    [
      { x, y },
      { x: x + width, y },
      { x: x + width, y: y + height },
      { x, y: y + height },
    ],
    true,
    fill,
  )

export const circle = (
  layer: LayerName,
  centre: Point,
  radius: number,
  fill: Fill = 'none',
): CirclePrimitive => ({
  kind: 'circle',
  layer,
  centre: { x: centre.x, y: centre.y },
  radius,
  fill,
})

/** Rings (outline and holes) as one path, arcs kept. `map` takes model points to sheet points without mirroring. */
export function ringsPath(
  layer: LayerName,
  rings: readonly Ring[],
  map: (p: Point) => Point,
  fill: Fill = 'none',
): PathPrimitive {
  const steps: PathStep[] = []
  for (const ring of rings) {
    ring.forEach((v, i) => {
      const at = map(v)
      if (i === 0) steps.push({ to: 'move', x: at.x, y: at.y })
      const next = map(ring[(i + 1) % ring.length]!)
      if (v.bulge) steps.push({ to: 'arc', x: next.x, y: next.y, bulge: v.bulge })
      else if (i + 1 < ring.length) steps.push({ to: 'line', x: next.x, y: next.y })
    })
    steps.push({ to: 'close' })
  }
  return { kind: 'path', layer, steps, fill }
}

export interface TextOptions {
  readonly anchor?: TextAnchor
  readonly angle?: number
  readonly bold?: boolean
  readonly layer?: LayerName
}

export function text(at: Point, content: string, height: number, options: TextOptions = {}): TextPrimitive {
  return {
    kind: 'text',
    layer: options.layer ?? 'text',
    at: { x: at.x, y: at.y },
    text: settable(content),
    height,
    anchor: options.anchor ?? 'start',
    angle: options.angle ?? 0,
    ...(options.bold ? { bold: true } : {}),
  }
}

/** Filled arrowhead (ISO 129-1: 30° included angle, closed and filled), its point at `tip`, pointing along `direction` radians. */
export function arrowhead(layer: LayerName, tip: Point, direction: number, length = 2.5): PathPrimitive {
  const half = toRadians(15)
  const side = (sign: number): Point => ({
    x: tip.x - length * Math.cos(direction + sign * half),
    y: tip.y - length * Math.sin(direction + sign * half),
  })
  return polyline(layer, [tip, side(1), side(-1)], true, 'solid')
}
