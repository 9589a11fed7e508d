/**
 * A job whose model has the unbalance that was measured, so that planner and verdict go by it: the difference is put
 * into the plate's own residual, and the doubt of the measurement takes the place of those of part and plate.
 */
import type { Analysis } from '../analysis/result.ts'
import { uncertaintiesOf } from '../doubt/defaults.ts'
import { directionOf, polar } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import { isCounterweight, type Job, type Setup, type StockItem } from '../job/schema.ts'
import { findSetup } from '../mounting/mount.ts'
import { changeSetup } from '../planner/apply.ts'
import { missingIn } from './compare.ts'
import type { Estimate } from './estimate.ts'

/** The job with a vector, g·mm, added to the plate's own unbalance. */
export function withResidual(job: Job, added: Point): Job {
  const own = job.plate.residual ? polar(job.plate.residual.amount, job.plate.residual.angle) : { x: 0, y: 0 }
  const sum = { x: own.x + added.x, y: own.y + added.y }
  const residual = { amount: Math.hypot(sum.x, sum.y), angle: directionOf(sum) }
  return { ...job, plate: { ...job.plate, residual } }
}

/** kg of the part as it is mounted; of all that turns where the part is none of it. */
const partMassIn = ({ terms, assembly }: Analysis): number =>
  terms.find((t) => t.item === 'part')?.mass_kg ?? assembly.mass_kg

/** Standard uncertainty of a vector in its most doubtful direction. */
function largestDoubt({ xx, xy, yy }: Estimate['covariance']): number {
  return Math.sqrt((xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy))
}

/**
 * What hardware adds of doubt stays, though the measurement has had it on: the bound errs to the large side.
 * @param kept whether the counterweights that are on stay on: the shop has those no more.
 */
export function measuredJob(
  job: Job,
  setupId: string,
  analysis: Analysis,
  measured: Estimate,
  kept: boolean,
): Job {
  return {
    ...withResidual(job, missingIn(analysis, measured)),
    stock: leftInStock(job.stock, findSetup(job, setupId), kept),
    uncertainty: {
      ...job.uncertainty,
      computedMass: 0,
      centreOfMass: largestDoubt(measured.covariance) / (1000 * partMassIn(analysis)),
    },
  }
}

/** Stock less what stays on the plate. */
function leftInStock(stock: Job['stock'], setup: Setup, kept: boolean): readonly StockItem[] {
  const used = (id: string) =>
    setup.hardware.reduce((sum, h) => {
      if (h.kind !== 'weight' || !(kept || (isCounterweight(h) && h.fixed))) return sum
      return sum + h.stack.reduce((n, l) => n + (l.stock === id ? l.count : 0), 0)
    }, 0)
  return stock.map((s) => ({ ...s, count: Math.max(0, s.count - used(s.id)) }))
}

/** The job as it stands for a run with a trial weight on, its doubts kept, at the speed of that run. */
export function trialJob(job: Job, setupId: string, weight: Point, rpm: number, analysis: Analysis): Job {
  const doubt = uncertaintiesOf(job)
  // A residual that is given counts as known: what was not known of the plate is put on the part.
  const plate = job.plate.residual ? 0 : (doubt.plateResidual * job.plate.mass) / partMassIn(analysis)
  return {
    ...changeSetup(withResidual(job, weight), setupId, (setup) => ({ ...setup, speed: rpm })),
    uncertainty: { ...job.uncertainty, centreOfMass: Math.hypot(doubt.centreOfMass, plate) },
  }
}
