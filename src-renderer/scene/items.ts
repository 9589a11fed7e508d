/**
 * What the picture consists of, as data: a keyed display list in millimetres. Roles say what a thing is; the palette
 * decides how that looks. Nothing here knows a canvas.
 */
import type { Point, Ring, Vertex } from '../../src-core/geometry/types.ts'
import type { Affine } from '../../src-core/geometry/affine.ts'
import type { Standing } from '../../src-core/findings/finding.ts'
import type { Verdict } from '../../src-core/verdict/speeds.ts'

/** Bottom to top. `machine` and `front`, what stands before the work, are still while the rest turns with the spindle. */
export type Layer = 'machine' | 'plate' | 'work' | 'front' | 'overlay'

export type Role =
  | 'bed'
  | 'swing'
  | 'turning'
  | 'cross-slide'
  | 'cross-slide-profile'
  | 'swept'
  | 'plate'
  | 'slot'
  | 'plate-hole'
  | 'part'
  | 'pocket'
  | 'bore-open'
  | 'bore-to-cut'
  | 'bore-start'
  | 'bore-uncut'
  | 'packing'
  | 'packing-hidden'
  | 'clamp'
  | 'strap-off'
  | 'heel'
  | 'nut'
  | 'bracket'
  | 'fixture'
  | 'counterweight'
  | 'other'
  | 'bolt'
  | 'strap-line'
  | 'axis'
  | 'heavy'
  | 'centre-of-mass'
  | 'part-centre'
  | 'label'
  | 'tag'
  | 'machine-label'
  | 'clearance'
  | 'highlight'
  | 'handle'
  | 'guide'
  | 'guide-text'
  | 'fault-text'
  | 'photograph'
  | 'part-traced'
  | 'pocket-traced'
  | 'draw-ring'
  | 'draw-preview'
  | 'draw-vertex'
  | 'draw-vertex-chosen'
  | 'draw-edge-chosen'
  | 'draw-middle'
  | 'draw-fault'

/** How a thing stands out just now. */
export interface Emphasis {
  readonly selected?: boolean
  readonly hovered?: boolean
  readonly flag?: Standing | null
}

interface Common {
  readonly id: string
  readonly layer: Layer
  readonly role: Role
  readonly emphasis?: Emphasis
}

export type SceneItem = Common &
  (
    | { readonly kind: 'region'; readonly rings: readonly Ring[] }
    | { readonly kind: 'line'; readonly points: readonly Point[] }
    /** Open or closed, with bulges. */
    | { readonly kind: 'path'; readonly vertices: readonly Vertex[]; readonly closed: boolean }
    /** Many small signs as one. */
    | { readonly kind: 'points'; readonly points: readonly Point[]; readonly sign: 'square' | 'diamond' }
    /** `map` takes the image's pixels to the plate's millimetres. */
    | {
        readonly kind: 'picture'
        readonly image: ImageBitmap
        readonly map: Affine
        readonly opacity: number
      }
    | { readonly kind: 'circle'; readonly centre: Point; readonly radius: number }
    /** `offset` in pixels, x right and y down, added on the screen. */
    | {
        readonly kind: 'text'
        readonly at: Point
        readonly text: string
        readonly offset?: Point
        readonly align?: 'left' | 'centre' | 'right'
      }
    /** A sign of a fixed size on the screen. */
    | {
        readonly kind: 'sign'
        readonly at: Point
        readonly sign: Sign
        readonly direction?: number
        readonly verdict?: Verdict
      }
    /** An arrow from the axis outward, drawn past the rim. */
    | { readonly kind: 'arrow'; readonly from: Point; readonly to: Point; readonly verdict: Verdict }
  )

export type Sign = 'axis' | 'centre-of-mass' | 'ring' | 'turn' | 'nose' | 'corner' | 'dot'
