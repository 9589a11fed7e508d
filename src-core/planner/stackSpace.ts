/**
 * Every multiset of the stock that can stand on one bolt, as a tree that grows only where the search looks: each level
 * decides how many of one kind there are, heaviest kinds first, and each node bounds all that it may still become.
 */
import { ROUNDING } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import type { StockItem } from '../job/schema.ts'
import {
  coversShape,
  farthestOut,
  footprintCentre,
  footprintShape,
  hullOfShapes,
  type Shape,
} from './shape.ts'

export interface StackShape {
  readonly shape: Shape
  /** Stock item whose footprint it is; −1 for a hull. */
  readonly stock: number
}

/** How many of some kinds are decided. Masses of the pieces alone, g; mm. */
export interface StackNode {
  /** How many of each stock item, in the stock's order; 0 where it is not decided. */
  readonly counts: Uint16Array
  /** Kinds decided, in the order of the space, and pieces still to be chosen; 0: it is a whole stack. */
  readonly decided: number
  readonly left: number
  /** Of what is decided. */
  readonly mass: number
  readonly height: number
  /** Which of `shapes` is its plan: the footprint that covers the others, else the hull of them all; −1: none yet. */
  readonly shape: number
  /** Diameter that all its pieces let through, as far as their holes are known. */
  readonly hole: number
  /** ∫ of place from the bolt over mass in the stack's own frame (length along +x), g·mm. */
  readonly moment: Point
  /** No whole stack below weighs less or more, is lower or higher, or has its moment beyond these. */
  readonly mass0: number
  readonly mass1: number
  readonly height0: number
  readonly height1: number
  readonly moment0: Point
  readonly moment1: Point
}

interface Kind {
  readonly index: number
  readonly count: number
  /** g */
  readonly mass: number
  readonly height: number
  readonly centre: Point
  readonly hole: number
}

export class StackSpace {
  readonly shapes: StackShape[]
  private readonly kinds: readonly Kind[]
  /** Kinds from each position on: the lightest, the lowest, the densest for its height first. */
  private readonly byMass: readonly (readonly Kind[])[]
  private readonly byHeight: readonly (readonly Kind[])[]
  private readonly byDensity: readonly (readonly Kind[])[]
  /** g·mm that one piece of the kinds from each position on may have, and 0. */
  private readonly offsets: readonly (readonly [Point, Point])[]
  private readonly kindOf: ReadonlyMap<number, Kind>
  private readonly size: number
  /** mm */
  readonly heightLimit: number
  private readonly joined = new Map<string, number>()
  private readonly roots: (StackNode | null)[] = []
  private readonly grown = new WeakMap<StackNode, readonly StackNode[]>()
  private wholeCount = 0

  constructor(stock: readonly StockItem[], heightLimit: number) {
    this.size = stock.length
    this.heightLimit = heightLimit
    this.shapes = stock.map((s, i) => ({ shape: footprintShape(s.footprint), stock: i }))
    this.kinds = stock
      .map((s, index) => ({
        index,
        count: s.count,
        mass: s.mass * 1000,
        height: s.height,
        centre: footprintCentre(s.footprint),
        hole: s.hole ?? Infinity,
      }))
      .filter((k) => k.count > 0)
      .sort((a, b) => b.mass - a.mass || a.index - b.index)
    this.kindOf = new Map(this.kinds.map((k) => [k.index, k]))
    const from = (order: (a: Kind, b: Kind) => number) =>
      Array.from({ length: this.kinds.length + 1 }, (_, i) => this.kinds.slice(i).sort(order))
    this.byMass = from((a, b) => a.mass - b.mass)
    this.byHeight = from((a, b) => a.height - b.height)
    this.byDensity = from((a, b) => b.mass / b.height - a.mass / a.height)
    this.offsets = this.byMass.map(momentRange)
  }

  /** Whole stacks looked at until now. */
  get looked(): number {
    return this.wholeCount
  }

  /** What all stacks of so many pieces are below; null where there are none. */
  root(pieces: number): StackNode | null {
    let root = this.roots[pieces]
    if (root === undefined) {
      const start = { mass: 0, height: 0, shape: -1, hole: Infinity, moment: { x: 0, y: 0 } }
      const counts = new Uint16Array(this.size)
      this.roots[pieces] = root = pieces > 0 ? this.node(counts, 0, pieces, start) : null
    }
    return root
  }

  /** What a node divides into: each number of the next kind. */
  below(node: StackNode): readonly StackNode[] {
    let found = this.grown.get(node)
    if (!found) this.grown.set(node, (found = this.grow(node)))
    return found
  }

  private grow(node: StackNode): StackNode[] {
    const kind = this.kinds[node.decided]!
    const found: StackNode[] = []
    const most = Math.min(kind.count, node.left)
    for (let n = 0; n <= most; n++) {
      const counts = n === 0 ? node.counts : node.counts.slice()
      counts[kind.index] = n
      const mass = n * kind.mass
      const sum = {
        mass: node.mass + mass,
        height: node.height + n * kind.height,
        shape: n === 0 ? node.shape : this.join(node.shape, kind.index),
        hole: n === 0 ? node.hole : Math.min(node.hole, kind.hole),
        moment: { x: node.moment.x + mass * kind.centre.x, y: node.moment.y + mass * kind.centre.y },
      }
      const next = this.node(counts, node.decided + 1, node.left - n, sum)
      if (next) found.push(next)
    }
    return found
  }

