import type { BodiesResult, BodyOptions } from '../../src-core/import/toBodies.ts'
import type { ImportOptions, ImportResult } from '../../src-core/import/types.ts'
import type { Direction } from '../../src-core/mesh/lying.ts'
import type { Shaded } from '../../src-core/mesh/shaded.ts'

export type ImportRequest =
  | {
      readonly kind: 'read'
      readonly id: number
      readonly name: string
      readonly bytes: Uint8Array
      readonly options: ImportOptions
    }
  /** Bodies of what was read last. */
  | { readonly kind: 'bodies'; readonly id: number; readonly options: BodyOptions }

/** A way in which a mesh can lie on the seat. */
export interface Lying {
  /** Points at the seat; null: as it stands in the file. */
  readonly down: Direction | null
  /** Over all as it lies, in the file's unit: left to right, bottom to top, seat to front. */
  readonly size: readonly number[]
  readonly picture: Shaded
}

export type ImportReply =
  | {
      readonly kind: 'read'
      readonly id: number
      readonly result: ImportResult
      /** Of a mesh: as in the file first, then on each face that it can lie on. */
      readonly lyings: readonly Lying[]
    }
  | { readonly kind: 'bodies'; readonly id: number; readonly result: BodiesResult }
