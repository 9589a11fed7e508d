/** Refusing a file, and the caps that keep a hostile one from costing time or memory. */
import type { ImportFault, ImportResult } from './types.ts'

export const CAPS = {
  /** Bytes of a drawing. */
  bytes: 10_000_000,
  /** Characters of a table of points. */
  table: 4_000_000,
  /** Elements read, those of inserted blocks counted at every insert. */
  elements: 100_000,
  /** Vertices of all outlines together. */
  vertices: 100_000,
  /** Depth of blocks within blocks, groups within groups. */
  depth: 24,
  rings: 5000,
  /** Comparisons of edges and rings that may be made. */
  comparisons: 20_000_000,
  /** Steps of work, some 30 ns each. */
  work: 30_000_000,
  /** Any number of a drawing. */
  number: 1e9,
} as const

/** Thrown by readers, caught at the door; never leaves this folder. */
export class Refusal extends Error {
  readonly place: string

  constructor(place: string, reason: string) {
    super(reason)
    this.place = place
  }
}

/** Runs a reader; what it refuses becomes a result. */
export function guarded(read: () => ImportResult): ImportResult {
  try {
    return read()
  } catch (error) {
    if (error instanceof Refusal)
      return { ok: false, faults: [{ place: error.place, reason: error.message }] }
    throw error
  }
}

export const refused = (fault: ImportFault): ImportResult => ({ ok: false, faults: [fault] })

/** Counts what a file makes, and refuses when a cap is passed. */
export class Budget {
  private elements = 0
  private vertices = 0
  private done = 0

  element(place: string): void {
    if (++this.elements > CAPS.elements) throw new Refusal(place, `more than ${CAPS.elements} elements`)
  }

  /** Charges work that grows with the file: characters or groups looked at again, points computed. */
  work(amount: number, place: string): void {
    this.done += amount
    if (this.done > CAPS.work) throw new Refusal(place, 'takes too long to follow')
  }

  vertex(place: string): void {
    if (++this.vertices > CAPS.vertices) throw new Refusal(place, `more than ${CAPS.vertices} vertices`)
  }
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/

/** A plain decimal number within the cap, or null. */
export function plainNumber(text: string): number | null {
  const trimmed = text.trim()
  if (trimmed.length > 60 || !NUMBER.test(trimmed)) return null
  const value = Number(trimmed)
  return Math.abs(value) <= CAPS.number ? value : null
}

/** Text for a message: no longer than a few words, nothing unprintable. */
export function shown(text: string): string {
  // eslint-disable-next-line no-control-regex
  const clean = text.replace(/[\u0000-\u001f\u007f-\u009f]/g, '?')
  return clean.length > 40 ? `${clean.slice(0, 40)}…` : clean
}
