/** A plan put on the plate: the one place where a plan becomes hardware. */
import { angleOf, polar, toDegrees } from '../geometry/angles.ts'
import {
  isBox,
  isCounterweight,
  isStationed,
  type Hardware,
  type Job,
  type Setup,
  type Weight,
} from '../job/schema.ts'
import { findSetup } from '../mounting/mount.ts'
import type { Plan, PlanFasteners, PlanStation } from './report.ts'

/** Counterweights that a new plan takes off again: those not marked as fixed. */
export const isReplaceable = (item: Hardware): boolean => isCounterweight(item) && !item.fixed

/** Ids of the counterweights that a new plan takes off again. */
export const replaceableIds = (setup: Setup): string[] =>
  setup.hardware.filter(isReplaceable).map((h) => h.id)

/** The job with pieces of a setup's hardware taken off. */
export function withoutHardware(job: Job, setupId: string, ids: readonly string[]): Job {
  if (ids.length === 0) return job
  return changeSetup(job, setupId, (setup) => ({
    ...setup,
    hardware: setup.hardware.filter((h) => !ids.includes(h.id)),
  }))
}

/** What of a plan's station is put on. */
export type Bolted = ({ readonly slot: string } | { readonly hole: string }) &
  Pick<PlanStation, 'radius_mm' | 'stack'> & {
    readonly fasteners: Pick<PlanFasteners, 'thread' | 'class' | 'length_mm' | 'stud' | 'torque_N_m'>
  }

/** The parts of a plan that are put on; `Plan` has them all. */
export type Appliable = Pick<Plan, 'moves' | 'turn_deg' | 'replaces'> & {
  readonly stations: readonly Bolted[]
}

/**
 * The job with a plan's moves made and its stacks bolted on in place of the counterweights it replaces. Throws
 * RangeError where the plan names stock, a slot or a hole that the job has not.
 */
export function applyPlan(job: Job, setupId: string, plan: Appliable): Job {
  return changeSetup(withoutHardware(job, setupId, plan.replaces), setupId, (setup) => {
    const moved = setup.hardware.map((h) => {
      const move = plan.moves.find((m) => m.item === h.id)
      return move ? slide(job, h, move.radius_mm) : h
    })
    const used = new Set(moved.map((h) => h.id))
    const added = plan.stations.map((station) => stackWeight(job, station, freshId(used)))
    return { ...setup, turn: plan.turn_deg ?? setup.turn, hardware: [...moved, ...added] }
  })
}

/** The job with one of its setups changed. Throws RangeError on an unknown setup. */
export function changeSetup(job: Job, setupId: string, change: (setup: Setup) => Setup): Job {
  const setup = findSetup(job, setupId)
  return { ...job, setups: job.setups.map((s) => (s === setup ? change(s) : s)) }
}

function freshId(used: Set<string>): string {
  let n = 1
  while (used.has(`cw${n}`)) n++
  used.add(`cw${n}`)
  return `cw${n}`
}

/** A piece slid along its slot; a clamp's nose goes with it. */
export function slide(job: Job, item: Hardware, radius: number): Hardware {
  if (!isStationed(item) || !('slot' in item.at)) return item
  const { slot, radius: from } = item.at
  const by = polar(radius - from, job.plate.slots.find((s) => s.id === slot)?.angle ?? 0)
  const at = { slot, radius }
  if (!isBox(item)) return { ...item, at }
  const nose = item.press?.nose
  return {
    ...item,
    at,
    ...(item.press && nose ? { press: { ...item.press, nose: { x: nose.x + by.x, y: nose.y + by.y } } } : {}),
  }
}

/** A stack as it is bolted on at a station of the plate. Throws RangeError where the job has not what it names. */
export function stackWeight(job: Job, station: Bolted, id: string): Weight {
  const { stack, fasteners } = station
  const names = stack.map(({ stock, count }) => {
    const item = job.stock.find((s) => s.id === stock)
    if (!item) throw new RangeError(`no stock ${stock}`)
    return `${count} × ${item.name ?? item.id}`
  })
  return {
    id,
    name: names.join(' + '),
    kind: 'weight',
    at: 'slot' in station ? { slot: station.slot, radius: station.radius_mm } : { hole: station.hole },
    facing: stationAngle(job, station),
    stack,
    stud: {
      thread: fasteners.thread,
      class: fasteners.class,
      length: fasteners.stud === null ? 'suit' : fasteners.length_mm,
    },
    torque: fasteners.torque_N_m,
    fixed: false,
  }
}

function stationAngle(job: Job, station: Bolted): number {
  if ('slot' in station) {
    const slot = job.plate.slots.find((s) => s.id === station.slot)
    if (!slot) throw new RangeError(`no slot ${station.slot}`)
    return slot.angle
  }
  const hole = job.plate.holes.find((h) => h.id === station.hole)
  if (!hole) throw new RangeError(`no hole ${station.hole}`)
  return toDegrees(angleOf(hole))
}
