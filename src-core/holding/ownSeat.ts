/**
 * A joint on a shelf as it looks from its own seat: the same wherever shelf and all that stands on it are turned about the
 * axis together. What turns against the plate is there begun where its first force or moment is greatest, which changes
 * nothing of its worst, and figures are settled to what `ROUNDING` leaves of them.
 */
import { UPRIGHT } from '../geometry/space/pose.ts'
import { ROUNDING } from '../geometry/tolerance.ts'
import type { JointInput } from './jointData.ts'
import { seatLoad, type Load, type SeatWrench, type Wrench } from './loads.ts'
import type { Seat } from './seat.ts'

/** Whether a seat stands square to the plate. */
export const isAcross = ({ n }: Seat): boolean => n.z === 0

/** Places stay (u, v) in the seat; what is then worked out "in the plate's frame" is in the seat's own. */
export function fromOwnSeat(input: JointInput): JointInput {
  // One load may act in several loadings, and is told by what it is.
  const seen = new Map<Load, Load>()
  const here = (load: Load): Load => {
    let own = seen.get(load)
    if (!own) seen.set(load, (own = loadFromSeat(input.seat, load)))
    return own
  }
  return {
    ...input,
    seat: UPRIGHT,
    loadings: input.loadings.map(({ name, loads }) => ({ name, loads: loads.map(here) })),
  }
}

function loadFromSeat(seat: Seat, load: Load): Load {
  const { steady, turning, eitherWay, growth } = seatLoad(seat, load)
  const begun = turning && begunAtGreatest(turning)
  const all = [steady, ...(begun ?? [])]
  const force = stepOf(all.flatMap(({ fu, fv, fn }) => [fu, fv, fn]))
  const moment = stepOf(all.flatMap(({ mu, mv, mn }) => [mu, mv, mn]))
  const wrench = ({ fu, fv, fn, mu, mv, mn }: SeatWrench): Wrench => ({
    force: { x: force(fu), y: force(fv), z: force(fn) },
    moment: { x: moment(mu), y: moment(mv), z: moment(mn) },
  })
  return {
    steady: wrench(steady),
    turning: begun && [wrench(begun[0]), wrench(begun[1])],
    eitherWay,
    growth,
  }
}

/** Rounds to a power of ten that is at most `ROUNDING.share` of the largest. */
function stepOf(figures: readonly number[]): (figure: number) => number {
  const largest = Math.max(...figures.map(Math.abs))
  if (!(largest > 0 && largest < Infinity)) return (figure) => figure
  const step = 10 ** (Math.floor(Math.log10(largest)) + Math.log10(ROUNDING.share))
  return (figure) => Math.round(figure / step) * step || 0
}

const PARTS = ['fu', 'fv', 'fn', 'mu', 'mv', 'mn'] as const

/** The same over a turn: a·cos φ + b·sin φ, with φ counted from where the first of its parts that is any is greatest. */
function begunAtGreatest([a, b]: readonly [SeatWrench, SeatWrench]): readonly [SeatWrench, SeatWrench] {
  const swing = (p: (typeof PARTS)[number]) => Math.hypot(a[p], b[p])
  const [force, moment] = [
    Math.hypot(...PARTS.slice(0, 3).map(swing)),
    Math.hypot(...PARTS.slice(3).map(swing)),
  ]
  const first = PARTS.find((p, i) => swing(p) > 1e-6 * (i < 3 ? force : moment))
  if (!first) return [a, b]
  const [c, s] = [a[first] / swing(first), b[first] / swing(first)]
  const turned = (by: (p: (typeof PARTS)[number]) => number): SeatWrench => ({
    fu: by('fu'),
    fv: by('fv'),
    fn: by('fn'),
    mu: by('mu'),
    mv: by('mv'),
    mn: by('mn'),
  })
  return [turned((p) => c * a[p] + s * b[p]), turned((p) => c * b[p] - s * a[p])]
}
