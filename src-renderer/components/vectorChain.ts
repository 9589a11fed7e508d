/** The unbalance vectors laid end to end: what does not come back to where it began is what is left. */
import type { UnbalanceTerm } from '../../src-core/analysis/result.ts'
import type { Point } from '../../src-core/geometry/types.ts'

export interface ChainLink {
  readonly item: string
  readonly from: Point
  readonly to: Point
}

export interface Chain {
  readonly links: readonly ChainLink[]
  readonly end: Point
  /** Box of all points and of the circle of radius `bound` about the end. g·mm */
  readonly box: { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number }
}

/** Terms that are nothing are left out; the order is the terms' own. */
export function vectorChain(terms: readonly UnbalanceTerm[], bound: number): Chain {
  const links: ChainLink[] = []
  let at: Point = { x: 0, y: 0 }
  for (const { item, unbalance_g_mm: u } of terms) {
    if (Math.hypot(u.x, u.y) < 1e-6) continue
    const to = { x: at.x + u.x, y: at.y + u.y }
    links.push({ item, from: at, to })
    at = to
  }
  const xs = [0, at.x - bound, at.x + bound, ...links.map((l) => l.to.x)]
  const ys = [0, at.y - bound, at.y + bound, ...links.map((l) => l.to.y)]
  return {
    links,
    end: at,
    box: { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) },
  }
}
