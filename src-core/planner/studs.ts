/**
 * What bolts a stack to its station: a stud of the shop's kit, the shortest that is long enough; without a kit one to be
 * found, of the largest usual thread that goes through slot and pieces.
 */
import { FIRST_CHOICE_THREADS, findThread, proofLoad, usualClass, type Thread } from '../hardware/threads.ts'
import { ROUNDING } from '../geometry/tolerance.ts'
import { usualTorque } from '../hardware/preload.ts'
import { acrossCorners, nutSize } from '../hardware/nuts.ts'
import type { At, Job } from '../job/schema.ts'
import { fasten, suitedLength } from '../mounting/fastening.ts'
import type { Mounted, MountedFastening, MountedSolid } from '../mounting/types.ts'
import type { Station } from './free.ts'

/** A stud as it is tightened. */
export interface Tightened {
  readonly thread: Thread
  readonly strength: string
  /** N·m */
  readonly torque: number
}

/** A stud with its nuts and washer, holding a stack. */
export interface StackStud extends Tightened {
  /** Whether the kit says its class; the weakest is taken where it does not. */
  readonly isClassGiven: boolean
  /** mm */
  readonly length: number
  /** Which of the kit's studs it is; −1: to be found. */
  readonly kit: number
  /** Shorter ones of the kit that would do too: it is taken where they are used up. */
  readonly shorter: readonly number[]
  /** g, with nuts and washer. */
  readonly mass: number
  /** mm: how far the stud stands in front of the plate, and the circle that nut and washer sweep on the stack. */
  readonly front: number
  readonly across: number
  /** mm in front of the plate: centre of its mass, nuts and washer included. */
  readonly centre: number
  readonly nuts: number
}

/** What a thread adds at a station, worked out once: all of it is linear in the stud's length. */
interface Fit {
  readonly thread: Thread
  /** mm a stud has to be long for a stack of no height, and what of it lies behind the plate's face. */
  readonly needed: number
  readonly anchor: number
  /** g of nuts and washer; g a millimetre of stud. */
  readonly mass: number
  readonly perLength: number
  /** g·mm of nuts and washer about the plate's face, and g more of them for each mm of stack. */
  readonly moment: number
  readonly raised: number
  readonly across: number
  readonly nuts: number
}

/** mm of room that a stud to be found is given in slot or hole: the close series of ISO 273 has it from M6 to M8. */
const ROOM = 0.5
/** The weakest class that the tables have, for studs of which the kit does not say it. */
const WEAKEST = { metric: '4.6', unified: 'grade 2', whitworth: '4.6' } as const
/** Studs that a plan can ask for at most: one for each of three stations. */
const MOST = 3

type KitStud = Pick<StackStud, keyof Tightened | 'isClassGiven' | 'length' | 'kit'>

export class Studs {
  /** How many of each of the kit's studs are not on the plate yet. */
  readonly available: readonly number[]
  private readonly job: Job
  private readonly kit: readonly KitStud[] | null
  private readonly usual: readonly Thread[]
  private readonly smallestHole: number
  private readonly fits = new Map<string, Fit>()
  private readonly order = new Map<string, readonly KitStud[]>()

  /** @param mounted the setup without what a plan takes off. */
  constructor({ job, pieces }: Mounted) {
    this.job = job
    const listed = job.clampingKit?.studs ?? []
    const used = pieces.flatMap((p) => p.fastenings)
    this.available = listed.map(({ count, item }) => count - used.filter((f) => isLike(f, item)).length)
    this.kit = listed.length === 0 ? null : listed.flatMap(({ item }, kit) => kitStud(item, kit))
    this.smallestHole = job.stock.reduce((least, s) => Math.min(least, s.hole ?? Infinity), Infinity)
    const standard = job.displayUnits === 'in' ? 'unified' : 'metric'
    this.usual = FIRST_CHOICE_THREADS.filter((t) => t.standard === standard).sort(
      (a, b) => b.diameter - a.diameter,
    )
  }

  /**
   * Studs for a stack of `height` mm whose pieces let `hole` mm through: the shortest that will do, and longer ones as
   * far as there may not be enough of it. Empty where none fits or is long enough.
   */
  for(station: Station, hole: number, height: number): StackStud[] {
    if (!this.kit) {
      const usual = this.widest(station, hole)
      if (!usual) return []
      const fit = this.fitOf(station, usual.thread)
      const length = suitedLength(fit.needed + height)
      return [this.stud(fit, { ...usual, isClassGiven: true, length, kit: -1 }, height, [])]
    }
    const found: StackStud[] = []
    let enough = 0
    for (const { stud, fit } of this.reaching(station, hole, height)) {
      found.push(
        this.stud(
          fit,
          stud,
          height,
          found.map((s) => s.kit),
        ),
      )
      enough += this.available[stud.kit]!
      if (enough >= MOST) break
    }
    return found
  }

  /** g: no stud for a stack of such heights and holes no larger weighs less or more; null where none is long enough. */
  massRange(station: Station, hole: number, low: number, high: number): readonly [number, number] | null {
    let least = Infinity
    let most = 0
    if (!this.kit) {
      for (const t of this.usual) {
        if (!this.goesThrough(station, hole, t, ROOM)) continue
        const fit = this.fitOf(station, t)
        least = Math.min(least, fit.mass + fit.perLength * suitedLength(fit.needed + low))
        most = Math.max(most, fit.mass + fit.perLength * suitedLength(fit.needed + high))
        // Smaller threads only come in where a piece has a smaller hole.
        if (t.diameter + ROOM <= this.smallestHole) break
      }
    } else
      for (const { stud, fit } of this.reaching(station, hole, low)) {
        const mass = fit.mass + fit.perLength * stud.length
        least = Math.min(least, mass)
        most = Math.max(most, mass)
      }
    return least === Infinity ? null : [least, most]
  }

