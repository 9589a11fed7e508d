/** The unbalance vectors laid end to end: what does not come back to where it began is what is left. */
import type { UnbalanceTerm } from '../../src-core/unbalance/assembly.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import { freePlace, meet, type NamePlace } from '../scene/tagPlaces.ts'

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

/** px: a name takes about so much room; shorter arrows go unnamed. */
const NAME = { w: 22, h: 13, aside: 11, shortest: 26 }
/** Places tried along an arrow, the middle first. */
const ALONG = [0.5, 0.66, 0.34, 0.8, 0.2]

/**
 * Where each arrow's name stands, px: beside it, at the first place whose name would not touch one placed before. A
 * name that finds none stands as near to the first as it is free. `at` takes g·mm to px, y down.
 */
export function namePlaces(links: readonly ChainLink[], at: (p: Point) => Point): ReadonlyMap<string, Point> {
  const places = new Map<string, NamePlace>()
  for (const link of links) {
    const from = at(link.from)
    const to = at(link.to)
    const long = Math.hypot(to.x - from.x, to.y - from.y)
    if (long <= NAME.shortest) continue
    const across = { x: ((to.y - from.y) / long) * NAME.aside, y: (-(to.x - from.x) / long) * NAME.aside }
    const tried = [1, -1].flatMap((side) =>
      ALONG.map((t) => ({
        w: NAME.w,
        h: NAME.h,
        x: from.x + (to.x - from.x) * t + side * across.x,
        y: from.y + (to.y - from.y) * t + side * across.y,
      })),
    )
    const taken = [...places.values()]
    const clear = tried.find((p) => !taken.some((q) => meet(p, q)))
    places.set(link.item, clear ?? freePlace(tried[0]!, taken))
  }
  return places
}
