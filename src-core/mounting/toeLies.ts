/** How a clamp's toe lies on the part: wholly, or over what. mm. */
import { boxesMeet, boxOf } from '../geometry/polygonBox.ts'
import { polygonArea, polygonIntersection } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { discPolygons, flatBodies, ringPolygons } from './material.ts'
import type { Mounted, MountedToe } from './types.ts'

/** Share of its pad from which a toe counts as wholly on: chords of arcs and the clipper's steps take the rest. */
export const WHOLLY = 0.99
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
  const gone = mounted.turned.map((b) => b.body.id)
  const box = boxOf(pad)
  const under = flatBodies(mounted).filter((b) => !b.adds && boxesMeet(b.box, box) && meets(b.polygons))
  if (under.length > 0) return under.every((b) => gone.includes(b.id)) ? 'what was cut away' : 'a pocket'
  return toe.rest ? 'an edge of the part' : 'nothing'
}
