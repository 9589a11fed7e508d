/**
 * The speed at which a joint's factor falls to what is wanted. With any one slip and edge the condition
 *
 *   P(Ω)/R + m_e(Ω)/r_e = (1 − o_e/r_e) / wanted
 *
 * is a quadratic in Ω whose root is never below the speed sought, which is the least root of all slips and edges. So:
 * from above, take the worst slip at a speed, go down to its root, and again till that slip is its own worst. Few
 * searches, since slips change little from step to step.
 */
import { effectsAt, type Effects } from './loads.ts'
import type { Sliding } from './sliding.ts'
import type { TipEdge } from './tipping.ts'

export interface LoadedEdge {
  readonly edge: TipEdge
  /** m_e */
  readonly moments: Effects
}

/** A joint under one loading. */
export interface UnderLoading {
  readonly name: string
  readonly sliding: Sliding
  readonly edges: readonly LoadedEdge[]
}

/** rad/s, beyond any spindle: what holds here holds at every speed. */
const FASTEST = 1e6
const STEPS = 60
/** A step down by less than this share is the end. */
const SETTLED = 1e-10

/** rad/s; 0 where the factor is not above `wanted` at rest, Infinity where it never falls. */
export function speedOf(loadings: readonly UnderLoading[], wanted: number): number {
  let omega = FASTEST
  for (const loading of loadings) omega = fallBelow(loading, wanted, omega)
  return omega === FASTEST ? Infinity : omega
}

/** The same for one loading, or `from` where the factor is above `wanted` up to there. */
function fallBelow({ sliding, edges }: UnderLoading, wanted: number, from: number): number {
  let omega = from
  for (let i = 0; i < STEPS && omega > 0; i++) {
    const { shares } = sliding.worst(omega)
    let next = rootOf(shares, 1 / wanted)
    for (const e of edges) next = Math.min(next, edgeRoot(e, shares, wanted))
    if (!(next < omega * (1 - SETTLED))) return Math.min(omega, Math.max(0, next))
    omega = next
  }
  return omega
}

function edgeRoot({ edge, moments }: LoadedEdge, shares: Effects, wanted: number): number {
  const { righting, takenOff } = edge
  if (!(righting > 0)) return takenOff > 0 || effectsAt(moments, 1) > 0 ? 0 : Infinity
  const sum: Effects = [
    shares[0] + moments[0] / righting,
    shares[1] + moments[1] / righting,
    shares[2] + moments[2] / righting,
  ]
  return rootOf(sum, (1 - takenOff / righting) / wanted)
}

/** Ω ≥ 0 with c0 + c1·Ω + c2·Ω² = allowed, none of them below 0; 0 where c0 is not below it, Infinity where it is never reached. */
function rootOf([c0, c1, c2]: Effects, allowed: number): number {
  const left = allowed - c0
  if (!(left > 0)) return 0
  if (!(c1 > 0) && !(c2 > 0)) return Infinity
  return (2 * left) / (c1 + Math.sqrt(c1 * c1 + 4 * c2 * left))
}
