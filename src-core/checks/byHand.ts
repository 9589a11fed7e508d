/**
 * What hands have to do with a setup: how hard its heavy side turns the spindle, whether it rolls to rest by itself,
 * what has to be lifted. T = U·g: 1 g·mm hangs with 9.80665e-6 N·m.
 */
import { finding, type Finding } from '../findings/finding.ts'
import type { Point } from '../geometry/types.ts'
import { isClamp, isCounterweight, isShelf, type Hardware, type Plate } from '../job/schema.ts'
import type { Mounted } from '../mounting/types.ts'
import { outermostStation } from '../mounting/station.ts'
import type { Assembly } from '../unbalance/assembly.ts'
import { STANDARD_GRAVITY } from '../unbalance/static.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'
import type { Rolling } from '../words/cautions.ts'

export interface Lift {
  readonly item: string
  readonly mass_kg: number
}

export interface ByHand {
  /** N·m of the heavy side when all is on, and at its worst while the plate is loaded without counterweights. */
  readonly torque_N_m: number
  readonly loading_torque_N_m: number
  /** N on the plate's rim that holds it level. */
  readonly rim_push_N: number
  /** The same heavy side as a weight at the plate's outermost station, kg and mm. */
  readonly as_weight: { readonly mass_kg: number; readonly radius_mm: number }
  readonly rolls: Rolling
  /** In the order in which they go on; pieces lighter than `SMALL_LIFT` are left out. */
  readonly lifts: readonly Lift[]
}

/** N on the rim that one hand holds while the other works. Rule of thumb, Evenswing's own. */
export const ONE_HAND = 50

/**
 * N·m that a spindle out of gear resists being turned with, least and most: seals, preload and belt, which nothing tells
 * (rule of thumb, Evenswing's own), and μ·W·d/2 of its bearings at 60 mm (rolling) to 80 mm (plain), with μ 0.0017 of
 * tapered rollers and 0.02 of plain bearings by a bearing maker's table of reference values.
 */
export function spindleFriction(mass: number): { readonly least: number; readonly most: number } {
  const weight = mass * STANDARD_GRAVITY
  return { least: 0.2 + 0.0017 * weight * 0.03, most: 1.5 + 0.02 * weight * 0.04 }
}

/**
 * kg that hardly anybody is hurt by, lifted now and then in both hands, close to the body and at arm's length: to the
 * spindle's height, between elbow and shoulder, and up from the floor. Health and Safety Executive, INDG143, figure of
 * guideline weights; these rows from memory.
 */
export const LIFTING = { man: { close: 20, far: 10 }, woman: { close: 13, far: 7 } } as const
export const FROM_FLOOR = { man: { close: 10, far: 5 }, woman: { close: 7, far: 3 } } as const

/** kg: lighter pieces are not listed. */
export const SMALL_LIFT = 3

/** N·m about the spindle axis with the heavy side level: g·U. @param unbalance g·mm. */
export const heavyTorque = (unbalance: number): number => unbalance * 1e-6 * STANDARD_GRAVITY

/** Of the setup as mounted, before its cuts. */
export function byHand(mounted: Mounted, assembly: Assembly): ByHand {
  const { plate } = mounted.job
  const size = (v: Point) => Math.hypot(v.x, v.y)
  const torque = heavyTorque(size(assembly.unbalance))
  const loading = heavyTorque(Math.max(...stages(mounted, assembly).map(size)))
  const radius = outermostStation(plate)
  const push = pushOnRim(torque, plate)
  return {
    torque_N_m: torque,
    loading_torque_N_m: Math.max(torque, loading),
    rim_push_N: push,
    as_weight: { mass_kg: size(assembly.unbalance) / 1000 / radius, radius_mm: radius },
    rolls: rollingOf(torque, push, assembly.total.m),
    lifts: liftsOf(mounted, assembly),
  }
}

const pushOnRim = (torque: number, plate: Plate): number => torque / (plate.diameter / 2000)

function rollingOf(torque: number, push: number, mass: number): Rolling {
  if (push > ONE_HAND) return 'swings'
  const { least, most } = spindleFriction(mass)
  return torque > most ? 'rolls' : torque < least ? 'stays' : 'may roll'
}

/** Static unbalance, g·mm, of what is on before the counterweights are: the part, then what holds it too. */
function stages({ pieces }: Mounted, { terms }: Assembly): Point[] {
  const counter = new Set(pieces.filter((p) => isCounterweight(p.item)).map((p) => p.item.id))
  const add = (a: Point, b: Point): Point => ({ x: a.x + b.x, y: a.y + b.y })
  const sum = (of: readonly { readonly unbalance_g_mm: Point }[]) =>
    of.map((t) => t.unbalance_g_mm).reduce(add, { x: 0, y: 0 })
  const early = terms.filter((t) => t.item === 'plate' || t.item === 'part')
  return [sum(early), sum(terms.filter((t) => !counter.has(t.item)))]
}

