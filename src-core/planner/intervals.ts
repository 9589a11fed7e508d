/** Closed intervals on a line, and sets of them. */
export interface Interval {
  readonly lo: number
  readonly hi: number
}

/** Sorted, joined where they touch. */
export function mergeIntervals(list: readonly Interval[]): Interval[] {
  const sorted = [...list].sort((a, b) => a.lo - b.lo)
  const merged: Interval[] = []
  for (const next of sorted) {
    const last = merged[merged.length - 1]
    if (last && next.lo <= last.hi)
      merged[merged.length - 1] = { lo: last.lo, hi: Math.max(last.hi, next.hi) }
    else merged.push(next)
  }
  return merged
}

/** What is left of an interval outside the blocked ones, whose own ends stay free; a single point may be left. */
export function subtractIntervals(from: Interval, blocked: readonly Interval[]): Interval[] {
  const left: Interval[] = []
  let lo = from.lo
  for (const b of mergeIntervals(blocked)) {
    if (b.hi <= lo && !(b.lo < lo && lo < b.hi)) continue
    if (b.lo >= from.hi) break
    if (b.lo >= lo) left.push({ lo, hi: b.lo })
    lo = Math.max(lo, b.hi)
  }
  if (lo <= from.hi) left.push({ lo, hi: from.hi })
  return left
}

/** What lies in both lists, joined and in rising order; ends that meet leave a point. */
export function intersectIntervals(a: readonly Interval[], b: readonly Interval[]): Interval[] {
  const both: Interval[] = []
  for (const p of a) {
    for (const q of b) {
      const lo = Math.max(p.lo, q.lo)
      const hi = Math.min(p.hi, q.hi)
      if (lo <= hi) both.push({ lo, hi })
    }
  }
  return mergeIntervals(both)
}
