/** From wrench torque to the force on the work. */

/** N: bolt preload F = T / (K·D) for a torque in N·m, a nut factor and a nominal diameter in mm. */
export const boltPreload = (torque: number, nutFactor: number, diameter: number): number =>
  (torque * 1000) / (nutFactor * diameter)

/** N·m: torque T = K·D·F. */
export const boltTorque = (preload: number, nutFactor: number, diameter: number): number =>
  (nutFactor * diameter * preload) / 1000

/** N on the work from a bolt force, by the lever of a strap clamp (statics): F·b/(a + b), a bolt to work, b bolt to heel. */
export const strapForce = (bolt: number, boltToWork: number, boltToHeel: number): number =>
  (bolt * boltToHeel) / (boltToWork + boltToHeel)