/** What goes on before what. */
function turnOf(item: Hardware): number {
  if (item.kind === 'packing' || item.kind === 'fixture' || isShelf(item)) return 1
  if (isCounterweight(item)) return 5
  return isClamp(item) ? 3 : 4
}

function liftsOf({ job, pieces }: Mounted, { mountedPart }: Assembly): Lift[] {
  const all = [
    { item: 'plate', mass_kg: job.plate.mass, turn: 0 },
    { item: 'part', mass_kg: mountedPart.m, turn: 2 },
    ...pieces.map(({ item, mass }) => ({ item: item.id, mass_kg: mass, turn: turnOf(item) })),
  ]
  return all
    .filter((l) => l.mass_kg >= SMALL_LIFT)
    .sort((a, b) => a.turn - b.turn || b.mass_kg - a.mass_kg)
    .map(({ item, mass_kg }) => ({ item, mass_kg }))
}

export function byHandFindings(mounted: Mounted, hand: ByHand, mass: number): Finding[] {
  const fmt = formatter(mounted.job.displayUnits)
  return [heavySide(mounted.job.plate, hand, mass, fmt), ...lifting(hand, fmt)]
}

/** Two figures are all that a rule of thumb has. */
const coarse = (value: number): number => Number(value.toPrecision(2))

/** What to expect once the spindle is let go. */
export const ROLLING_WORDS: Readonly<Record<Rolling, string>> = {
  swings: 'It swings down by itself: let it down by hand.',
  rolls: 'Let go, it rolls to rest with the heavy side down.',
  'may roll': 'It may not roll by itself.',
  stays: 'It does not roll by itself, so rolling shows nothing.',
}

function heavySide(plate: Plate, hand: ByHand, mass: number, fmt: Formatter): Finding {
  const { mass_kg, radius_mm } = hand.as_weight
  const as = `as ${fmt.mass(mass_kg)} at ${fmt.length(radius_mm)}, or ${fmt.force(hand.rim_push_N)} on the rim`
  const { least, most } = spindleFriction(mass)
  const friction = `A spindle out of gear resists with about ${fmt.torque(coarse(least))} to ${fmt.torque(coarse(most))} (rule of thumb).`
  const hangs = `The heavy side hangs on the spindle with ${fmt.torque(hand.torque_N_m)}: ${as}. ${ROLLING_WORDS[hand.rolls]}`
  const loading = pushOnRim(hand.loading_torque_N_m, plate)
  if (loading <= ONE_HAND) return finding('note', 'heavy-side', 'setup', `${hangs} ${friction}`)
  const before = hand.loading_torque_N_m > hand.torque_N_m ? ', before all is on' : ''
  const message = `Chock the plate while it is loaded. It swings down with up to ${fmt.torque(hand.loading_torque_N_m)}, ${fmt.force(loading)} on the rim${before}. ${hangs}`
  return finding('caution', 'heavy-side', 'setup', message)
}

function lifting({ lifts }: ByHand, fmt: Formatter): Finding[] {
  const most = Math.max(0, ...lifts.map((l) => l.mass_kg))
  const { man, woman } = LIFTING
  if (most <= woman.far) return []
  const name = (l: Lift) => (l.item === 'plate' || l.item === 'part' ? `the ${l.item}` : l.item)
  const heavy = lifts.filter((l) => l.mass_kg > man.far)
  const tackle =
    heavy.length === 0 ? 'Lift with care' : `Lift ${heavy.map(name).join(', ')} with tackle or by two`
  const order = lifts.map((l) => `${name(l)} ${fmt.mass(l.mass_kg)}`).join(', then ')
  const far = `${fmt.mass(man.far)} for a man and ${fmt.mass(woman.far)} for a woman`
  const close = `${fmt.mass(man.close)} and ${fmt.mass(woman.close)} close to the body`
  const floor = `from the floor ${fmt.mass(FROM_FLOOR.man.close)} and ${fmt.mass(FROM_FLOOR.woman.close)} close to it, so lift from a bench`
  const message = `${capital(tackle)}. In order: ${order}. At arm's length, between elbow and shoulder, the guideline is ${far}; ${close}; ${floor} (Health and Safety Executive, INDG143).`
  return [finding(most > man.close ? 'caution' : 'note', 'heavy-lift', 'setup', message)]
}
