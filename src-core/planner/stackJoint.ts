/**
 * How far out a stack may stand so that its own stud holds it: its joint on the plate, as the analysis has it, keeps the
 * wanted factor at the speed that is planned for.
 */
import { uncertaintiesOf } from '../doubt/defaults.ts'
import { WANTED_FACTOR } from '../holding/judged.ts'
import { hardwareFriction } from '../holding/friction.ts'
import { Joint } from '../holding/joint.ts'
import { preloadOf } from '../holding/preloadOf.ts'
import { studJoint } from '../holding/studJoint.ts'
import { ASSUMED_TIME } from '../holding/working.ts'
import type { Weight } from '../job/schema.ts'
import type { Bench } from '../mounting/bench.ts'
import { mountPiece } from '../mounting/hardware.ts'
import type { Mounted } from '../mounting/types.ts'
import { massOfSolids } from '../unbalance/assembly.ts'
import { STANDARD_GRAVITY, angularSpeed } from '../unbalance/static.ts'
import type { Tightened } from './studs.ts'

/** mm: how closely the farthest radius is found; it is always one that holds. */
const CLOSE = 0.01
const MOST_STEPS = 40

export class StackJoints {
  private readonly mounted: Mounted
  private readonly bench: Bench
  private readonly rpm: number
  private readonly omega: number
  private readonly friction: number
  private readonly time: number
  private readonly forces = new Map<string, number>()

  constructor(mounted: Mounted, rpm: number) {
    const { job, setup } = mounted
    this.mounted = mounted
    const { ground, seat, partFront: front } = mounted
    this.bench = { job, setup, part: mounted, ground, seat, front }
    this.rpm = rpm
    this.omega = angularSpeed(rpm)
    this.friction = hardwareFriction(setup)
    const { startTime, brakeTime } = job.lathe
    this.time = Math.min(startTime ?? ASSUMED_TIME, brakeTime ?? ASSUMED_TIME)
  }

  /** Factor of a weight where it stands; 0 where it cannot be judged. */
  factor(weight: Weight): number {
    const piece = mountPiece(this.bench, weight)
    const input = studJoint(this.mounted, piece, massOfSolids(piece.solids))?.input
    if (!input) return 0
    const result = new Joint(input).at(this.rpm)
    return result.judged ? result.factor : 0
  }

  /**
   * The farthest of the radii from r0 to r1 mm at which a weight holds; null where it does not at r0. One over the
   * factor is convex in the radius, so a chord meets the wanted value on the side that holds.
   */
  farthest(weightAt: (radius: number) => Weight, r0: number, r1: number): number | null {
    const over = (r: number) => 1 / this.factor(weightAt(r)) - 1 / WANTED_FACTOR
    let [low, high] = [r0, r1]
    let above = over(high)
    if (above <= 0) return high
    let below = over(low)
    if (!(below <= 0)) return null
    for (let n = 0; n < MOST_STEPS && high - low > CLOSE; n++) {
      const share = Number.isFinite(above) ? -below / (above - below) : 0.5
      const next = low + Math.min(Math.max((high - low) * share, CLOSE / 2), high - low - CLOSE / 4)
      const there = over(next)
      if (there <= 0) [low, below] = [next, there]
      else [high, above] = [next, there]
    }
    return low
  }

  /**
   * No weight of so many g or more on such a stud holds where it pulls outward with more g·mm than this: pull, weight and
   * stop slide it at least so much, and pull and weight tip it so much over the edge that lies outward.
   *
   * @param height mm of its centre of mass at least, 0 where that is not known yet
   * @param edge mm from its bolt to the edge of its foot outward; Infinity likewise
   */
  mostAmount(mass: number, stud: Tightened, height: number, edge: number): number {
    const force = this.forceOf(stud)
    const slides = 1 / (this.friction * force)
    const both = slides + height / (force * edge)
    const left = 1 / WANTED_FACTOR - (mass / 1000) * STANDARD_GRAVITY * both
    if (!(left > 0)) return 0
    return (left / (this.omega ** 2 * both + (this.omega / this.time) * slides)) * 1e6
  }

  /** N, the low side. */
  private forceOf({ thread, strength, torque }: Tightened): number {
    const key = `${thread.name} ${strength} ${torque}`
    let force = this.forces.get(key)
    if (force === undefined) {
      const stud = { thread: thread.name, class: strength }
      const { preload } = preloadOf({ stud, torque }, uncertaintiesOf(this.mounted.job))
      this.forces.set(key, (force = preload?.low ?? 0))
    }
    return force
  }
}
