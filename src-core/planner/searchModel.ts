/**
 * A setup as the search sees it: lines from the axis on which stacks or sliding pieces may stand, their free radii,
 * and which pairs can meet. Nothing here is reported; every plan is judged by the analysis once it is applied.
 */
import { polar } from '../geometry/angles.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import type { Mounted } from '../mounting/types.ts'
import { contactOf, inPlate, type Contact } from './contact.ts'
import { EntryTree, type Entry } from './entries.ts'
import type { FreeRadii } from './free.ts'
import { listStations, type Station } from './free.ts'
import type { Interval } from './intervals.ts'
import { settle, type Pairing, type SettleResult } from './settle.ts'
import type { Shape } from './shape.ts'
import { slidersOf, type Slider } from './sliders.ts'
import type { StackLevels } from './stackLevels.ts'
import { type Stack } from './stackLevels.ts'

export interface ModelOptions {
  /** mm */
  readonly stackHeight: number
  readonly clearance: number
  readonly swingMargin: number
  /** kg */
  readonly boltSetMass: number
}

export class Model {
  readonly mounted: Mounted
  readonly stations: readonly Station[]
  readonly sliders: readonly Slider[]
  /** Unit vector of each line: stations first, then sliders. */
  readonly directions: readonly Point[]
  readonly levels: StackLevels
  private readonly moving: readonly string[]
  private readonly free: FreeRadii
  private readonly options: ModelOptions
  private readonly radii = new Map<string, Interval[]>()
  private readonly trees = new Map<string, EntryTree>()
  private readonly contacts = new Map<string, Contact>()

  /** @param moving ids of the pieces that are to be moved; the others stay. */
  constructor(
    mounted: Mounted,
    levels: StackLevels,
    free: FreeRadii,
    options: ModelOptions,
    moving: readonly string[],
  ) {
    this.mounted = mounted
    this.levels = levels
    this.free = free
    this.options = options
    this.moving = moving
    this.stations = listStations(mounted.job.plate)
    this.sliders = slidersOf(mounted, free, moving)
    this.directions = [...this.stations, ...this.sliders.map((s) => s.station)].map(({ angle }) =>
      polar(1, angle),
    )
  }

  /** Stacks of so many pieces on a station. */
  stationTree(station: number, pieces: number): EntryTree {
    const key = `${station} ${pieces}`
    let tree = this.trees.get(key)
    if (!tree) {
      const entries = this.levels.level(pieces).flatMap((stack) => this.entriesOf(station, stack))
      this.trees.set(key, (tree = new EntryTree(station, entries)))
    }
    return tree
  }

  sliderTree(slider: number): EntryTree {
    const s = this.sliders[slider]!
    const line = this.stations.length + slider
    return new EntryTree(
      line,
      s.ranges.map(({ lo, hi }): Entry => ({
        line,
        stack: null,
        mass: s.mass,
        r0: lo,
        r1: hi,
        shift: -s.from,
        across: 0,
        z0: s.piece.z0,
        z1: s.piece.z1,
        shape: -1 - slider,
      })),
    )
  }

  private entriesOf(station: number, stack: Stack): Entry[] {
    return this.freeFor(station, stack).map(({ lo, hi }): Entry => ({
      line: station,
      stack,
      mass: stack.mass,
      r0: lo,
      r1: hi,
      shift: stack.centre.x,
      across: stack.mass * stack.centre.y,
      z0: 0,
      z1: stack.height,
      shape: stack.shape,
    }))
  }

  private freeFor(station: number, stack: Stack): Interval[] {
    const heightClass = this.free.heightClass(stack.height)
    const key = `${station} ${stack.shape} ${heightClass}`
    let found = this.radii.get(key)
    if (!found) {
      found = this.free.find({
        station: this.stations[station]!,
        shape: this.levels.shapes[stack.shape]!.shape,
        z0: 0,
        z1: Math.max(stack.height, this.free.classTop(heightClass, this.options.stackHeight)),
        without: this.moving,
        overPart: false,
        rim: this.mounted.job.plate.diameter / 2,
      })
      this.radii.set(key, found)
    }
    return found
  }

  /** Whether the stock holds all the stacks of these entries. */
  holds(entries: readonly Entry[]): boolean {
    return this.levels.stockHolds(entries.flatMap((e) => e.stack ?? []))
  }

  settle(base: Point, entries: readonly Entry[], limit: number): SettleResult {
    const pairs: Pairing[] = []
    for (let i = 0; i < entries.length; i++) {
      for (let j = i + 1; j < entries.length; j++) {
        const contact = this.contact(entries[i]!, entries[j]!)
        if (contact) pairs.push({ i, j, contact })
      }
    }
    const directions = entries.map((e) => this.directions[e.line]!)
    return settle(base, entries, directions, pairs, this.options.clearance + TOLERANCE.inside, limit)
  }

  /** How two entries can meet; null where they are at different heights. */
  private contact(a: Entry, b: Entry): Contact | null {
    const meet = Math.min(a.z1, b.z1) - Math.max(a.z0, b.z0) > TOLERANCE.height
    const key = `${a.line} ${a.shape} ${b.line} ${b.shape} ${meet}`
    let found = this.contacts.get(key)
    if (found) return found
    const upper = a.z0 > b.z0 ? a : b
    if (!meet && (upper.z0 <= 0 || !this.boltOf(upper))) return null
    // What stands off the plate has its bolt below it.
    const shapeOf = (e: Entry) => (meet || e !== upper ? this.shapeOf(e) : this.boltOf(e)!)
    found = contactOf(inPlate(shapeOf(a), this.angleOf(a)), inPlate(shapeOf(b), this.angleOf(b)))
    this.contacts.set(key, found)
    return found
  }

  private shapeOf(e: Entry): Shape {
    return e.shape < 0 ? this.sliders[-1 - e.shape]!.shape : this.levels.shapes[e.shape]!.shape
  }

  private boltOf(e: Entry): Shape | null {
    const bolt = e.shape < 0 ? this.sliders[-1 - e.shape]!.station.bolt : 0
    return bolt > 0 ? { kind: 'disc', radius: bolt / 2 } : null
  }

  private angleOf(e: Entry): number {
    return e.line < this.stations.length
      ? this.stations[e.line]!.angle
      : this.sliders[e.line - this.stations.length]!.station.angle
  }
}
