/** A plan put on the plate: the one place where a plan becomes hardware. */
import { angleOf, polar, toDegrees } from '../geometry/angles.ts'
import {
  isBox,
  isCounterweight,
  isStationed,
  type Footprint,
  type Hardware,
  type Job,
  type Setup,
  type StockItem,
} from '../job/schema.ts'
import { findSetup } from '../mounting/mount.ts'
import type { Plan, PlanStation } from './report.ts'
import {
  coversShape,
  farthestOut,
  footprintCentre,
  footprintShape,
  hullOfShapes,
  type Shape,
} from './shape.ts'

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

/** The parts of a plan that are put on; `Plan` has them all. */
export type Appliable = Pick<Plan, 'stations' | 'moves' | 'turn_deg' | 'replaces'>

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
    const added = plan.stations.map((station) => stackHardware(job, station, freshId(used)))
    return { ...setup, turn: plan.turn_deg ?? setup.turn, hardware: [...moved, ...added] }
  })
}

function changeSetup(job: Job, setupId: string, change: (setup: Setup) => Setup): Job {
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

function stackHardware(job: Job, station: PlanStation, id: string): Hardware {
  const pieces = station.stack.map(({ stock, count }) => {
    const item = job.stock.find((s) => s.id === stock)
    if (!item) throw new RangeError(`no stock ${stock}`)
    return { item, count }
  })
  const footprint = stackFootprint(pieces.map((p) => p.item.footprint))
  const height = pieces.reduce((h, { item, count }) => h + item.height * count, 0)
  const angle = stationAngle(job, station)
  return {
    id,
    name: pieces.map(({ item, count }) => `${count} × ${item.name ?? item.id}`).join(' + '),
    kind: 'counterweight',
    mass: station.mass_kg,
    at: 'slot' in station ? { slot: station.slot, radius: station.radius_mm } : { hole: station.hole },
    footprint,
    facing: angle,
    base: 0,
    height,
    fixed: false,
    // One kind of even pieces has its mass where hardware has it anyway.
    ...(pieces.length === 1 && !('outline' in footprint)
      ? {}
      : { massCentre: stackCentre(pieces, station.mass_kg, height) }),
  }
}

interface StackPieces {
  readonly item: StockItem
  readonly count: number
}

/**
 * Centre of mass of a stack from its bolt and the plate's face: the widest pieces lie undermost, the bolt set
 * (what the station's mass has beyond the pieces) at the bolt, half-way up.
 */
function stackCentre(pieces: readonly StackPieces[], mass: number, height: number) {
  const reach = (p: StackPieces) => farthestOut(footprintShape(p.item.footprint))
  const ordered = [...pieces].sort((a, b) => reach(b) - reach(a))
  const stock = pieces.reduce((m, { item, count }) => m + item.mass * count, 0)
  let x = 0
  let y = 0
  let z = ((mass - stock) * height) / 2
  let base = 0
  for (const { item, count } of ordered) {
    const own = item.mass * count
    const centre = footprintCentre(item.footprint)
    x += own * centre.x
    y += own * centre.y
    z += own * (base + (item.height * count) / 2)
    base += item.height * count
  }
  return { x: x / mass, y: y / mass, z: z / mass }
}

function stationAngle(job: Job, station: PlanStation): number {
  if ('slot' in station) {
    const slot = job.plate.slots.find((s) => s.id === station.slot)
    if (!slot) throw new RangeError(`no slot ${station.slot}`)
    return slot.angle
  }
  const hole = job.plate.holes.find((h) => h.id === station.hole)
  if (!hole) throw new RangeError(`no hole ${station.hole}`)
  return toDegrees(angleOf(hole))
}

/** The footprint that covers all, else the convex outline round them. */
function stackFootprint(footprints: readonly Footprint[]): Footprint {
  const shapes = footprints.map(footprintShape)
  const widest = footprints.findIndex((_, i) => shapes.every((s) => covers(shapes[i]!, s)))
  if (widest >= 0) return footprints[widest]!
  const hull = shapes.reduce(hullOfShapes)
  return hull.kind === 'disc'
    ? { circle: hull.radius * 2 }
    : { outline: hull.points.map(({ x, y }) => ({ x, y })) }
}

function covers(outer: Shape, inner: Shape): boolean {
  return outer === inner || coversShape(outer, inner)
}
