/**
 * What a round carries in a vee of included angle 2β under straps that press along its bisector, N and N·mm. Each flank
 * bears N = F/(2 sin β). Friction μ carries along the vee μ(2N + F if the strap rubs) and turning as much times half the
 * diameter. Where no strap rubs, turning shifts load from one flank to the other: 2N falls to F/(sin β (1 + μ²)), and a
 * flank would be bare above μ = cot β, so no more friction than that counts. A push to the side opens a flank at
 * F/tan β, friction left out. Statics of a rigid round; no published example with figures was found.
 */
export interface VeeInput {
  /** β, half the angle between the flanks, rad. */
  readonly half: number
  readonly diameter: number
  /** Whether the straps are held against slips too, so that they grip with the same μ. */
  readonly rubs: boolean
}

export interface VeeGrip extends VeeInput {
  /** μ */
  readonly friction: number
}

/** N on each flank under a force F, N, along the bisector. */
export const flankForce = ({ half }: Pick<VeeInput, 'half'>, force: number): number =>
  force / (2 * Math.sin(half))

/** N along the vee before it slips. */
export function axialGrip(grip: VeeGrip, force: number): number {
  return grip.friction * (2 * flankForce(grip, force) + (grip.rubs ? force : 0))
}

/** N·mm about the round's axis before it turns. */
export function turningGrip(grip: VeeGrip, force: number): number {
  const { half, diameter, friction, rubs } = grip
  if (rubs) return (axialGrip(grip, force) * diameter) / 2
  const used = Math.min(friction, 1 / Math.tan(half))
  return (used * force * diameter) / (2 * Math.sin(half) * (1 + used * used))
}

/** N square to the bisector, through the round's axis, at which a flank is bare. */
export const sideGrip = ({ half }: Pick<VeeInput, 'half'>, force: number): number => force / Math.tan(half)

/**
 * mm from the round's axis to where what grips along the vee acts together, out of the vee positive: the flanks' lines
 * lie (D/2)·sin β behind the axis; a strap that rubs, D/2 before it, brings it to the axis.
 */
export const gripHeight = ({ half, diameter, rubs }: VeeInput): number =>
  rubs ? 0 : (-diameter / 2) * Math.sin(half)
