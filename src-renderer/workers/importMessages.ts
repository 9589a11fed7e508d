import type { BodiesResult, BodyOptions } from '../../src-core/import/toBodies.ts'
import type { ImportOptions, ImportResult } from '../../src-core/import/types.ts'

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

export type ImportReply =
  | { readonly kind: 'read'; readonly id: number; readonly result: ImportResult }
  | { readonly kind: 'bodies'; readonly id: number; readonly result: BodiesResult }
