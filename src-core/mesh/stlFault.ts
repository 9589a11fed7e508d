/** What reading STL gives, and the refusals that both its forms share. */
import { COORDINATE_LIMIT } from '../geometry/limits.ts'
import { MESH_LIMITS } from './limits.ts'

export interface StlFault {
  /** Where, in words: a triangle, a byte or a line of the file. */
  readonly place: string
  readonly reason: string
}

/** `triangles`: nine numbers a triangle, in the file's own unit, which STL does not state. */
export type StlResult =
  | { readonly ok: true; readonly kind: 'binary' | 'text'; readonly triangles: Float64Array }
  | ({ readonly ok: false } & StlFault)

export function badCoordinate(value: number): string {
  if (!Number.isFinite(value)) return 'a coordinate is not a finite number'
  return `coordinate ${value} is beyond ${COORDINATE_LIMIT}`
}

export const tooMany = (count: number) => `${count} triangles, more than the ${MESH_LIMITS.triangles} allowed`

export const refuse = (place: string, reason: string): { ok: false } & StlFault => ({
  ok: false,
  place,
  reason,
})
