/**
 * The best radii for things already chosen. Without contact between them it is the zonogon's closed form. Where
 * that answer would let two of them stand in one another, the radii are divided: a square about the bad pair, as
 * large as the depth of their overlap allows, is cut out (a shape that moves by d cannot gain more than d of gap),
 * and the four pieces round it are searched, most promising first, until an answer clears every pair.
 */
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import type { Contact } from './contact.ts'
import { amountAt, radiusAt, type Entry } from './entries.ts'
import { Heap } from './heap.ts'
import { leastAmounts, leastLength, type Span } from './zonogon.ts'

export interface Settled {
  readonly radii: readonly number[]
  /** g·mm */
  readonly residual: number
}

export interface SettleResult {
  /** Null where no radii clear every pair, or none below the limit. */
  readonly best: Settled | null
  /** No radii leave less than this. */
  readonly lower: number
}

const MOST_BOXES = 400

interface Box {
  readonly lo: readonly number[]
  readonly hi: readonly number[]
  readonly bound: number
}

export interface Pairing {
  readonly i: number
  readonly j: number
  readonly contact: Contact
}

/**
 * @param directions unit vector of each thing's line
 * @param gap mm wanted between things
 * @param limit answers that leave this much or more are of no use
 */
export function settle(
  base: Point,
  entries: readonly Entry[],
  directions: readonly Point[],
  pairs: readonly Pairing[],
  gap: number,
  limit: number,
): SettleResult {
  const b = { x: base.x, y: base.y }
  entries.forEach((e, i) => {
    b.x -= e.across * directions[i]!.y
    b.y += e.across * directions[i]!.x
  })
  const spansOf = (lo: readonly number[], hi: readonly number[]): Span[] =>
    entries.map((e, i) => ({
      ux: directions[i]!.x,
      uy: directions[i]!.y,
      lo: amountAt(e, lo[i]!),
      hi: amountAt(e, hi[i]!),
    }))
  const boxes = new Heap<Box>((p, q) => p.bound - q.bound)
  const add = (lo: readonly number[], hi: readonly number[]) => {
    if (lo.some((v, i) => v > hi[i]!)) return
    const bound = leastLength(b.x, b.y, spansOf(lo, hi))
    if (bound < limit) boxes.push({ lo, hi, bound })
  }
  add(
    entries.map((e) => e.r0),
    entries.map((e) => e.r1),
  )
  for (let n = 0; boxes.size > 0; n++) {
    const box = boxes.pop()!
    if (n >= MOST_BOXES) return { best: null, lower: box.bound }
    const amounts = leastAmounts(b, spansOf(box.lo, box.hi))
    const radii = entries.map((e, i) => radiusAt(e, amounts[i]!))
    const bad = deepestPair(radii, directions, pairs, gap)
    if (!bad) return { best: { radii, residual: box.bound }, lower: box.bound }
    // Half the depth each: together they cannot part the two.
    divide(box, bad.i, bad.j, radii, bad.depth / 2, add)
  }
  return { best: null, lower: limit }
}

function deepestPair(
  radii: readonly number[],
  directions: readonly Point[],
  pairs: readonly Pairing[],
  gap: number,
) {
  let bad: { i: number; j: number; depth: number } | null = null
  for (const { i, j, contact } of pairs) {
    const x = radii[j]! * directions[j]!.x - radii[i]! * directions[i]!.x
    const y = radii[j]! * directions[j]!.y - radii[i]! * directions[i]!.y
    const depth = gap - contact.gap(x, y)
    if (depth > TOLERANCE.gap && depth > (bad?.depth ?? 0)) bad = { i, j, depth }
  }
  return bad
}

/** The box less the open square of half-width `half` about (rᵢ, rⱼ): at most four boxes that cover it. */
function divide(
  box: Box,
  i: number,
  j: number,
  radii: readonly number[],
  half: number,
  add: (lo: readonly number[], hi: readonly number[]) => void,
): void {
  const below = (k: number) => radii[k]! - half
  const above = (k: number) => radii[k]! + half
  add(box.lo, withValue(box.hi, i, Math.min(box.hi[i]!, below(i))))
  add(withValue(box.lo, i, Math.max(box.lo[i]!, above(i))), box.hi)
  const lo = withValue(box.lo, i, Math.max(box.lo[i]!, below(i)))
  const hi = withValue(box.hi, i, Math.min(box.hi[i]!, above(i)))
  add(lo, withValue(hi, j, Math.min(hi[j]!, below(j))))
  add(withValue(lo, j, Math.max(lo[j]!, above(j))), hi)
}

const withValue = (list: readonly number[], index: number, value: number) =>
  list.map((v, i) => (i === index ? value : v))
