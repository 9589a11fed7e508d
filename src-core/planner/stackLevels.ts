/** Every multiset of the stock that can stand on one bolt, by number of pieces, made as far as they are asked for. */
import { ROUNDING } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import type { StockItem } from '../job/schema.ts'
import { coversShape, footprintCentre, footprintShape, hullOfShapes, type Shape } from './shape.ts'

export interface Stack {
  /** Position among all stacks. */
  readonly index: number
  /** How many of each stock item, in the stock's order. */
  readonly counts: Uint16Array
  readonly pieces: number
  /** g, with the bolt set. */
  readonly mass: number
  /** mm */
  readonly height: number
  /** Which of `shapes` is its plan: the footprint that covers the others, else the hull of them all. */
  readonly shape: number
  /** Centre of mass in plan from the bolt, in the stack's own frame (length along +x), mm. */
  readonly centre: Point
  /** Last kind of stock in it: the next level adds this kind or a later one, so each multiset comes up once. */
  readonly last: number
}

export interface StackShape {
  readonly shape: Shape
  /** Stock item whose footprint it is; −1 for a hull. */
  readonly stock: number
}

/** Most stacks listed; beyond it the search is not complete, and says so. */
const MOST_STACKS = 60_000

export class StackLevels {
  readonly shapes: StackShape[]
  readonly stacks: Stack[] = []
  /** False once the list was cut off. */
  complete = true
  private readonly stock: readonly StockItem[]
  private readonly heightLimit: number
  private readonly boltSet: number
  private readonly centres: Point[]
  private readonly levels: Stack[][]
  private readonly joined = new Map<string, number>()

  /** @param boltSet kg of stud, nut and washer, once a stack; at the bolt, half-way up. */
  constructor(stock: readonly StockItem[], heightLimit: number, boltSet: number) {
    this.stock = stock
    this.heightLimit = heightLimit
    this.boltSet = boltSet
    this.shapes = stock.map((s, i) => ({ shape: footprintShape(s.footprint), stock: i }))
    this.centres = stock.map((s) => footprintCentre(s.footprint))
    const none: Stack = {
      index: -1,
      counts: new Uint16Array(stock.length),
      pieces: 0,
      mass: boltSet * 1000,
      height: 0,
      shape: -1,
      centre: { x: 0, y: 0 },
      last: 0,
    }
    this.levels = [[none]]
  }

  /** All stacks of so many pieces; empty where none can be. */
  level(pieces: number): readonly Stack[] {
    for (let n = this.levels.length; n <= pieces; n++) this.levels.push(this.grow(this.levels[n - 1]!))
    return this.levels[pieces]!
  }

  private grow(from: readonly Stack[]): Stack[] {
    const next: Stack[] = []
    for (const stack of from) {
      for (let i = stack.last; i < this.stock.length; i++) {
        const item = this.stock[i]!
        if (stack.counts[i]! >= item.count || stack.height + item.height > this.heightLimit + ROUNDING.length)
          continue
        if (this.stacks.length >= MOST_STACKS) {
          this.complete = false
          return next
        }
        next.push(this.add(stack, i))
      }
    }
    return next
  }

  private add(stack: Stack, i: number): Stack {
    const item = this.stock[i]!
    const counts = stack.counts.slice()
    counts[i]!++
    const mass = stack.mass + item.mass * 1000
    const share = (item.mass * 1000) / mass
    const centre = this.centres[i]!
    const grown: Stack = {
      index: this.stacks.length,
      counts,
      pieces: stack.pieces + 1,
      mass,
      height: stack.height + item.height,
      shape: stack.shape < 0 ? i : this.join(stack.shape, i),
      centre: {
        x: stack.centre.x + (centre.x - stack.centre.x) * share,
        y: stack.centre.y + (centre.y - stack.centre.y) * share,
      },
      last: i,
    }
    this.stacks.push(grown)
    return grown
  }

  private join(a: number, b: number): number {
    if (a === b) return a
    const key = `${a} ${b}`
    let found = this.joined.get(key)
    if (found !== undefined) return found
    const sa = this.shapes[a]!.shape
    const sb = this.shapes[b]!.shape
    if (coversShape(sa, sb)) found = a
    else if (coversShape(sb, sa)) found = b
    else found = this.shapes.push({ shape: hullOfShapes(sa, sb), stock: -1 }) - 1
    this.joined.set(key, found)
    return found
  }

  /** g: no stack is heavier. The stock packed by mass for height, the last piece in part. */
  heaviest(): number {
    const list = this.stock.filter((s) => s.count > 0).sort((a, b) => b.mass / b.height - a.mass / a.height)
    let height = this.heightLimit
    let mass = this.boltSet * 1000
    for (const s of list) {
      const pieces = Math.min(s.count, height / s.height)
      mass += pieces * s.mass * 1000
      height -= pieces * s.height
      if (height <= 0) break
    }
    return mass
  }

  /** mm: no stack's centre of mass lies further from its bolt. */
  farthestCentre(): number {
    return Math.max(0, ...this.centres.map((c) => Math.hypot(c.x, c.y)))
  }

  /** Whether the stock holds all of these stacks at once. */
  stockHolds(stacks: readonly Stack[]): boolean {
    for (let i = 0; i < this.stock.length; i++) {
      let used = 0
      for (const s of stacks) used += s.counts[i]!
      if (used > this.stock[i]!.count) return false
    }
    return true
  }
}
