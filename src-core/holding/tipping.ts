/**
 * Tipping of a pressed body over the edges of its contact hull. Over edge e, with d_e the distance from it,
 *
 *   r_e = Σ F_k·d_e(s_k),   o_e = r_e − Σ F_k·d_e(p_k),   m_e the worst overturning moment, pull-off included
 *
 * r_e takes the low side of each preload. In o_e a press that takes off counts with its high side and one that adds
 * with its low side, so that no draw within the scatter is worse.
 */
import { insetOf, type ContactHull, type HullEdge } from './contact.ts'
import { effectsAt, worstEffect, type Effects, type SeatLoad, type SeatWrench } from './loads.ts'
import type { Bearing } from './presses.ts'

export interface TipEdge {
  /** Null stands for lifting off a seat without area. */
  readonly edge: HullEdge | null
  /** N·mm */
  readonly righting: number
  readonly takenOff: number
  /** The press beyond the hull that takes most off. */
  readonly overhang: string | null
  /** Of a vee: height over the round's axis where the grip along it acts, mm, and ±tan β for the flank that opens. */
  readonly flank?: { readonly height: number; readonly side: number }
}

/** Shares of a moment's own size below which it is rounding. */
const ROUNDING = 1e-12

/** r_e and o_e of every edge. A seat without area is lifted by any pull-off too. */
export function tipEdges(
  hull: Pick<ContactHull, 'edges' | 'hasArea'>,
  bearings: readonly Bearing[],
): TipEdge[] {
  let size = 0
  let force = 0
  for (const { at, bears, high } of bearings) {
    size += high * (Math.hypot(bears.x, bears.y) + Math.hypot(at.x, at.y))
    force += high
  }
  const edges = hull.edges.map((edge) =>
    tipEdge(edge, bearings, size + force * Math.hypot(edge.from.x, edge.from.y)),
  )
  return hull.hasArea ? edges : [...edges, { edge: null, righting: 0, takenOff: 0, overhang: null }]
}

/** @param size N·mm of all forces times their arms, of which rounding is a share. */
function tipEdge(edge: HullEdge, bearings: readonly Bearing[], size: number): TipEdge {
  let righting = 0
  let takenOff = 0
  let most = 0
  let overhang: string | null = null
  for (const { id, at, bears, low, high } of bearings) {
    const inset = insetOf(edge, bears)
    const moved = inset - insetOf(edge, at)
    const off = (moved > 0 ? high : low) * moved
    righting += low * inset
    takenOff += off
    if (off > most) [most, overhang] = [off, id]
  }
  const clean = (moment: number) => (Math.abs(moment) <= ROUNDING * size ? 0 : moment)
  return { edge, righting: clean(righting), takenOff: clean(takenOff), overhang }
}

/**
 * m_e as it grows with speed, N·mm: the power of the loads in a turn of 1 rad/s about the edge, (n·F)·d_e less the
 * push across the edge times its height over the seat.
 */
export function overturning({ edge, flank }: TipEdge, loads: readonly SeatLoad[]): Effects {
  const measure = edge ? tipMeasure(edge, flank) : ({ fn }: SeatWrench) => fn
  const size = edge ? tipSize(edge, flank) : ({ fn }: SeatWrench) => Math.abs(fn)
  const sum: [number, number, number] = [0, 0, 0]
  for (const load of loads) {
    const moment = worstEffect(load, measure)
    const scale = [load.steady, ...(load.turning ?? [])].reduce((s, w) => s + size(w), 0)
    if (moment > ROUNDING * scale) sum[load.growth] += moment
  }
  return sum
}

type Flank = TipEdge['flank']

const tipMeasure = (edge: HullEdge, flank: Flank) => {
  const lifting = liftMeasure(edge)
  if (!flank) return lifting
  const { from, inward } = edge
  return (w: SeatWrench): number =>
    lifting({ ...w, mv: w.mv - flank.height * w.fu }) + flank.side * inward.x * (w.mn - from.x * w.fv)
}

const liftMeasure =
  ({ from, inward }: HullEdge) =>
  ({ fn, mu, mv }: SeatWrench): number =>
    mu * inward.y - mv * inward.x - fn * (from.x * inward.x + from.y * inward.y)

/** A moment is the difference of forces times arms: a force's rounding is that of it at a millimetre at least. */
const tipSize =
  ({ from }: HullEdge, flank: Flank) =>
  ({ fu, fv, fn, mu, mv, mn }: SeatWrench): number =>
    Math.abs(mu) +
    Math.abs(mv) +
    (flank ? Math.abs(flank.side * mn) : 0) +
    Math.hypot(fu, fv, fn) *
      (1 + Math.hypot(from.x, from.y)) *
      (flank ? 1 + Math.abs(flank.height) + Math.abs(flank.side) : 1)

/** λ_t over one edge at Ω; 0 where nothing rights it and any moment is over it, Infinity where none is. */
export function tippingFactor({ righting, takenOff }: TipEdge, moments: Effects, omega: number): number {
  const moment = effectsAt(moments, omega)
  const left = righting - takenOff
  if (moment > 0) return righting > 0 ? Math.max(0, left / moment) : 0
  return takenOff > 0 && left <= 0 ? 0 : Infinity
}

/**
 * Factor of a joint over one edge: max(0, 1 − o_e/r_e) / (1/λ_s + m_e/r_e), given 1/λ_s. Where nothing rights the
 * edge, 0 under any load over it; where there is none, sliding alone counts.
 */
export function edgeFactor(
  { righting, takenOff }: TipEdge,
  moments: Effects,
  omega: number,
  slideShare: number,
): number {
  const moment = effectsAt(moments, omega)
  if (righting > 0) {
    const left = Math.max(0, 1 - takenOff / righting)
    return left === 0 ? 0 : left / (slideShare + moment / righting)
  }
  return moment > 0 || takenOff > 0 ? 0 : 1 / slideShare
}
