import type { Point } from '../geometry/types.ts'
import type { MountedPiece } from './types.ts'

/** Where a clamp presses on the work, plate frame: its toe, or the point that is given of one not known closer. */
export function pressPoint({ item, toe }: MountedPiece): Point | null {
  if (toe) return toe.at
  return (item.kind === 'press' && item.press?.nose) || null
}
