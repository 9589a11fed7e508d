/**
 * A drawing as data, in sheet millimetres: origin at the sheet's lower left corner, x right, y up. Writers know
 * these primitives and nothing of jobs. Same model in, same bytes out.
 */
import type { Point } from '../geometry/types.ts'

/** What a line is for; each layer has one line type and width (ISO 128). */
export type LayerName =
  | 'outline' | 'outline-thin' | 'hidden' | 'centre' | 'phantom' | 'hatch'
  | 'dimension' | 'text' | 'frame' | 'mark' | 'caution'

/** Line width mm and dash pattern mm (empty: continuous). */
export interface LayerStyle {
  readonly width: number
  readonly dash: readonly number[]
}

export type PathStep =
  | { readonly to: 'move'; readonly x: number; readonly y: number }
  | { readonly to: 'line'; readonly x: number; readonly y: number }
  /** Arc from the current point, bulge as in DXF. */
  | { readonly to: 'arc'; readonly x: number; readonly y: number; readonly bulge: number }
  | { readonly to: 'close' }

export type TextAnchor = 'start' | 'middle' | 'end'

export type Primitive =
  | { readonly kind: 'path'; readonly layer: LayerName; readonly steps: readonly PathStep[]; readonly fill?: 'none' | 'solid' | 'paper' | 'tint' }
  | { readonly kind: 'circle'; readonly layer: LayerName; readonly centre: Point; readonly radius: number; readonly fill?: 'none' | 'solid' | 'paper' | 'tint' }
  /** Baseline at `at`; `height` is the capital height in mm; `angle` degrees counter-clockwise. */
  | { readonly kind: 'text'; readonly layer: LayerName; readonly at: Point; readonly text: string; readonly height: number; readonly anchor: TextAnchor; readonly angle: number; readonly bold?: boolean }

export interface Drawing {
  readonly title: string
  /** Sheet size, mm. */
  readonly width: number
  readonly height: number
  readonly primitives: readonly Primitive[]
}
