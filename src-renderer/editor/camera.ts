/** The plate frame on the screen. The one place where y, up on the plate, becomes down on the screen. */
import { turnBetween, turning } from '../../src-core/geometry/angles.ts'
import type { Point } from '../../src-core/geometry/types.ts'

export interface Camera {
  /** Pixels a millimetre. */
  readonly scale: number
  /** Plate point at the middle of the view, mm. */
  readonly at: Point
  /** The picture turned counter-clockwise, degrees. */
  readonly turn: number
}

/** Pixels. */
export interface Size {
  readonly width: number
  readonly height: number
}

export interface View extends Camera, Size {}

export const SCALE_LIMITS = { least: 0.15, most: 60 } as const

export function toScreen(view: View, p: Point): Point {
  const { c, s } = turning(view.turn)
  const x = p.x - view.at.x
  const y = p.y - view.at.y
  return {
    x: view.width / 2 + view.scale * (c * x - s * y),
    y: view.height / 2 - view.scale * (s * x + c * y),
  }
}

export function toWorld(view: View, screen: Point): Point {
  const { c, s } = turning(view.turn)
  const u = (screen.x - view.width / 2) / view.scale
  const v = (view.height / 2 - screen.y) / view.scale
  return { x: view.at.x + c * u + s * v, y: view.at.y - s * u + c * v }
}

/** Zooms by `factor` so that what is under `screen` stays there. */
export function zoomAt(view: View, screen: Point, factor: number): Camera {
  const scale = Math.min(SCALE_LIMITS.most, Math.max(SCALE_LIMITS.least, view.scale * factor))
  const before = toWorld(view, screen)
  const after = toWorld({ ...view, scale }, screen)
  return {
    scale,
    turn: view.turn,
    at: { x: view.at.x + before.x - after.x, y: view.at.y + before.y - after.y },
  }
}

/** A share of the way from one view to another; zooming is even in ratio, the turn goes the shorter way. */
export function between(from: View, to: View, share: number): View {
  const mix = (a: number, b: number) => a + (b - a) * share
  return {
    ...to,
    scale: from.scale * (to.scale / from.scale) ** share,
    at: { x: mix(from.at.x, to.at.x), y: mix(from.at.y, to.at.y) },
    turn: from.turn + turnBetween(from.turn, to.turn) * share,
  }
}

/** Moves the picture by a screen distance. */
export function panBy(view: View, dx: number, dy: number): Camera {
  const origin = toWorld(view, { x: 0, y: 0 })
  const moved = toWorld(view, { x: dx, y: dy })
  return {
    scale: view.scale,
    turn: view.turn,
    at: { x: view.at.x + origin.x - moved.x, y: view.at.y + origin.y - moved.y },
  }
}

export interface Extent {
  readonly x0: number
  readonly y0: number
  readonly x1: number
  readonly y1: number
}

/** Pixels of the view that lie under something else. */
export interface Insets {
  readonly top: number
  readonly bottom: number
  readonly sides: number
}

/** px: a view with less room than this shows what it can. */
const LEAST_FREE = 60

/** What the insets leave free of a view. */
export const freeOf = (size: Size, insets: Insets): Size => ({
  width: Math.max(LEAST_FREE, size.width - 2 * insets.sides),
  height: Math.max(LEAST_FREE, size.height - insets.top - insets.bottom),
})

/** What stood at the middle of the view moves to the middle of what the insets leave free. */
export const clearOf = (camera: Camera, size: Size, insets: Insets): Camera =>
  panBy({ ...camera, ...size }, 0, (insets.top - insets.bottom) / 2)

/** The camera that shows an extent (mm) whole, with `margin` pixels around it. */
export function fit(extent: Extent, size: Size, margin: number, turn = 0): Camera {
  const w = Math.max(1, extent.x1 - extent.x0)
  const h = Math.max(1, extent.y1 - extent.y0)
  const scale = Math.min((size.width - 2 * margin) / w, (size.height - 2 * margin) / h)
  return {
    scale: Math.min(SCALE_LIMITS.most, Math.max(SCALE_LIMITS.least, scale)),
    at: { x: (extent.x0 + extent.x1) / 2, y: (extent.y0 + extent.y1) / 2 },
    turn,
  }
}
