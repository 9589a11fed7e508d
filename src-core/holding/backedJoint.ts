/** A joint whose slips stops and pins stand in the way of; what those bear falls with speed. */
import { capacityAt, type Backing } from './backing.ts'
import { Joint, type JointResult } from './joint.ts'
import type { JointInput } from './jointData.ts'

/** rpm, beyond any spindle. */
const FASTEST = 1e6
/** Share of the speed to which it is found, from below, and the steps that it may take. */
const NEAR = 2e-3
const STEPS = 24

export class BackedJoint {
  private readonly input: JointInput
  private readonly backings: readonly Backing[]
  private readonly bare: Joint

  /** What backs it stands on the face that its seat is parallel to. */
  constructor(input: JointInput, backings: readonly Backing[]) {
    this.input = input
    this.backings = backings
    this.bare = new Joint(input)
  }

  at(rpm: number): JointResult {
    return this.backedAt(rpm).at(rpm)
  }

  /**
   * rpm at which the factor falls to `wanted`, as of a joint. With what they bear at a speed x it would fall at Φ(x),
   * which falls with x; sought is x = Φ(x), and what is given is below it by no more than NEAR.
   */
  rpmAtFactor(wanted: number): number {
    const fall = (x: number) => this.backedAt(x).rpmAtFactor(wanted)
    let low = this.bare.rpmAtFactor(wanted)
    if (low === Infinity) return Infinity
    let high = Math.min(FASTEST, fall(low))
    if (fall(high) >= high) return high === FASTEST ? Infinity : high
    for (let i = 0; i < STEPS && high - low > NEAR * high; i++) {
      const middle = (low + high) / 2
      const reached = fall(middle)
      if (reached >= middle) [low, high] = [middle, Math.min(high, reached)]
      else [low, high] = [Math.max(low, reached), middle]
    }
    return low
  }

  private backedAt(rpm: number): Joint {
    const stops = this.backings.flatMap((b) => {
      const capacity = capacityAt(b, rpm)
      const { at, into } = b.contact
      return capacity > 0 ? [{ at, into, capacity }] : []
    })
    return stops.length === 0 ? this.bare : new Joint({ ...this.input, stops })
  }
}
