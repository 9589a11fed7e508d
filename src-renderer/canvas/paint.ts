/** Draws one item of the display list on a 2D context that is already in plate millimetres, y up. */
import { ringEdges } from '../../src-core/geometry/edges.ts'
import type { Ring } from '../../src-core/geometry/types.ts'
import type { SceneItem } from '../scene/items.ts'
import type { Paint, Palette } from './palette.ts'
import { paintArrow, paintSign, paintText } from './signs.ts'

export interface Brush {
  readonly palette: Palette
  /** Pixels a millimetre. */
  readonly scale: number
  /** The picture's turn, degrees, that text and signs undo. */
  readonly turn: number
}

export function traceRing(ctx: CanvasRenderingContext2D, ring: Ring): void {
  const first = ring[0]
  if (!first) return
  ctx.moveTo(first.x, first.y)
  for (const { b, arc } of ringEdges(ring)) {
    if (arc) ctx.arc(arc.centre.x, arc.centre.y, arc.radius, arc.start, arc.start + arc.sweep, arc.sweep < 0)
    else ctx.lineTo(b.x, b.y)
  }
  ctx.closePath()
}

export function paintItem(ctx: CanvasRenderingContext2D, item: SceneItem, brush: Brush): void {
  switch (item.kind) {
    case 'text':
      return paintText(ctx, item, brush)
    case 'sign':
      return paintSign(ctx, item, brush)
    case 'arrow':
      return paintArrow(ctx, item, brush)
    case 'line':
      return paintShape(ctx, item, brush, () => {
        item.points.forEach((p, i) => (i === 0 ? ctx.moveTo(p.x, p.y) : ctx.lineTo(p.x, p.y)))
      })
    case 'circle':
      return paintShape(ctx, item, brush, () =>
        ctx.arc(item.centre.x, item.centre.y, item.radius, 0, 2 * Math.PI),
      )
    case 'region':
      paintShape(ctx, item, brush, () => item.rings.forEach((r) => traceRing(ctx, r)))
      if (item.role === 'plate') paintFacing(ctx, item, brush)
  }
}

function paintShape(ctx: CanvasRenderingContext2D, item: SceneItem, brush: Brush, trace: () => void): void {
  const paint = brush.palette.roles[item.role]
  if (paint.lift) paintShadow(ctx, paint.lift, brush, trace)
  ctx.beginPath()
  trace()
  if (paint.fill) {
    ctx.fillStyle = paint.fill
    ctx.fill('evenodd')
  }
  paintEmphasis(ctx, item, brush)
  strokeWith(ctx, paint, brush)
}

function paintShadow(
  ctx: CanvasRenderingContext2D,
  lift: number,
  { palette, scale, turn }: Brush,
  trace: () => void,
): void {
  const reach = Math.min(lift, lift * scale * 0.6) / scale
  const t = (-turn * Math.PI) / 180
  ctx.save()
  // Down and to the right on the screen, whichever way the picture is turned.
  ctx.translate(
    reach * 0.6 * Math.cos(t) + reach * Math.sin(t),
    reach * 0.6 * Math.sin(t) - reach * Math.cos(t),
  )
  ctx.beginPath()
  trace()
  ctx.fillStyle = palette.shadow
  ctx.fill('evenodd')
  ctx.restore()
}

/** A halo under the outline: selection, pointing, and what was found out about it. */
function paintEmphasis(ctx: CanvasRenderingContext2D, item: SceneItem, { palette, scale }: Brush): void {
  const e = item.emphasis
  if (!e) return
  const halo = (colour: string, px: number, dash: readonly number[] = []) => {
    ctx.strokeStyle = colour
    ctx.lineWidth = px / scale
    ctx.setLineDash(dash.map((d) => d / scale))
    ctx.lineJoin = 'round'
    ctx.stroke()
  }
  if (e.flag === 'stop') halo(palette.verdict.stop, 5)
  else if (e.flag === 'caution') halo(palette.verdict.caution, 4)
  if (e.selected) halo(palette.select, 6)
  else if (e.hovered) halo(palette.hover, 4)
}

function strokeWith(ctx: CanvasRenderingContext2D, paint: Paint, { scale }: Brush): void {
  if (!paint.stroke) return
  ctx.strokeStyle = paint.stroke
  ctx.lineWidth = (paint.width ?? 1) / scale
  ctx.setLineDash((paint.dash ?? []).map((d) => d / scale))
  ctx.lineJoin = 'round'
  ctx.stroke()
  ctx.setLineDash([])
}

/** The sheen and the fine rings of a faced surface. */
function paintFacing(
  ctx: CanvasRenderingContext2D,
  item: Extract<SceneItem, { kind: 'region' }>,
  { palette, scale }: Brush,
): void {
  const rim = Math.abs(item.rings[0]![0]!.x)
  const { light, dark, ring } = palette.sheen
  ctx.save()
  ctx.beginPath()
  item.rings.forEach((r) => traceRing(ctx, r))
  ctx.clip('evenodd')
  const sheen = ctx.createConicGradient(Math.PI * 0.2, 0, 0)
  ;[light, dark, light, dark, light].forEach((c, i, all) => sheen.addColorStop(i / (all.length - 1), c))
  ctx.fillStyle = sheen
  ctx.fillRect(-rim, -rim, 2 * rim, 2 * rim)
  ctx.strokeStyle = ring
  ctx.lineWidth = 1 / scale
  ctx.beginPath()
  const step = Math.max(rim / 42, 3 / scale)
  for (let r = step; r < rim; r += step) {
    ctx.moveTo(r, 0)
    ctx.arc(0, 0, r, 0, 2 * Math.PI)
  }
  ctx.stroke()
  // The chamfered rim.
  ctx.lineWidth = rim * 0.012
  ctx.strokeStyle = dark
  ctx.beginPath()
  ctx.arc(0, 0, rim * 0.985, 0, 2 * Math.PI)
  ctx.stroke()
  ctx.restore()
}
