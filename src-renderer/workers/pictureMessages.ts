/** What the window asks of the pictures' worker, and what it answers. */
import type { Ties } from '../../src-core/picture/planMap.ts'
import type { Sheet } from '../../src-core/picture/warp.ts'
import type { Picture } from '../../src-core/job/schema.ts'

export type PictureRequest =
  /** Drawn anew upright, at most so many pixels a side and so many bytes. */
  | {
      readonly kind: 'shrink'
      readonly id: number
      readonly bytes: Uint8Array<ArrayBuffer>
      readonly type: Picture['type']
      readonly side: number
      readonly limit: number
    }
  /** Unpacked to be shown; squared up where there are ties to do it by. */
  | { readonly kind: 'show'; readonly id: number; readonly picture: Picture; readonly ties: Ties | null }

export type Shrunk =
  | {
      readonly ok: true
      readonly bytes: Uint8Array<ArrayBuffer>
      readonly width: number
      readonly height: number
    }
  | { readonly ok: false; readonly reason: string }

export type Unpacked =
  /** `sheet` lies in the plan where the picture was squared up; else the image has so many of its pixels a pixel. */
  | {
      readonly ok: true
      readonly image: ImageBitmap
      readonly scale: number
      readonly sheet: Sheet | null
    }
  | { readonly ok: false; readonly reason: string }

export type PictureReply =
  | { readonly kind: 'shrink'; readonly id: number; readonly result: Shrunk }
  | { readonly kind: 'show'; readonly id: number; readonly result: Unpacked }
