/** Things that may stand on a line from the axis, and trees of them that bound what a whole group can do. */
import type { Stack } from './stackLevels.ts'

/** One stack (or one piece that may slide) on one stretch of free radii. */
export interface Entry {
  /** Which line of the model it stands on. */
  readonly line: number
  /** Null for a piece that slides. */
  readonly stack: Stack | null
  /** g */
  readonly mass: number
  /** mm: free radii of the bolt. */
  readonly r0: number
  readonly r1: number
  /** Along the line it adds mass·(r + shift) g·mm, across it `across` g·mm. */
  readonly shift: number
  readonly across: number
  /** Heights it takes up, mm. */
  readonly z0: number
  readonly z1: number
  /** Which shape of the model it has. */
  readonly shape: number
}

export const amountAt = (e: Entry, radius: number): number => e.mass * (radius + e.shift)
export const radiusAt = (e: Entry, amount: number): number =>
  Math.max(e.r0, Math.min(e.r1, amount / e.mass - e.shift))

/** A binary tree over entries of one line, sorted by mass; each node bounds all entries below it. */
export class EntryTree {
  readonly line: number
  readonly entries: readonly Entry[]
  /** Amounts along and across the line, and least added mass, of each node. Node 0 is the root. */
  readonly a0: number[] = []
  readonly a1: number[] = []
  readonly p0: number[] = []
  readonly p1: number[] = []
  readonly mass: number[] = []
  /** Child nodes; −1 where the node is a single entry. */
  readonly left: number[] = []
  readonly right: number[] = []
  /** Index of the first entry below. */
  readonly first: number[] = []

  constructor(line: number, entries: readonly Entry[]) {
    this.line = line
    this.entries = [...entries].sort((a, b) => a.mass - b.mass || a.r0 - b.r0)
    if (entries.length > 0) this.build(0, entries.length)
  }

  get isEmpty(): boolean {
    return this.entries.length === 0
  }

  private build(from: number, to: number): number {
    const node = this.first.length
    this.first.push(from)
    this.left.push(-1)
    this.right.push(-1)
    if (to - from === 1) {
      const e = this.entries[from]!
      this.a0.push(amountAt(e, e.r0))
      this.a1.push(amountAt(e, e.r1))
      this.p0.push(e.across)
      this.p1.push(e.across)
      this.mass.push(e.stack ? e.mass : 0)
      return node
    }
    for (const list of [this.a0, this.a1, this.p0, this.p1, this.mass]) list.push(0)
    const middle = (from + to) >> 1
    const l = this.build(from, middle)
    const r = this.build(middle, to)
    this.left[node] = l
    this.right[node] = r
    this.a0[node] = Math.min(this.a0[l]!, this.a0[r]!)
    this.a1[node] = Math.max(this.a1[l]!, this.a1[r]!)
    this.p0[node] = Math.min(this.p0[l]!, this.p0[r]!)
    this.p1[node] = Math.max(this.p1[l]!, this.p1[r]!)
    this.mass[node] = Math.min(this.mass[l]!, this.mass[r]!)
    return node
  }
}
