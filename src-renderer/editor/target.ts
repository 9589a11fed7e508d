/** What can be pointed at on the plate. */
import type { Point } from '../../src-core/geometry/types.ts'

export type Target =
  | { readonly kind: 'piece'; readonly id: string }
  | { readonly kind: 'part' }
  | { readonly kind: 'slot'; readonly id: string }
  | { readonly kind: 'hole'; readonly id: string }
  /** Turns the part about the spindle axis. */
  | { readonly kind: 'turn-handle' }
  /** Where the strap of a clamp presses. */
  | { readonly kind: 'nose-handle'; readonly id: string }

export const sameTarget = (a: Target | null, b: Target | null): boolean =>
  a === b || (a !== null && b !== null && targetKey(a) === targetKey(b))

export const targetKey = (t: Target): string => ('id' in t ? `${t.kind}:${t.id}` : t.kind)

/** A line or mark shown while something is dragged, and what it says. */
export interface Guide {
  readonly at: Point
  readonly from?: Point
  readonly text: string
  /** True where the drag has caught on something. */
  readonly snapped: boolean
}
