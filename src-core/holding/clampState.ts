/** Whether each clamp, press and bolt through the part presses it, how hard and where. */
import { uncertaintiesOf } from '../doubt/defaults.ts'
import { called, finding, type Finding } from '../findings/finding.ts'
import { polar } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import { isClamp } from '../job/schema.ts'
import { pressPoint } from '../mounting/press.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { strapForce } from './preload.ts'
import { preloadOf } from './preloadOf.ts'

export type Holding = 'holds' | 'nothing' | 'unknown'

export interface ClampState {
  readonly piece: MountedPiece
  /** 'nothing': known not to hold. 'unknown' counts as holding nothing. */
  readonly state: Holding
  /**
   * N on the work at both sides of the preload's scatter, after the strap's lever; `low` never more than proof load or
   * strap carry, `high` not held to them, for it counts only where it harms. 0 where it is not known.
   */
  readonly low: number
  readonly high: number
  /** N of the stud itself; null where it is not known. */
  readonly preload: { readonly low: number; readonly high: number; readonly proof: number } | null
  /** Where it presses, plate frame. */
  readonly at: Point
  readonly findings: readonly Finding[]
}

/** Of all that presses the part on its seat, in the order of the setup. */
export function clampStates(mounted: Mounted): readonly ClampState[] {
  return mounted.pieces.filter((p) => isClamp(p.item)).map((p) => clampState(mounted, p))
}

/** What contact, support, reach, fit and strength say of a mounted setup. */
export const contactFindings = (mounted: Mounted): readonly Finding[] =>
  clampStates(mounted).flatMap((c) => c.findings)

function clampState(mounted: Mounted, piece: MountedPiece): ClampState {
  const { item, toe } = piece
  const at = pressedAt(piece)
  const doubt = uncertaintiesOf(mounted.job)
  const fields = 'stud' in item ? item : { stud: {} }
  const { preload, missing } = preloadOf(fields, doubt)
  const lacking = [
    ...missing,
    ...(toe && toe.toHeel === null ? ['heel not given'] : []),
    ...(toe && toe.toHeel !== null && toe.heel === null ? ["the heel's height not given"] : []),
    ...(piece.fastenings.some((f) => f.length === null) ? ['length of the stud not given'] : []),
  ]
  const off = toe ? !toe.rest || toe.rest.share < 0.999 : false
  const state: Holding = off ? 'nothing' : lacking.length > 0 || item.kind === 'press' ? 'unknown' : 'holds'
  const share = (force: number) => (toe ? strapForce(force, toe.toWork, toe.toHeel ?? 0) : force)
  const findings: Finding[] = []
  if (off) findings.push(finding('stop', 'toe-off', item.id, `${called(item)} does not press on the part.`, at))
  return {
    piece,
    state,
    low: preload && state === 'holds' ? share(preload.low) : 0,
    high: preload && state !== 'nothing' ? share(preload.high) : 0,
    preload: preload && { low: preload.low, high: preload.high, proof: preload.proof },
    at,
    findings,
  }
}

/** As known, else from its bolt along its length. */
function pressedAt(piece: MountedPiece): Point {
  const known = pressPoint(piece)
  if (known) return { x: known.x, y: known.y }
  const { item, at, facing } = piece
  const out = polar((item.kind === 'press' && item.press?.boltToWork) || 0, facing)
  return { x: at.x + out.x, y: at.y + out.y }
}
