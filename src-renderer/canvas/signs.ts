/** Text, arrows and signs of a fixed size on the screen, drawn upright however the picture is turned. */
import { FULL_TURN, toRadians } from '../../src-core/geometry/angles.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import type { SceneItem } from '../scene/items.ts'
import type { Brush } from './paint.ts'

type Item<K extends SceneItem['kind']> = Extract<SceneItem, { kind: K }>
const FONT = '"DejaVu Sans Condensed", "DejaVu Sans", sans-serif'

/** Runs `draw` in screen pixels about a plate point, x right and y down. */
function upright(ctx: CanvasRenderingContext2D, at: Point, { scale, turn }: Brush, draw: () => void): void {
  ctx.save()
  ctx.translate(at.x, at.y)
  ctx.rotate(toRadians(-turn))
  ctx.scale(1 / scale, -1 / scale)
  draw()
  ctx.restore()
}

const TEXT = {
  label: { size: 12, weight: 'bold', back: false },
  tag: { size: 12, weight: 'bold', back: true },
  'machine-label': { size: 12, weight: 'normal', back: false },
  'guide-text': { size: 14, weight: 'bold', back: true },
  'fault-text': { size: 13, weight: 'bold', back: true },
} as const

export function paintText(ctx: CanvasRenderingContext2D, item: Item<'text'>, brush: Brush): void {
  const { text: colours } = brush.palette
  const style = item.role in TEXT ? TEXT[item.role as keyof typeof TEXT] : TEXT.label
  const isFault = item.role === 'fault-text'
  const note = item.role === 'guide-text' || isFault
  upright(ctx, item.at, brush, () => {
    ctx.font = `${style.weight} ${style.size}px ${FONT}`
    ctx.textBaseline = 'middle'
    ctx.textAlign = item.align === 'centre' ? 'center' : (item.align ?? 'left')
    const x = item.offset?.x ?? 0
    const y = item.offset?.y ?? 0
    if (style.back) {
      const pad = note ? 8 : 4
      const w = ctx.measureText(item.text).width + 2 * pad
      const h = style.size + (note ? 10 : 5)
      ctx.fillStyle = isFault
        ? brush.palette.verdict.stop
        : note
          ? item.emphasis?.selected
            ? brush.palette.verdict.go
            : colours.noteBack
          : colours.tagBack
      ctx.beginPath()
      ctx.roundRect(ctx.textAlign === 'center' ? x - w / 2 : x - pad, y - h / 2, w, h, note ? 4 : 3)
      ctx.fill()
    }
    ctx.fillStyle = note
      ? colours.note
      : item.role === 'tag'
        ? colours.tag
        : item.role === 'machine-label'
          ? colours.machine
          : colours.label
    if (item.role === 'label' && (item.emphasis?.selected || item.emphasis?.hovered))
      ctx.fillStyle = brush.palette.select
    ctx.fillText(item.text, x, y + 0.5)
  })
}

/** The heavy side: a shaft from near the axis, its head at the rim. */
export function paintArrow(
  ctx: CanvasRenderingContext2D,
  item: Item<'arrow'>,
  { palette, scale }: Brush,
): void {
  const dx = item.to.x - item.from.x
  const dy = item.to.y - item.from.y
  const length = Math.hypot(dx, dy)
  if (length === 0) return
  const head = Math.min(length * 0.4, 24 / scale)
  const colour = palette.verdict[item.verdict]
  ctx.save()
  ctx.translate(item.from.x, item.from.y)
  ctx.rotate(Math.atan2(dy, dx))
  ctx.lineJoin = 'round'
  const outline = () => {
    const w = 2.25 / scale
    ctx.beginPath()
    ctx.moveTo(0, -w)
    ctx.lineTo(length - head, -w)
    ctx.lineTo(length - head, -head * 0.42)
    ctx.lineTo(length, 0)
    ctx.lineTo(length - head, head * 0.42)
    ctx.lineTo(length - head, w)
    ctx.lineTo(0, w)
    ctx.closePath()
  }
  outline()
  ctx.strokeStyle = palette.roles['centre-of-mass'].fill!
  ctx.lineWidth = 4 / scale
  ctx.stroke()
  ctx.fillStyle = colour
  ctx.fill()
  ctx.restore()
}

export function paintSign(ctx: CanvasRenderingContext2D, item: Item<'sign'>, brush: Brush): void {
  const { palette } = brush
  const paint = palette.roles[item.role]
  upright(ctx, item.at, brush, () => {
    ctx.lineWidth = paint.width ?? 1.5
    ctx.strokeStyle = paint.stroke ?? palette.select
    ctx.fillStyle = paint.fill ?? palette.select
    switch (item.sign) {
      case 'axis':
        return cross(ctx, 26)
      case 'centre-of-mass':
        return quarteredDisc(ctx, paint.stroke!, paint.fill!, 9)
      case 'dot':
        return quarteredDisc(ctx, paint.stroke!, paint.fill!, 5.5)
      case 'ring':
        return rings(ctx, palette.select)
      case 'corner':
        return corner(ctx, palette.verdict[item.verdict ?? 'caution'])
      case 'nose':
        return disc(ctx, 8)
      case 'turn':
        return turnHandle(ctx)
    }
  })
}

