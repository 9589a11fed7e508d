import { directionOf } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import { clockPosition } from '../units/format.ts'
import type { JudgedJoint } from './judged.ts'

/** Nearer to the axis than this a place has no direction, mm. */
const MIDDLE = 1

/** ` towards 3 o'clock`, seen from the tailstock; empty where there is no such place. */
export const edgeWords = (at: Point | null): string =>
  at && Math.hypot(at.x, at.y) > MIDDLE ? ` towards ${clockPosition(directionOf(at))}` : ''

/** The same of a joint: on a shelf the edges along its length face the plate or away from it. */
export function overWords({ built, result }: JudgedJoint): string {
  const seat = built.input?.seat
  if (!result || !seat || Math.abs(seat.n.z) > 0.5 || !result.edge) return edgeWords(result?.at ?? null)
  const { inward } = result.edge
  if (Math.abs(inward.y) < Math.abs(inward.x)) return edgeWords(result.at)
  return inward.y > 0 ? ' towards the plate' : ' away from the plate'
}

/** What a joint that does not hold may do, after its name. */
export function modeWords({ built, result }: JudgedJoint): string {
  if (!result) return 'is not judged'
  if (result.mode === 'tipping') {
    const press = result.press && result.press !== built.id ? `, drawn down beyond it by ${result.press}` : ''
    return `may tip over the edge of its seat${overWords({ built, result, rpmAt2: 0 })}${press}`
  }
  if (built.kind === 'part')
    return result.press ? `may slide on its seat, round ${result.press}` : 'may slide on its seat'
  return built.kind === 'clamp'
    ? 'may fly off itself, sliding on work and heel'
    : 'may slide off on what it stands on'
}
