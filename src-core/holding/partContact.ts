/** What truly carries the part: its own face where it lies on the plate, or its packing where that meets it. */
import { boxOf } from '../geometry/polygonBox.ts'
import { polygonArea } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { flatBodies } from '../mounting/material.ts'
import { standAt } from '../mounting/fixtures.ts'
import { missesShelf, SEAT_PLAY } from '../mounting/shelfSize.ts'
import type { Mounted } from '../mounting/types.ts'
import { keptFor } from '../mounting/kept.ts'
import { isCarried, packingItems, packingOf, type Carried } from './packing.ts'
import { partStand } from './stand.ts'
import { partFace } from './partFace.ts'

/** The part's own face where it lies on the plate. */
const ownFace = keptFor(
  (mounted): readonly Carried[] => {
    const bodies = flatBodies(mounted)
    const on = bodies.length === 0 ? [] : partFace(mounted, boxOf(bodies.flatMap((b) => b.polygons)))
    const carried = standAt(mounted, on, mounted.seat)?.on ?? []
    return polygonArea(carried) > TOLERANCE.clashArea ? [{ id: 'part', on: carried }] : []
  },
  () => [],
)

/** All that carries the part; pieces of packing that miss its seat, hang in the air or lie elsewhere carry nothing. */
export const partContact = keptFor((mounted: Mounted): readonly Carried[] => {
  const { seat } = mounted
  // Of a part on a shelf that is asked from there; a round in a vee touches along lines.
  if (partStand(mounted) !== mounted || mounted.shelf?.item.kind === 'vee') return []
  if (missesShelf(mounted) !== null) return []
  if (mounted.setup.packing <= 0) return ownFace(mounted)
  const all = packingOf(mounted)
  // What hangs over the plate's bore carries nothing, though the rest of the piece stands.
  return all.flatMap((p) =>
    p.carries && p.bears && Math.abs(p.solid.z1 - seat) <= SEAT_PLAY && isCarried(all, p) ? [p.carries] : [],
  )
}, packingItems)
