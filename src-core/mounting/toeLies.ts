/** How a clamp's toe lies on the part: wholly, or over what; and how far it is from lying wholly on it. mm. */
import { polar } from '../geometry/angles.ts'
import { polygonArea, polygonIntersection } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { discPolygons, flatBodies, restOn, ringPolygons } from './material.ts'
import type { Mounted, MountedToe } from './types.ts'

/** Share of its pad from which a toe counts as wholly on: chords of arcs and the clipper's steps take the rest. */
export const WHOLLY = 0.99
/** mm: how far, and in what steps, a toe is slid along its strap to find where it would lie wholly on. */
const FARTHEST = 150
const COARSE = 2
const FINE = 0.1

export const liesWholly = ({ rest }: Pick<MountedToe, 'rest'>): boolean =>
  rest !== null && rest.share >= WHOLLY

/**
 * What a toe lies over; null where it lies wholly on material that stays. A bore that this setup or a later one cuts
 * is no material.
 */
export function toeLies(mounted: Mounted, toe: Pick<MountedToe, 'pad' | 'rest'>): string | null {
  const pad = ringPolygons(toe.pad)
  const meets = (polygons: ReturnType<typeof ringPolygons>) =>
    polygonArea(polygonIntersection(pad, polygons)) > TOLERANCE.clashArea
  const bore = mounted.bores.find((b) => meets(discPolygons(b.centre, b.bore.diameter)))
  if (bore) return `bore ${bore.bore.id}`
  if (liesWholly(toe)) return null
  if (flatBodies(mounted).some((b) => !b.adds && meets(b.polygons))) return 'a pocket'
  return toe.rest ? 'an edge of the part' : 'nothing'
}

/** mm by which a toe is short of lying wholly on the part along its strap; null where sliding it in would not help. */
export function toeShortfall(mounted: Mounted, { pad, rest }: MountedToe, facing: number): number | null {
  if (liesWholly({ rest })) return 0
  const lies = (by: number): boolean => {
    const step = polar(by, facing)
    return liesWholly({
      rest: restOn(mounted, ringPolygons(pad.map((v) => ({ ...v, x: v.x + step.x, y: v.y + step.y })))),
    })
  }
  for (let far = COARSE; far <= FARTHEST; far += COARSE) {
    if (!lies(far)) continue
    let by = far
    while (by - FINE > far - COARSE && lies(by - FINE)) by -= FINE
    return Number(by.toFixed(1))
  }
  return null
}
