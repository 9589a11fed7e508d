/**
 * A setup as the search sees it: lines from the axis on which stacks or sliding pieces may stand, their free radii,
 * and which pairs can meet. Nothing here is reported; every plan is judged by the analysis once it is applied.
 */
import { polar } from '../geometry/angles.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import type { Mounted } from '../mounting/types.ts'
import { stackWeight } from './apply.ts'
import { boltedStack } from './bolted.ts'
import { contactOf, inPlate, nearestContact, type Contact } from './contact.ts'
import { together, type Entry, type Family } from './entries.ts'
import { listStations, type FreeRadii, type Station } from './free.ts'
import type { Interval } from './intervals.ts'
import { settle, type Pairing, type SettleResult } from './settle.ts'
import type { Shape } from './shape.ts'
import { slidersOf, type Slider } from './sliders.ts'
import { stackFamily, type StackParts } from './stackFamilies.ts'
import type { StackJoints } from './stackJoint.ts'
import type { StackSpace } from './stackSpace.ts'
import type { Studs } from './studs.ts'

export interface ModelOptions {
  readonly clearance: number
}

/** What may be bolted on: stacks, studs, and whether they hold. */
export interface Bolting {
  readonly space: StackSpace
  readonly studs: Studs
  readonly joints: StackJoints
}

export class Model {
  readonly mounted: Mounted
  readonly stations: readonly Station[]
  readonly sliders: readonly Slider[]
  /** Unit vector of each line: stations first, then sliders. */
  readonly directions: readonly Point[]
  readonly space: StackSpace
  private readonly parts: StackParts
  private readonly moving: readonly string[]
  private readonly free: FreeRadii
  private readonly options: ModelOptions
  private readonly radii = new Map<Shape, Map<string, Interval[]>>()
  private readonly families = new Map<string, Family | null>()
  private readonly forms = new Map<string, number>()
  private readonly contacts = new Map<string, Contact>()
  private readonly heldEntries = new Map<Entry, Entry | null>()

  /** @param moving ids of the pieces that are to be moved; the others stay. */
  constructor(
    mounted: Mounted,
    bolting: Bolting,
    free: FreeRadii,
    options: ModelOptions,
    moving: readonly string[],
  ) {
    this.mounted = mounted
    this.space = bolting.space
    this.parts = {
      ...bolting,
      freeFor: (...asked) => this.freeFor(...asked),
      formOf: (...asked) => this.formOf(...asked),
    }
    this.free = free
    this.options = options
    this.moving = moving
    this.stations = listStations(mounted.job.plate)
    this.sliders = slidersOf(mounted, free, moving)
    this.directions = [...this.stations, ...this.sliders.map((s) => s.station)].map(({ angle }) =>
      polar(1, angle),
    )
  }

  /** Stacks of so many pieces on a station; null where there is none. */
  stacks(station: number, pieces: number): Family | null {
    const key = `${station} ${pieces}`
    let family = this.families.get(key)
    if (family === undefined) {
      const root = this.space.root(pieces)
      family = root && stackFamily(this.parts, this.stations[station]!, station, root)
      this.families.set(key, family)
    }
    return family
  }

  /** Each of them on each stretch of free radii. */
  *entries(station: number, pieces: number): Generator<Entry> {
    const root = this.stacks(station, pieces)
    const open = root ? [root] : []
    for (let family = open.pop(); family; family = open.pop()) {
      if (family.entry) yield family.entry
      else open.push(...family.below())
    }
  }

  slides(slider: number): Family | null {
    const s = this.sliders[slider]!
    const line = this.stations.length + slider
    return together(
      s.ranges.map(({ lo, hi }): Entry => ({
        line,
        stack: null,
        mass: s.mass,
        r0: lo,
        r1: hi,
        shift: -s.from,
        across: 0,
        solids: s.solids,
        form: -1 - slider,
      })),
    )
  }

  /** g: no stack is heavier, its stud with it. */
  heaviest(): number {
    const { space, parts } = this
    const studs = this.stations.map((s) => parts.studs.massRange(s, Infinity, 0, space.heightLimit)?.[1] ?? 0)
    return space.heaviest() + Math.max(0, ...studs)
  }