  /** Null where what is left cannot be made up of the kinds not decided, or stands too high. */
  private node(
    counts: Uint16Array,
    decided: number,
    left: number,
    sum: Pick<StackNode, 'mass' | 'height' | 'shape' | 'hole' | 'moment'>,
  ): StackNode | null {
    const limit = this.heightLimit + ROUNDING.length
    if (left === 0) {
      if (sum.height > limit) return null
      this.wholeCount++
      const { mass, height, moment } = sum
      const same = { mass0: mass, mass1: mass, height0: height, height1: height }
      return { counts, decided, left, ...sum, ...same, moment0: moment, moment1: moment }
    }
    const byMass = this.byMass[decided]!
    const byHeight = this.byHeight[decided]!
    const height0 = sum.height + firstOf(byHeight, left, 1, heightOf)
    if (!(height0 <= limit)) return null
    const room = this.heightLimit - sum.height
    const most = Math.min(firstOf(byMass, left, -1, massOf), packed(this.byDensity[decided]!, room))
    const [low, high] = this.offsets[decided]!
    const { x, y } = sum.moment
    return {
      counts,
      decided,
      left,
      ...sum,
      mass0: sum.mass + firstOf(byMass, left, 1, massOf),
      mass1: sum.mass + most,
      height0,
      height1: Math.min(this.heightLimit, sum.height + firstOf(byHeight, left, -1, heightOf)),
      moment0: { x: x + left * low.x, y: y + left * low.y },
      moment1: { x: x + left * high.x, y: y + left * high.y },
    }
  }

  private join(a: number, b: number): number {
    if (a < 0 || a === b) return b
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

  /** Pieces as they lie, undermost first: the widest, of equals in the stock's order. */
  order({ counts }: StackNode): { readonly index: number; readonly count: number }[] {
    return [...counts]
      .flatMap((count, index) => (count > 0 ? [{ index, count }] : []))
      .sort((a, b) => farthestOut(this.shapes[b.index]!.shape) - farthestOut(this.shapes[a.index]!.shape))
  }

  /** What a stack stands on, and mm from the plate to the centre of mass of its pieces. */
  standing(node: StackNode): { readonly foot: Shape; readonly centre: number } {
    const order = this.order(node)
    let moment = 0
    let base = 0
    for (const { index, count } of order) {
      const { mass, height } = this.kindOf.get(index)!
      moment += mass * count * (base + (height * count) / 2)
      base += height * count
    }
    return { foot: this.shapes[order[0]!.index]!.shape, centre: moment / node.mass }
  }

  /** g: no stack's pieces weigh more. */
  heaviest(): number {
    return packed(this.byDensity[0]!, this.heightLimit)
  }

  /** mm: no stack's centre of mass lies further from its bolt. */
  farthestCentre(): number {
    return Math.max(0, ...this.kinds.map((k) => Math.hypot(k.centre.x, k.centre.y)))
  }

  /** Whether the stock holds all of these at once. */
  stockHolds(counts: readonly Uint16Array[]): boolean {
    for (const { index, count } of this.kinds) {
      let used = 0
      for (const c of counts) used += c[index]!
      if (used > count) return false
    }
    return true
  }
}

const massOf = (k: Kind) => k.mass
const heightOf = (k: Kind) => k.height

/** Sum of the first `left` pieces from the front (1) or the back (−1) of sorted kinds; Infinity from the front, where there are not so many. */
function firstOf(sorted: readonly Kind[], left: number, step: 1 | -1, of: (k: Kind) => number): number {
  let rest = left
  let sum = 0
  for (let i = step > 0 ? 0 : sorted.length - 1; i >= 0 && i < sorted.length && rest > 0; i += step) {
    const n = Math.min(rest, sorted[i]!.count)
    sum += n * of(sorted[i]!)
    rest -= n
  }
  return rest > 0 && step > 0 ? Infinity : sum
}

/** g that a height in mm can hold at most: packed with the densest first, the last piece in part. */
function packed(byDensity: readonly Kind[], room: number): number {
  let height = room
  let mass = 0
  for (const k of byDensity) {
    const pieces = Math.min(k.count, height / k.height)
    if (pieces <= 0) break
    mass += pieces * k.mass
    height -= pieces * k.height
  }
  return mass
}

function momentRange(kinds: readonly Kind[]): readonly [Point, Point] {
  const of = (pick: (...list: number[]) => number, axis: 'x' | 'y') =>
    pick(0, ...kinds.map((k) => k.mass * k.centre[axis]))
  return [
    { x: of(Math.min, 'x'), y: of(Math.min, 'y') },
    { x: of(Math.max, 'x'), y: of(Math.max, 'y') },
  ]
}
