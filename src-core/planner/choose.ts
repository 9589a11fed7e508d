/**
 * The best choice of one entry from each family of a group, over many groups: best-first search. A node takes one
 * family for each line; the zonogon of their bounds cannot leave more than any choice below it does, and their least
 * masses cannot weigh more. So the first whole choice that comes up is as good as there is.
 */
import type { Point } from '../geometry/types.ts'
import type { Entry, Family } from './entries.ts'
import { Heap } from './heap.ts'
import type { SettleResult } from './settle.ts'
import { leastLength, type Span } from './zonogon.ts'

/** g·mm: residuals below it count as nothing (1 g at 1 mm), and gains below it are no gain. Evenswing's own. */
export const NOTHING = 1
/** Share of a plan's added mass below which a lighter one is no gain. Evenswing's own. */
const LIGHTER = 0.01

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
  readonly groups: Iterable<readonly Family[]>
  /** Whether the shop has all that these use for certain. */
  readonly holds: (families: readonly Family[]) => boolean
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
  readonly families: readonly Family[]
  readonly bound: number
  readonly mass: number
  readonly turn: number
}

const level = (residual: number) => (residual <= NOTHING ? 0 : residual)

/** The best choice there is, by branch and bound; the best found where the budget runs out. */
export function choose(input: ChooseInput): ChooseResult {
  const { groups, limit, budget } = input
  // Of equals the one put in last: it is the nearest to a whole choice.
  const heap = new Heap<Node>((a, b) => level(a.bound) - level(b.bound) || a.mass - b.mass || b.turn - a.turn)
  let turn = 0
  const add = (families: readonly Family[]) => {
    const bound = boundOf(input, families)
    if (bound >= limit || !input.holds(families)) return
    heap.push({ families, bound, mass: leastMass(input, families), turn: turn++ })
  }
  for (const families of groups) add(families)
  let best: Choice | null = null
  /** Least bound of choices whose division was given up. */
  let open = Infinity
  for (let n = 0; heap.size > 0; n++) {
    const node = heap.pop()!
    if (best && !beats(node.bound, node.mass, best)) break
    if (budget.left-- <= 0 || (n % 512 === 511 && input.shouldStop()))
      return { best, lower: Math.min(node.bound, open, best?.residual ?? Infinity), complete: false }
    const split = widest(node.families)
    if (split >= 0) {
      for (const child of node.families[split]!.below())
        add(node.families.map((f, i) => (i === split ? child : f)))
      continue
    }
    const entries = node.families.map((f) => f.entry!)
    const found = input.settle(entries, Math.min(limit, best ? level(best.residual) + 2 * NOTHING : Infinity))
    if (!found.best) {
      open = Math.min(open, found.lower)
      continue
    }
    const { radii, residual } = found.best
    const mass = node.families.reduce((sum, f) => sum + f.mass, 0)
    if (!best || beats(residual, mass, best, 0)) best = { entries, radii, residual, mass }
  }
  const lower = Math.min(open, best?.residual ?? limit)
  return { best, lower, complete: lower >= Math.min(limit, best?.residual ?? Infinity) }
}

/** Leaves less, or as good as nothing both and weighs less by a share. */
function beats(residual: number, mass: number, best: Choice, share = LIGHTER): boolean {
  const a = level(residual)
  const b = level(best.residual)
  return a < b || (a === 0 && b === 0 && mass < best.mass * (1 - share))
}

const scratch: Span[] = []

function boundOf({ base, directions }: ChooseInput, families: readonly Family[]): number {
  let { x, y } = base
  let slack = 0
  scratch.length = families.length
  for (let i = 0; i < families.length; i++) {
    const { line, a0, a1, p0, p1 } = families[i]!
    const u = directions[line]!
    scratch[i] = { ux: u.x, uy: u.y, lo: a0, hi: a1 }
    if (p0 === 0 && p1 === 0) continue
    const middle = (p0 + p1) / 2
    x -= middle * u.y
    y += middle * u.x
    slack += (p1 - p0) / 2
  }
  return Math.max(0, leastLength(x, y, scratch) - slack)
}

/**
 * g: no choice below that leaves nothing adds less. One that leaves nothing needs amounts that sum to the whole, and
 * of two lines as much of each as the parallelogram says.
 */
function leastMass({ base, directions }: ChooseInput, families: readonly Family[]): number {
  let mass = 0
  let reach = 0
  for (const f of families) {
    mass += f.mass
    reach = Math.max(reach, f.reach)
  }
  if (!(reach < Infinity)) return mass
  const sideways = families.reduce((sum, f) => sum + Math.max(Math.abs(f.p0), Math.abs(f.p1)), NOTHING)
  const needed = Math.max(mass, (Math.hypot(base.x, base.y) - sideways) / reach)
  if (families.length !== 2) return needed
  const [f, g] = families as [Family, Family]
  const u = directions[f.line]!
  const v = directions[g.line]!
  const sine = u.x * v.y - u.y * v.x
  if (Math.abs(sine) < 1e-6) return needed
  const slack = sideways / Math.abs(sine)
  const a = (-base.x * v.y + base.y * v.x) / sine - slack
  const b = (-u.x * base.y + u.y * base.x) / sine - slack
  return Math.max(needed, Math.max(f.mass, a / f.reach) + Math.max(g.mass, b / g.reach))
}

/** The family that bounds the widest range and can be split; −1 where all are single entries. */
function widest(families: readonly Family[]): number {
  let best = -1
  let width = -1
  families.forEach(({ entry, a0, a1 }, i) => {
    if (entry || a1 - a0 <= width) return
    width = a1 - a0
    best = i
  })
  return best
}
