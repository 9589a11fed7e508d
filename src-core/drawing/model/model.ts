/**
 * A drawing as data, in sheet millimetres: origin at the sheet's lower left corner, x right, y up. Writers know
 * these primitives and nothing of jobs. Same model in, same bytes out.
 */
import type { Point } from '../../geometry/types.ts'

/** What a line is for; each layer has one line type and width (ISO 128). */
export type LayerName =
  /** Filled ground without a line round it. */
  | 'ground'
  | 'outline'
  | 'outline-thin'
  | 'hidden'
  | 'centre'
  | 'phantom'
  | 'hatch'
  | 'dimension'
  | 'text'
  /** The frame of the drawing space and its centring marks. */
  | 'border'
  /** The frame of a table. */
  | 'frame'
  | 'mark'
  | 'caution'

export type PathStep =
  | { readonly to: 'move'; readonly x: number; readonly y: number }
  | { readonly to: 'line'; readonly x: number; readonly y: number }
  /** Arc from the current point; bulge as in DXF: tan of a quarter of the included angle, + counter-clockwise. */
  | { readonly to: 'arc'; readonly x: number; readonly y: number; readonly bulge: number }
  | { readonly to: 'close' }

export type TextAnchor = 'start' | 'middle' | 'end'

/** none: line only. solid: the layer's colour. paper: white, hides what is below. tint: light grey. */
export type Fill = 'none' | 'solid' | 'paper' | 'tint'

export interface PathPrimitive {
  readonly kind: 'path'
  readonly layer: LayerName
  readonly steps: readonly PathStep[]
  readonly fill?: Fill
}

export interface CirclePrimitive {
  readonly kind: 'circle'
  readonly layer: LayerName
  readonly centre: Point
  readonly radius: number
  readonly fill?: Fill
}

export interface TextPrimitive {
  readonly kind: 'text'
  readonly layer: LayerName
  /** On the baseline. */
  readonly at: Point
  readonly text: string
  /** Capital height, mm. */
  readonly height: number
  readonly anchor: TextAnchor
  /** Degrees counter-clockwise. */
  readonly angle: number
  readonly bold?: boolean
}

export type PlainPrimitive = PathPrimitive | CirclePrimitive | TextPrimitive

/** A linear dimension (ISO 129-1). `parts` is what is drawn; the rest is for writers with dimensions of their own. */
export interface DimensionPrimitive {
  readonly kind: 'dimension'
  readonly layer: 'dimension'
  /** Says which dimension of the drawing this is, the same from one drawing of the setup to the next. */
  readonly id?: string
  /** The two points measured, sheet mm; the measurement is their distance along the dimension line. */
  readonly from: Point
  readonly to: Point
  /** Ends of the dimension line, with arrowheads. */
  readonly line: { readonly a: Point; readonly b: Point }
  readonly text: string
  /** Middle of the text's baseline. */
  readonly textAt: Point
  readonly textAngle: number
  readonly height: number
  /** What was measured, in model mm, and the sheet's scale (sheet mm a model mm). */
  readonly value: number
  readonly scale: number
  readonly parts: readonly PlainPrimitive[]
}

/** Radius and angle of a point about a centre, printed beside its item number. `parts` is what is drawn. */
export interface PolarPrimitive {
  readonly kind: 'polar'
  readonly layer: 'dimension'
  readonly id?: string
  /** Sheet mm. */
  readonly centre: Point
  readonly at: Point
  /** Direction from which the angle is measured counter-clockwise, degrees. */
  readonly zero: number
  /** What is printed: radius in model mm, angle in degrees. */
  readonly radius: number
  readonly angle: number
  readonly scale: number
  /** Centre of the item number's balloon. */
  readonly balloon: Point
  /** The texts as printed; `angleText` may be empty. */
  readonly radiusText: string
  readonly angleText: string
  readonly parts: readonly PlainPrimitive[]
}

export type Primitive = PlainPrimitive | DimensionPrimitive | PolarPrimitive

/** What of a drawing shows the model, for a file that holds it in real size. */
export interface ModelView {
  /** Sheet mm a model mm. */
  readonly scale: number
  /** Where the model's origin stands on the sheet. */
  readonly origin: Point
  /** Ground that it takes on the sheet. */
  readonly area: { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number }
  /** Of those of the drawing. */
  readonly primitives: readonly Primitive[]
}

export interface Drawing {
  readonly title: string
  /** Who drew it, as the title block says. */
  readonly author?: string
  /** Sheet size, mm. */
  readonly width: number
  readonly height: number
  readonly primitives: readonly Primitive[]
  /** Labels of the views, in words, that found no room and stand in the tables and notes alone; none where not given. */
  readonly unplaced?: readonly string[]
  readonly model?: ModelView
}
