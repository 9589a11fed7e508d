/** Draws one item of the display list on a 2D context that is already in plate millimetres, y up. */
import { FULL_TURN, toRadians } from '../../src-core/geometry/angles.ts'
import type { SceneItem } from '../scene/items.ts'
import { isLong, outlineOf } from './outline.ts'
import type { Paint, Palette } from './palette.ts'
import { paintArrow, paintPoints, paintSign, paintText } from './signs.ts'

export interface Brush {
  readonly palette: Palette
  /** Pixels a millimetre. */
  readonly scale: number
  /** The picture's turn, degrees, that text and signs undo. */
  readonly turn: number
}

export function paintItem(ctx: CanvasRenderingContext2D, item: SceneItem, brush: Brush): void {
  switch (item.kind) {
    case 'text':
      return paintText(ctx, item, brush)
    case 'sign':
      return paintSign(ctx, item, brush)
    case 'arrow':
      return paintArrow(ctx, item, brush)
    case 'points':
      return paintPoints(ctx, item, brush)
    case 'picture':
      return paintPicture(ctx, item)
    case 'line':
    case 'path':
    case 'circle':
      return paintShape(ctx, item, brush)
    case 'region':
      paintShape(ctx, item, brush)
      if (item.role === 'plate') paintFacing(ctx, item, brush)
  }
}

function paintPicture(ctx: CanvasRenderingContext2D, item: Extract<SceneItem, { kind: 'picture' }>): void {
  const { a, b, c, d, e, f } = item.map
  ctx.save()
  ctx.globalAlpha = item.opacity
  ctx.imageSmoothingQuality = 'high'
  ctx.transform(a, b, c, d, e, f)
  ctx.drawImage(item.image, 0, 0)
  ctx.restore()
}

function paintShape(ctx: CanvasRenderingContext2D, item: SceneItem, brush: Brush): void {
  const paint = brush.palette.roles[item.role]
  const outline = outlineOf(item, brush.scale)
  const long = isLong(item)
  // A round join is an arc of its own: thousands of them are most of the work of a long outline.
  ctx.lineJoin = long ? 'miter' : 'round'
  ctx.miterLimit = 2
  if (paint.lift && !long) paintShadow(ctx, outline, paint.lift, brush)
  if (paint.fill) {
    ctx.fillStyle = paint.fill
    ctx.fill(outline, 'evenodd')
  }
  paintEmphasis(ctx, outline, item, brush)
  if (paint.casing && !long)
    strokeWith(ctx, outline, { stroke: paint.casing, width: (paint.width ?? 1) + 3 }, brush)
  strokeWith(ctx, outline, paint, brush)
}

function paintShadow(
  ctx: CanvasRenderingContext2D,
  outline: Path2D,
  lift: number,
  { palette, scale, turn }: Brush,
): void {
  const reach = Math.min(lift, lift * scale * 0.6) / scale
  const t = toRadians(-turn)
  ctx.save()
  // Down and to the right on the screen, whichever way the picture is turned.
  ctx.translate(
    reach * 0.6 * Math.cos(t) + reach * Math.sin(t),
    reach * 0.6 * Math.sin(t) - reach * Math.cos(t),
  )
  ctx.fillStyle = palette.shadow
  ctx.fill(outline, 'evenodd')
  ctx.restore()
}

/** A halo under the outline: selection, pointing, and what was found out about it. */
function paintEmphasis(ctx: CanvasRenderingContext2D, outline: Path2D, item: SceneItem, brush: Brush): void {
  const e = item.emphasis
  if (!e) return
  const { verdict, select, hover } = brush.palette
  const halo = (stroke: string, width: number) => strokeWith(ctx, outline, { stroke, width }, brush)
  if (e.flag === 'stop') halo(verdict.stop, 5)
  else if (e.flag === 'not-judged') halo(verdict['not-judged'], 5)
  else if (e.flag === 'caution') halo(verdict.caution, 4)
  if (e.selected) halo(select, 6)
  else if (e.hovered) halo(hover, 4)
}

function strokeWith(ctx: CanvasRenderingContext2D, outline: Path2D, paint: Paint, { scale }: Brush): void {
  if (!paint.stroke) return
  ctx.strokeStyle = paint.stroke
  ctx.lineWidth = (paint.width ?? 1) / scale
  ctx.setLineDash((paint.dash ?? []).map((d) => d / scale))
  ctx.stroke(outline)
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
  ctx.clip(outlineOf(item, scale), 'evenodd')
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
    ctx.arc(0, 0, r, 0, FULL_TURN)
  }
  ctx.stroke()
  // The chamfered rim.
  ctx.lineWidth = rim * 0.012
  ctx.strokeStyle = dark
  ctx.beginPath()
  ctx.arc(0, 0, rim * 0.985, 0, FULL_TURN)
  ctx.stroke()
  ctx.restore()
}