  private freeFor(station: Station, shape: Shape, z0: number, z1: number): readonly Interval[] {
    const { free } = this
    let kept = this.radii.get(shape)
    if (!kept) this.radii.set(shape, (kept = new Map()))
    // What stands between the same heights is judged once.
    const bottom = free.classBottom(z0)
    const top = free.classTop(z1)
    const key = `${station.kind} ${station.id} ${bottom} ${top}`
    let found = kept.get(key)
    if (!found) {
      found = free.find({
        // The stud's own way through the part is asked for with what stands on the plate.
        station: z0 > 0 ? { ...station, bolt: 0 } : station,
        shape,
        z0: bottom,
        z1: top,
        without: this.moving,
        overPart: false,
        rim: this.mounted.job.plate.diameter / 2,
      })
      kept.set(key, found)
    }
    return found
  }

  /** A number for each pair of stack shape and circle of nut and washer. */
  private formOf(shape: number, across: number): number {
    const key = `${shape} ${across}`
    let form = this.forms.get(key)
    if (form === undefined) this.forms.set(key, (form = this.forms.size))
    return form
  }

  /** Whether the shop has the stock and the studs that these use for certain. */
  holds(families: readonly Family[]): boolean {
    if (!this.space.stockHolds(families.flatMap((f) => f.counts ?? []))) return false
    return this.kitHolds(families)
  }

  private kitHolds(families: readonly Family[]): boolean {
    const { available } = this.parts.studs
    const studs = families.flatMap((f) => f.entry?.stack?.stud ?? [])
    const used = (kit: number) => studs.filter((s) => s.kit === kit).length
    if (!studs.every((s) => s.kit < 0 || used(s.kit) <= available[s.kit]!)) return false
    const isWhole = families.every((f) => f.counts === null || f.entry)
    return !isWhole || studs.every((s) => s.shorter.every((kit) => used(kit) >= available[kit]!))
  }

  settle(base: Point, chosen: readonly Entry[], limit: number): SettleResult {
    const entries: Entry[] = []
    for (const e of chosen) {
      const held = this.held(e)
      if (!held) return { best: null, lower: limit }
      entries.push(held)
    }
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

  /** As far out as its own stud holds it; null where it does not anywhere. */
  private held(entry: Entry): Entry | null {
    const { stack } = entry
    if (!stack) return entry
    let held = this.heldEntries.get(entry)
    if (held === undefined) {
      const { job } = this.mounted
      const station = this.stations[entry.line]!
      const bolted = boltedStack(job, station, this.space, stack)
      const weightAt = (radius_mm: number) => stackWeight(job, { ...bolted, radius_mm }, 'weight')
      const r1 = this.parts.joints.farthest(weightAt, entry.r0, entry.r1)
      held = r1 === null ? null : r1 === entry.r1 ? entry : { ...entry, r1 }
      this.heldEntries.set(entry, held)
    }
    return held
  }

  /** How two entries can meet; null where they are at different heights. */
  private contact(a: Entry, b: Entry): Contact | null {
    const meeting = a.solids.flatMap((p, i) =>
      b.solids.flatMap((q, j) =>
        Math.min(p.z1, q.z1) - Math.max(p.z0, q.z0) > TOLERANCE.height ? [i * b.solids.length + j] : [],
      ),
    )
    if (meeting.length === 0) return null
    const key = `${a.line} ${a.form} ${b.line} ${b.form} ${meeting.join(' ')}`
    let found = this.contacts.get(key)
    if (!found) {
      const angleA = this.angleOf(a)
      const angleB = this.angleOf(b)
      found = nearestContact(
        meeting.map((k) => {
          const p = a.solids[Math.floor(k / b.solids.length)]!
          const q = b.solids[k % b.solids.length]!
          return contactOf(inPlate(p.shape, angleA), inPlate(q.shape, angleB))
        }),
      )
      this.contacts.set(key, found)
    }
    return found
  }

  private angleOf(e: Entry): number {
    return e.line < this.stations.length
      ? this.stations[e.line]!.angle
      : this.sliders[e.line - this.stations.length]!.station.angle
  }
}