  /** Of the studs that may hold a stack whose pieces let no more than `hole` mm through, the one that pulls most. */
  strongest(station: Station, hole: number): Tightened | null {
    if (!this.kit) return this.widest(station, hole)
    const pull = (s: Tightened) => s.torque / s.thread.diameter
    return this.fitting(station, hole).reduce<Tightened | null>(
      (a, s) => (a && pull(a) >= pull(s) ? a : s),
      null,
    )
  }

  /** The kit's studs that go through, shortest first. */
  private fitting(station: Station, hole: number): readonly KitStud[] {
    const key = `${station.kind} ${station.id} ${hole}`
    let found = this.order.get(key)
    if (!found) {
      found = this.kit!.filter(
        (s) => this.available[s.kit]! > 0 && this.goesThrough(station, hole, s.thread, 0),
      ).sort((a, b) => a.length - b.length || a.thread.diameter - b.thread.diameter || a.kit - b.kit)
      this.order.set(key, found)
    }
    return found
  }

  /** Of those the ones that are long enough for a stack of `height` mm. */
  private *reaching(station: Station, hole: number, height: number) {
    for (const stud of this.fitting(station, hole)) {
      const fit = this.fitOf(station, stud.thread)
      if (stud.length >= fit.needed + height - ROUNDING.length) yield { stud, fit }
    }
  }

  /** A stud to be found, of the largest usual thread. */
  private widest(station: Station, hole: number): Tightened | null {
    const thread = this.usual.find((t) => this.goesThrough(station, hole, t, ROOM) && nutSize(t) !== null)
    if (!thread) return null
    const strength = usualClass(thread)
    const torque = usualTorque(thread, strength)
    return torque === null ? null : { thread, strength, torque }
  }

  /** With so much room through pieces and station. */
  private goesThrough(station: Station, hole: number, thread: Thread, room: number): boolean {
    return thread.diameter + room <= hole && fitsIn(this.job, station, thread, room)
  }

  private stud(fit: Fit, stud: KitStud, height: number, shorter: readonly number[]): StackStud {
    const own = fit.perLength * stud.length
    const mass = fit.mass + own
    const front = Math.max(height + fit.needed - fit.anchor, stud.length - fit.anchor)
    const moment = own * (stud.length / 2 - fit.anchor) + fit.moment + fit.raised * height
    return { ...stud, shorter, mass, front, across: fit.across, centre: moment / mass, nuts: fit.nuts }
  }

  private fitOf(station: Station, thread: Thread): Fit {
    const key = `${station.kind} ${station.id} ${thread.name}`
    let fit = this.fits.get(key)
    if (!fit) this.fits.set(key, (fit = this.workOut(station, thread)))
    return fit
  }

  private workOut(station: Station, thread: Thread): Fit {
    const at: At = station.kind === 'slot' ? { slot: station.id, radius: station.from } : { hole: station.id }
    const weigh = (length: number, grip: number) => {
      const stud = { thread: thread.name, length }
      const { fastening, solids } = fasten(this.job.plate, at, { x: 0, y: 0 }, { stud }, grip)
      const sum = (of: (s: MountedSolid) => number) => solids.reduce((all, s) => all + of(s), 0)
      const moment = sum((s) => (s.role === 'stud' ? 0 : s.mass * 1000 * s.massCentre.z))
      return { fastening, solids, mass: sum((s) => s.mass * 1000), moment }
    }
    const { fastening, solids, mass, moment } = weigh(100, 0)
    const perLength = (weigh(200, 0).mass - mass) / 100
    const nut = nutSize(thread)
    const { needed, back, washer } = fastening
    return {
      thread,
      needed,
      anchor: -back,
      mass: mass - 100 * perLength,
      perLength,
      moment,
      raised: (weigh(100, 100).moment - moment) / 100,
      across: Math.max(washer.diameter, nut ? acrossCorners(nut) : 0),
      nuts: solids.filter((s) => s.role === 'nut').length,
    }
  }
}

const isLike = (on: MountedFastening, item: { thread: string; length: number }): boolean =>
  on.length === item.length && on.thread !== null && on.thread === findThread(item.thread)

function kitStud(
  item: { readonly thread: string; readonly class?: string | null | undefined; readonly length: number },
  kit: number,
): KitStud[] {
  const thread = findThread(item.thread)
  if (!thread) return []
  const isClassGiven = typeof item.class === 'string' && proofLoad(thread, item.class) !== null
  const strength = isClassGiven ? item.class! : WEAKEST[thread.standard]
  const torque = usualTorque(thread, strength)
  return torque === null ? [] : [{ thread, strength, isClassGiven, length: item.length, torque, kit }]
}

/** Through a slot's mouth or a plain hole with so much room; into a tapped hole only its own thread. */
function fitsIn({ plate }: Job, station: Station, thread: Thread, room: number): boolean {
  const tapped = station.kind === 'hole' && plate.holes.find((h) => h.id === station.id)?.thread
  if (tapped) return findThread(tapped) === thread
  return thread.diameter + room <= station.bolt
}
