/**
 * The best choice of one entry from each tree of a group, over many groups: best-first search. A node takes one
 * tree node from each tree; the zonogon of their bounds cannot leave more than any choice below it does, and their
 * least masses cannot weigh more. So the first whole choice that comes up is the best there is.
 */
import { ROUNDING } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import type { Entry, EntryTree } from './entries.ts'
import { Heap } from './heap.ts'
import type { SettleResult } from './settle.ts'
import { leastLength, type Span } from './zonogon.ts'

/** g·mm: residuals below it count as nothing (1 g at 1 mm), and gains below it are no gain. Evenswing's own. */
export const NOTHING = 1

export interface Choice {
  readonly entries: readonly Entry[]
  readonly radii: readonly number[]
  /** g·mm */
  readonly residual: number
  /** g added to the plate */
  readonly mass: number
}

export interface ChooseInput {
  /** What is to be balanced, g·mm. */
  readonly base: Point
  readonly directions: readonly Point[]
  readonly groups: Iterable<readonly EntryTree[]>
  readonly holds: (entries: readonly Entry[]) => boolean
  readonly settle: (entries: readonly Entry[], limit: number) => SettleResult
  /** Choices that leave this much or more are of no use. */
  readonly limit: number
  /** Nodes that may still be opened; counted down. */
  readonly budget: { left: number }
  readonly shouldStop: () => boolean
}

export interface ChooseResult {
  readonly best: Choice | null
  /** No choice leaves less than this; `limit` where none is better than that. */
  readonly lower: number
  readonly complete: boolean
}

interface Node {
  readonly trees: readonly EntryTree[]
  readonly at: readonly number[]
  readonly bound: number
  readonly mass: number
}

const level = (residual: number) => (residual <= NOTHING ? 0 : residual)

export function choose(input: ChooseInput): ChooseResult {
  const { groups, limit, budget } = input
  const heap = new Heap<Node>((a, b) => level(a.bound) - level(b.bound) || a.mass - b.mass)
  const add = (trees: readonly EntryTree[], at: readonly number[]) => {
    const bound = boundOf(input, trees, at)
    if (bound >= limit) return
    let mass = 0
    for (let i = 0; i < trees.length; i++) mass += trees[i]!.mass[at[i]!]!
    heap.push({ trees, at, bound, mass })
  }
  for (const trees of groups) {
    if (trees.every((t) => !t.isEmpty))
      add(
        trees,
        trees.map(() => 0),
      )
  }
  let best: Choice | null = null
  /** Least bound of choices whose division was given up. */
  let open = Infinity
  for (let n = 0; heap.size > 0; n++) {
    const node = heap.pop()!
    if (best && !beats(node.bound, node.mass, best)) break
    if (budget.left-- <= 0 || (n % 512 === 511 && input.shouldStop()))
      return { best, lower: Math.min(node.bound, open, best?.residual ?? Infinity), complete: false }
    const split = widest(node)
    if (split >= 0) {
      const tree = node.trees[split]!
      const at = node.at[split]!
      for (const child of [tree.left[at]!, tree.right[at]!])
        add(
          node.trees,
          node.at.map((v, i) => (i === split ? child : v)),
        )
      continue
    }
    const entries = node.trees.map((t, i) => t.entries[t.first[node.at[i]!]!]!)
    if (!input.holds(entries)) continue
    const found = input.settle(entries, Math.min(limit, best ? level(best.residual) + 2 * NOTHING : Infinity))
    if (!found.best) {
      open = Math.min(open, found.lower)
      continue
    }
    const { radii, residual } = found.best
    if (!best || beats(residual, node.mass, best)) best = { entries, radii, residual, mass: node.mass }
  }
  const lower = Math.min(open, best?.residual ?? limit)
  return { best, lower, complete: lower >= Math.min(limit, best?.residual ?? Infinity) }
}

/** Leaves less, or as good as nothing both and weighs less. */
function beats(residual: number, mass: number, best: Choice): boolean {
  const a = level(residual)
  const b = level(best.residual)
  return a < b || (a === b && mass < best.mass - ROUNDING.mass)
}

const scratch: Span[] = []

function boundOf(
  { base, directions }: ChooseInput,
  trees: readonly EntryTree[],
  at: readonly number[],
): number {
  let { x, y } = base
  let slack = 0
  scratch.length = trees.length
  for (let i = 0; i < trees.length; i++) {
    const tree = trees[i]!
    const node = at[i]!
    const u = directions[tree.line]!
    scratch[i] = { ux: u.x, uy: u.y, lo: tree.a0[node]!, hi: tree.a1[node]! }
    const p0 = tree.p0[node]!
    const p1 = tree.p1[node]!
    if (p0 === 0 && p1 === 0) continue
    const middle = (p0 + p1) / 2
    x -= middle * u.y
    y += middle * u.x
    slack += (p1 - p0) / 2
  }
  return Math.max(0, leastLength(x, y, scratch) - slack)
}

/** The tree whose node bounds the widest range and can be split; −1 where all are single entries. */
function widest({ trees, at }: Node): number {
  let best = -1
  let width = -1
  for (let i = 0; i < trees.length; i++) {
    const tree = trees[i]!
    const node = at[i]!
    if (tree.left[node]! < 0) continue
    const w = tree.a1[node]! - tree.a0[node]!
    if (w > width) {
      width = w
      best = i
    }
  }
  return best
}
