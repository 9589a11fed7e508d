/** From wrench torque to the force on the work. */
import { proofLoad, type Thread } from './threads.ts'

/** Nut factor K of T = K·D·F: plain dry or zinc-plated threads, the usual published mean. */
export const NUT_FACTOR = 0.2
/** Share of the proof load that a fastener used again is tightened to: the usual published figure. */
const SHARE_OF_PROOF = 0.75

/** N: bolt preload F = T / (K·D) for a torque in N·m, a nut factor and a nominal diameter in mm. */
export const boltPreload = (torque: number, nutFactor: number, diameter: number): number =>
  (torque * 1000) / (nutFactor * diameter)

/** N·m: torque T = K·D·F. */
export const boltTorque = (preload: number, nutFactor: number, diameter: number): number =>
  (nutFactor * diameter * preload) / 1000

/** N on the work from a bolt force, by the lever of a strap clamp (statics): F·b/(a + b), a bolt to work, b bolt to heel. */
export const strapForce = (bolt: number, boltToWork: number, boltToHeel: number): number =>
  (bolt * boltToHeel) / (boltToWork + boltToHeel)

/** N·m that brings a thread to three quarters of its proof load at the usual nut factor; null where that is not known. */
export function usualTorque(thread: Thread, strength: string): number | null {
  const proof = proofLoad(thread, strength)
  return proof === null
    ? null
    : Number(boltTorque(SHARE_OF_PROOF * proof, NUT_FACTOR, thread.diameter).toPrecision(2))
}
