/** What a joint is made of, and whether its numbers can be judged at all. */
import type { Point } from '../geometry/types.ts'
import type { Load, Loading, Wrench } from './loads.ts'
import type { Face } from './opening.ts'
import type { VeeInput } from './vee.ts'
import { pressesOf, type Grip, type Press } from './presses.ts'
import type { Seat } from './seat.ts'

export interface JointInput {
  readonly seat: Seat
  /** Corners of all that truly touches, (u, v) in the seat, mm; its convex hull is taken. */
  readonly touching: readonly Point[]
  readonly face: Face
  readonly grip: Grip
  /** μ where a press has none of its own. */
  readonly friction: number
  /** What stands in the way of slips, at the height of the seat; null: whichever way the slip goes. N */
  readonly stops?: readonly JointStop[] | undefined
  /**
   * Where the body is a round in a vee: what touches is then a line along u, the flanks' ends in it, and stops are not
   * counted.
   */
  readonly vee?: VeeInput | undefined
  /** Judged apart, the worst counts. */
  readonly loadings: readonly Loading[]
}

export interface JointStop {
  readonly at: Point
  readonly into: Point | null
  readonly capacity: number
}

/** False where a number is missing or out of sense, or no loading is given: such a joint is not judged and never passes. */
export function canBeJudged({ seat, touching, grip, friction, loadings, stops, vee }: JointInput): boolean {
  return (
    loadings.length > 0 &&
    [seat.origin, seat.u, seat.v, seat.n].every(finite) &&
    touching.every(({ x, y }) => finite({ x, y })) &&
    friction >= 0 &&
    friction < Infinity &&
    (!vee || veeOk(vee)) &&
    pressesOf(grip).every(pressOk) &&
    (!('strap' in grip) || finite(grip.strap.bolt)) &&
    (!('stud' in grip) || (grip.stud.meanRadius >= 0 && grip.stud.meanRadius < Infinity)) &&
    (stops ?? []).every(
      (s) => finite(s.at) && finite(s.into ?? s.at) && s.capacity >= 0 && s.capacity < Infinity,
    ) &&
    loadings.every((l) => l.loads.every(loadOk))
  )
}

const finite = (p: object): boolean => Object.values(p).every((c) => Number.isFinite(c))

const pressOk = ({ at, force, high, friction }: Press): boolean =>
  finite(at) && [force, high ?? 0, friction ?? 0].every((n) => n >= 0 && n < Infinity)

const veeOk = ({ half, diameter }: VeeInput): boolean =>
  half > 0 && half < Math.PI / 2 && diameter > 0 && diameter < Infinity

const wrenchOk = ({ force, moment }: Wrench): boolean => finite(force) && finite(moment)

const loadOk = ({ steady, turning }: Load): boolean => wrenchOk(steady) && (turning ?? []).every(wrenchOk)

/** Without those whose every load another has too: it is never the better for more. */
export function worstLoadings(loadings: readonly Loading[]): Loading[] {
  return loadings.filter(
    (a, i) =>
      !loadings.some(
        (b, k) =>
          k !== i && a.loads.every((l) => b.loads.includes(l)) && (k < i || b.loads.length > a.loads.length),
      ),
  )
}
