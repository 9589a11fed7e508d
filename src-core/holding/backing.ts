/**
 * What a stop or a pin bears of the part: up to the force at its contact that brings its own joint to a factor of 1 with
 * its own loads doubled; a pin up to what bends or shears it at the plate's face.
 */
import { WEAKEST_STEEL } from '../hardware/steels.ts'
import { outOf, turnedBy, type Pose } from '../geometry/space/pose.ts'
import { scale3 } from '../geometry/space/vector.ts'
import type { Point3 } from '../geometry/types.ts'
import { angularSpeed, STANDARD_GRAVITY } from '../unbalance/static.ts'
import { Joint } from './joint.ts'
import type { JointInput } from './jointData.ts'
import { fixedLoad, wrenchAt, type Load, type Wrench } from './loads.ts'
import type { StopContact } from './stopContact.ts'

/** Times that its own loads count. */
const OWN_LOADS = 2
/** Chords drawn towards the force that its joint bears; each ends at or below it. */
const CHORDS = 8

/** What bears: a block by its own joint, or a pin by itself. */
export type Bears = { readonly joint: JointInput } | { readonly pin: Pin }

export interface Pin {
  /** mm */
  readonly diameter: number
  /** kg, and mm from the axis. */
  readonly mass: number
  readonly radius: number
}

export interface Backing {
  readonly id: string
  /** Of what it and the part stand on, in the plate's frame. */
  readonly pose: Pose
  readonly contact: StopContact
  readonly bears: Bears
}

/** N that it bears at a speed in rpm, at the height of its contact that asks most of it. */
export function capacityAt({ pose, contact, bears }: Backing, rpm: number): number {
  if ('pin' in bears) return pinCapacity(bears.pin, (contact.low + contact.high) / 2, rpm)
  const { into } = contact
  if (!into) return 0
  return Math.min(
    ...[contact.low, contact.high].map((z) => {
      const at = outOf(pose, { ...contact.at, z })
      return jointCapacity(bears.joint, at, turnedBy(pose, { ...into, z: 0 }), rpm)
    }),
  )
}

/**
 * N across a pin's end at a height over the face that it stands out of, mm, till it yields there: bending F·h/Z and shear F/A together
 * by the greatest change of shape, √((h/Z)² + 3/A²)·F. What it is made of is not known: the weakest steel.
 */
export function pinCapacity({ diameter, mass, radius }: Pin, height: number, rpm: number): number {
  const modulus = (Math.PI * diameter ** 3) / 32
  const area = (Math.PI * diameter ** 2) / 4
  const bears = WEAKEST_STEEL.yieldsAt / Math.hypot(height / modulus, Math.sqrt(3) / area)
  const own = mass * ((angularSpeed(rpm) ** 2 * radius) / 1000 + STANDARD_GRAVITY)
  return Math.max(0, bears - OWN_LOADS * own)
}

/**
 * 1/factor is convex in the force F, for it is the greatest of sums that grow with F in proportion; so a chord from
 * below the force sought to above it crosses 1 at or below that force.
 * @param at where it is pushed and `into` which way, of length 1, plate frame.
 */
function jointCapacity(joint: JointInput, at: Point3, into: Point3, rpm: number): number {
  const doubled = new Map<Load, Load>()
  const double = (l: Load): Load => {
    const known = doubled.get(l)
    if (known) return known
    const twice: Load = {
      ...l,
      steady: times(l.steady, OWN_LOADS),
      turning: l.turning && [times(l.turning[0], OWN_LOADS), times(l.turning[1], OWN_LOADS)],
    }
    doubled.set(l, twice)
    return twice
  }
  const own = joint.loadings.map(({ name, loads }) => ({ name, loads: loads.map(double) }))
  const strain = (force: number): number => {
    const push = fixedLoad(wrenchAt(at, scale3(into, force)))
    const loadings = own.map(({ name, loads }) => ({ name, loads: [...loads, push] }))
    const { judged, factor } = new Joint({ ...joint, loadings }).at(rpm)
    return judged ? 1 / factor : Infinity
  }
  let low = 0
  let atLow = strain(0)
  if (!(atLow < 1)) return 0
  // More than friction under all of its presses holds.
  const high = gripOf(joint)
  const atHigh = strain(high)
  if (!(atHigh > 1)) return atHigh <= 1 ? high : 0
  if (atHigh === Infinity) return 0
  for (let i = 0; i < CHORDS; i++) {
    low += ((1 - atLow) / (atHigh - atLow)) * (high - low)
    atLow = strain(low)
  }
  return low
}

function gripOf({ grip, friction }: JointInput): number {
  const presses =
    'stud' in grip ? [grip.stud] : 'strap' in grip ? [grip.strap.toe, grip.strap.heel] : grip.presses
  return presses.reduce((sum, p) => sum + (p.friction ?? friction) * p.force, 0)
}

const times = ({ force, moment }: Wrench, k: number): Wrench => ({
  force: { x: k * force.x, y: k * force.y, z: k * force.z },
  moment: { x: k * moment.x, y: k * moment.y, z: k * moment.z },
})
