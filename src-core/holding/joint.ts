/**
 * A joint: a body pressed on a flat seat with outward normal n. The presses' grip is split, one share for all that
 * slides, the rest for all that pulls off and tilts; over edge e of the contact hull and for each loading
 *
 *   factor = max(0, 1 − o_e/r_e) / (1/λ_s + m_e/r_e)
 *
 * and the least over loadings and edges counts. The loads that given presses can carry form a convex set, so loads
 * whose parts are carried λᵢ times alone are carried at least 1/Σ(1/λᵢ) times together: the factor never exceeds that
 * of a rigid body on friction cones. A round in a vee is judged alike, by what its flanks carry (`veeJoint.ts`).
 */
import { outOf } from '../geometry/space/pose.ts'
import type { Point, Point3 } from '../geometry/types.ts'
import { angularSpeed, rpmOf } from '../unbalance/static.ts'
import { ContactHull, type HullEdge } from './contact.ts'
import { canBeJudged, worstLoadings, type JointInput } from './jointData.ts'
import { seatLoad, type SeatLoad } from './loads.ts'
import { seatOpens } from './opening.ts'
import { bearingsOf, pressesOf, type Bearing } from './presses.ts'
import { closedSliding, searchedSliding, type Sliding } from './sliding.ts'
import type { Slip } from './slipSearch.ts'
import { speedOf, type UnderLoading } from './speedOf.ts'
import { veeEdges, veeSliding } from './veeJoint.ts'
import { edgeFactor, overturning, tipEdges, tippingFactor, type TipEdge } from './tipping.ts'

export type JointMode = 'sliding' | 'tipping'

export interface JointResult {
  /** False where a number is missing or out of sense; the factors are 0 then. */
  readonly judged: boolean
  /** Infinity where nothing loads the joint. */
  readonly factor: number
  /** λ_s and λ_t of the loading that governs. */
  readonly sliding: number
  readonly tipping: number
  /** The smaller of both; null where the joint is not judged or nothing loads it. */
  readonly mode: JointMode | null
  /** Name of the loading that governs. */
  readonly loading: string | null
  /** Tipping: the edge of the hull that it tips over, in the seat. */
  readonly edge: HullEdge | null
  /** Sliding: the press about which it turns most nearly. Tipping: the press beyond the hull that takes most off. */
  readonly press: string | null
  /** Where that press or the middle of that edge is, plate frame, mm. */
  readonly at: Point3 | null
  /** A continuous face that begins to open in any of the loadings. */
  readonly opens: boolean
}

/** A joint that does not hold at all. */
const NOTHING_HELD = {
  factor: 0,
  sliding: 0,
  tipping: 0,
  mode: null,
  loading: null,
  edge: null,
  press: null,
  at: null,
  opens: false,
} as const

const modeOf = (sliding: number, tipping: number): JointMode | null => {
  if (Math.min(sliding, tipping) === Infinity) return null
  return sliding <= tipping ? 'sliding' : 'tipping'
}

export class Joint {
  readonly hull: ContactHull
  private readonly input: JointInput
  private readonly judged: boolean
  private readonly bearings: readonly Bearing[] = []
  private readonly loaded: readonly UnderLoading[] = []

  constructor(input: JointInput) {
    this.input = input
    this.judged = canBeJudged(input)
    this.hull = new ContactHull(this.judged ? input.touching : [])
    if (!this.judged) return
    const { grip, friction, seat, vee } = input
    this.bearings = bearingsOf(pressesOf(grip), this.hull, friction)
    if (!this.held) return
    const edges = vee ? veeEdges(vee, this.hull, this.bearings) : tipEdges(this.hull, this.bearings)
    this.loaded = worstLoadings(input.loadings).map(({ name, loads }) => {
      const here = loads.map((l) => seatLoad(seat, l))
      return {
        name,
        sliding: this.slidingUnder(here),
        edges: edges.map((edge) => ({ edge, moments: overturning(edge, here) })),
      }
    })
  }

  /** Something touches and something presses it. */
  private get held(): boolean {
    return this.hull.points.length > 0 && this.bearings.some((b) => b.low > 0)
  }

  private slidingUnder(loads: readonly SeatLoad[]): Sliding {
    const { grip, friction, stops = [], vee } = this.input
    if (vee) return veeSliding(vee, this.bearings, loads)
    const closed = stops.length === 0 ? closedSliding(grip, friction, this.bearings, loads) : null
    return closed ?? searchedSliding(this.bearings, loads, stops)
  }

  /** Factor and what it hangs on at a speed in rpm. */
  at(rpm: number): JointResult {
    if (!this.judged || !Number.isFinite(rpm)) return { ...NOTHING_HELD, judged: false }
    if (!this.held) return { ...NOTHING_HELD, judged: true }
    const omega = Math.abs(angularSpeed(rpm))
    const results = this.loaded.map((l) => this.under(l, omega))
    // Numbers so large that their sums are none.
    if (!results.every((r) => r.factor >= 0)) return { ...NOTHING_HELD, judged: false }
    const worst = results.reduce((a, b) => (b.factor < a.factor ? b : a))
    return { ...worst, opens: results.some((r) => r.opens) }
  }

  /** rpm at which the factor falls to `wanted`; 0 where it is not above it at rest, Infinity where it never falls. */
  rpmAtFactor(wanted: number): number {
    return this.judged && this.held ? rpmOf(speedOf(this.loaded, wanted)) : 0
  }

  private under({ name, sliding, edges }: UnderLoading, omega: number): JointResult {
    const { factor: slides, slip } = sliding.worst(omega)
    let factor = slides
    let tipping = Infinity
    let over: TipEdge | null = null
    for (const { edge, moments } of edges) {
      tipping = Math.min(tipping, tippingFactor(edge, moments, omega))
      const here = edgeFactor(edge, moments, omega, 1 / slides)
      if (here < factor || (over === null && here === factor)) [factor, over] = [here, edge]
    }
    const mode = modeOf(slides, tipping)
    const opens = seatOpens(tipping, this.input.face)
    const told = { judged: true, factor, sliding: slides, tipping, mode, loading: mode && name, opens }
    if (mode === 'tipping') return { ...told, ...this.tipPlace(over) }
    const press = mode === 'sliding' ? this.pivot(slip) : null
    return { ...told, edge: null, press: press?.id ?? null, at: press && this.place(press.at) }
  }

  private tipPlace(over: TipEdge | null): Pick<JointResult, 'edge' | 'press' | 'at'> {
    const edge = over?.edge ?? this.hull.edges[0]!
    const middle = { x: (edge.from.x + edge.to.x) / 2, y: (edge.from.y + edge.to.y) / 2 }
    return { edge, press: over?.overhang ?? null, at: this.place(middle) }
  }

  private place(p: Point): Point3 {
    return outOf(this.input.seat, p)
  }

  /** The press that gives way least in a slip; one stud's own where none was searched. */
  private pivot(slip: Slip | null): { readonly id: string; readonly at: Point } {
    const { grip } = this.input
    if ('stud' in grip) return grip.stud
    if (!slip) return 'strap' in grip ? { ...grip.strap.toe, at: grip.strap.bolt } : this.bearings[0]!
    const speed = ({ bears }: Bearing) =>
      Math.hypot(slip.vx - slip.turning * bears.y, slip.vy + slip.turning * bears.x)
    return this.bearings.reduce((a, b) => (speed(b) < speed(a) ? b : a))
  }
}