function disc(ctx: CanvasRenderingContext2D, r: number): void {
  ctx.beginPath()
  ctx.arc(0, 0, r, 0, FULL_TURN)
  ctx.fill()
  ctx.stroke()
}

/** Chain-line cross of an axis: long strokes with a short one at the middle. */
function cross(ctx: CanvasRenderingContext2D, r: number): void {
  ctx.beginPath()
  for (const [x, y] of [
    [1, 0],
    [0, 1],
  ] as const) {
    ctx.moveTo(-x * r, -y * r)
    ctx.lineTo(-x * 8, -y * 8)
    ctx.moveTo(-x * 4, -y * 4)
    ctx.lineTo(x * 4, y * 4)
    ctx.moveTo(x * 8, y * 8)
    ctx.lineTo(x * r, y * r)
  }
  ctx.stroke()
}

/** The usual sign of a centre of mass: a disc in quarters. */
function quarteredDisc(ctx: CanvasRenderingContext2D, dark: string, light: string, r: number): void {
  ctx.fillStyle = light
  ctx.beginPath()
  ctx.arc(0, 0, r, 0, FULL_TURN)
  ctx.fill()
  ctx.fillStyle = dark
  for (const start of [0, Math.PI]) {
    ctx.beginPath()
    ctx.moveTo(0, 0)
    ctx.arc(0, 0, r, start, start + Math.PI / 2)
    ctx.fill()
  }
  ctx.beginPath()
  ctx.arc(0, 0, r, 0, FULL_TURN)
  ctx.strokeStyle = dark
  ctx.stroke()
}

function rings(ctx: CanvasRenderingContext2D, colour: string): void {
  for (const [r, width, alpha] of [
    [18, 3.5, 1],
    [27, 2, 0.55],
  ] as const) {
    ctx.globalAlpha = alpha
    ctx.lineWidth = width
    ctx.strokeStyle = colour
    ctx.beginPath()
    ctx.arc(0, 0, r, 0, FULL_TURN)
    ctx.stroke()
  }
  ctx.globalAlpha = 1
}

function corner(ctx: CanvasRenderingContext2D, colour: string): void {
  ctx.strokeStyle = colour
  ctx.lineWidth = 2.25
  ctx.beginPath()
  ctx.moveTo(0, -7)
  ctx.lineTo(7, 0)
  ctx.lineTo(0, 7)
  ctx.lineTo(-7, 0)
  ctx.closePath()
  ctx.stroke()
}

/** A knob with a turning arrow in it. */
function turnHandle(ctx: CanvasRenderingContext2D): void {
  disc(ctx, 13)
  ctx.lineWidth = 2
  ctx.beginPath()
  ctx.arc(0, 0, 6, -Math.PI * 0.85, Math.PI * 0.45)
  ctx.stroke()
  const end = { x: 6 * Math.cos(Math.PI * 0.45), y: 6 * Math.sin(Math.PI * 0.45) }
  ctx.beginPath()
  ctx.moveTo(end.x + 4.5, end.y + 0.5)
  ctx.lineTo(end.x - 1.5, end.y + 3.8)
  ctx.lineTo(end.x - 1, end.y - 3.6)
  ctx.closePath()
  ctx.fillStyle = ctx.strokeStyle
  ctx.fill()
}

/** Beyond this a grip each is a smear: plain dots, and none nearer to the one before than this many pixels. */
const MANY = { points: 300, apart: 9 } as const

/** Grips: squares or diamonds of a fixed size. */
export function paintPoints(
  ctx: CanvasRenderingContext2D,
  item: Item<'points'>,
  { palette, scale, turn }: Brush,
): void {
  const paint = palette.roles[item.role]
  const fill = paint.fill ?? palette.select
  const stroke = paint.stroke ?? palette.select
  if (item.points.length > MANY.points) {
    const r = 1.75 / scale
    const apart = MANY.apart / scale
    let last: Point | null = null
    ctx.fillStyle = stroke
    for (const p of item.points) {
      if (last && Math.abs(p.x - last.x) < apart && Math.abs(p.y - last.y) < apart) continue
      ctx.fillRect(p.x - r, p.y - r, 2 * r, 2 * r)
      last = p
    }
    return
  }
  const square = item.sign === 'square'
  const r = ((item.role === 'draw-vertex-chosen' ? 1.5 : 1) * (square ? 4.5 * Math.SQRT2 : 5)) / scale
  const t = toRadians((square ? 45 : 0) - turn)
  const corners = [0, 1, 2, 3].map((k) => ({
    x: r * Math.cos(t + (k * Math.PI) / 2),
    y: r * Math.sin(t + (k * Math.PI) / 2),
  }))
  ctx.beginPath()
  for (const p of item.points) {
    corners.forEach((c, k) => (k === 0 ? ctx.moveTo(p.x + c.x, p.y + c.y) : ctx.lineTo(p.x + c.x, p.y + c.y)))
    ctx.closePath()
  }
  ctx.fillStyle = fill
  ctx.fill()
  ctx.strokeStyle = stroke
  ctx.lineWidth = (paint.width ?? 1.5) / scale
  ctx.stroke()
}
