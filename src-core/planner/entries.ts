/** Things that may stand on a line from the axis, and what bounds whole families of them. */
import type { Shape } from './shape.ts'
import type { StackNode } from './stackSpace.ts'
import type { StackStud } from './studs.ts'

/** An upright body of an entry, in plan as it lies along its line with the bolt at the origin. */
export interface EntrySolid {
  readonly shape: Shape
  readonly z0: number
  readonly z1: number
}

/** One stack (or one piece that may slide) on one stretch of free radii. */
export interface Entry {
  /** Which line of the model it stands on. */
  readonly line: number
  /** Null for a piece that slides. */
  readonly stack: { readonly pieces: StackNode; readonly stud: StackStud } | null
  /** g */
  readonly mass: number
  /** mm: free radii of the bolt. */
  readonly r0: number
  readonly r1: number
  /** Along the line it adds mass·(r + shift) g·mm, across it `across` g·mm. */
  readonly shift: number
  readonly across: number
  readonly solids: readonly EntrySolid[]
  /** Entries of one line with the same plan shapes, whatever their heights, are of one form. */
  readonly form: number
}

/** g·mm of an entry with its bolt at a radius, mm. */
export const amountAt = (e: Entry, radius: number): number => e.mass * (radius + e.shift)
/** The radius, mm, at which an entry gives nearest to an amount, g·mm, within its reach. */
export const radiusAt = (e: Entry, amount: number): number =>
  Math.max(e.r0, Math.min(e.r1, amount / e.mass - e.shift))

/** Some of what may stand on one line, all of one kind below another: it bounds all of them. */
export interface Family {
  readonly line: number
  /** g·mm along and across the line. */
  readonly a0: number
  readonly a1: number
  readonly p0: number
  readonly p1: number
  /** g added to the plate at least; nothing below adds more along the line than `reach` mm times that. */
  readonly mass: number
  readonly reach: number
  /** Of stock used for certain. */
  readonly counts: Uint16Array | null
  /** Where it is a single one. */
  readonly entry: Entry | null
  /** What it divides into; none for a single one. */
  readonly below: () => readonly Family[]
}

const NONE: readonly Family[] = []

/** A family of one. */
export const single = (entry: Entry): Family => {
  const a0 = amountAt(entry, entry.r0)
  const a1 = amountAt(entry, entry.r1)
  const mass = entry.stack ? entry.mass : 0
  return {
    line: entry.line,
    a0,
    a1,
    p0: entry.across,
    p1: entry.across,
    mass,
    reach: mass > 0 ? Math.max(Math.abs(a0), Math.abs(a1)) / mass : Infinity,
    counts: entry.stack?.pieces.counts ?? null,
    entry,
    below: () => NONE,
  }
}

/** A family of several of one line; null for none. */
export function together(entries: readonly Entry[]): Family | null {
  const list = entries.map(single)
  if (list.length <= 1) return list[0] ?? null
  const least = (of: (f: Family) => number) => Math.min(...list.map(of))
  const most = (of: (f: Family) => number) => Math.max(...list.map(of))
  return {
    line: list[0]!.line,
    a0: least((f) => f.a0),
    a1: most((f) => f.a1),
    p0: least((f) => f.p0),
    p1: most((f) => f.p1),
    mass: least((f) => f.mass),
    reach: most((f) => f.reach),
    counts: list[0]!.counts,
    entry: null,
    below: () => list,
  }
}
