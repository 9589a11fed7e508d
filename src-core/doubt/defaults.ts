/** Standard uncertainties (one sigma) that a job may override, each with the reason for its default. */
import { NUT_FACTOR } from '../hardware/preload.ts'
import type { Job } from '../job/schema.ts'

export const UNCERTAINTY_DEFAULTS = {
  /** Share. Handbook densities of one material spread by 2 to 5 %, and a drawn outline misses fillets and scale. */
  computedMass: 0.03,
  /** Share. A kitchen or parcel scale reads to a few grams on a kilogram. */
  weighedMass: 0.005,
  /** mm, each way. A drawn outline against the real part, and how well its bore is clocked in. */
  centreOfMass: 0.5,
  /** mm, along and across. A weight or clamp set in a slot by eye and rule. */
  placing: 1,
  /** mm of offset of the bare plate's centre of mass where its own unbalance is not given. Own choice, no source. */
  plateResidual: 0.1,
  nutFactor: NUT_FACTOR,
  /** Share. Preload scatter with a torque wrench, commonly given as ±25 to ±30 %. */
  preloadScatter: 0.25,
} as const

export type Uncertainties = { readonly [K in keyof typeof UNCERTAINTY_DEFAULTS]: number }

/** The job's own values over the defaults. */
export function uncertaintiesOf(job: Job): Uncertainties {
  return { ...UNCERTAINTY_DEFAULTS, ...stripUndefined(job.uncertainty ?? {}) }
}

function stripUndefined<T extends object>(value: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(value).filter(([, v]) => v !== undefined)) as {
    [K in keyof T]: Exclude<T[K], undefined>
  }
}
