/** A body of the part as what stands upright of it: the shapes that everything seen from in front is made of. */
import { keptOf } from '../geometry/kept.ts'
import { isPrism, liesAcross, type Body } from '../job/schema.ts'
import { acrossBlocks } from '../mass/across.ts'
import { meshHeights, silhouette } from '../mesh/silhouette.ts'
import type { BodyShape } from './types.ts'

/**
 * One shape of a body that stands upright, or of a mesh its silhouette's. Of one that lies across a block for each of its
 * steps, so that no material is left out of one that adds and none taken that one that removes leaves.
 */
export const bodyShapes: (body: Body) => readonly BodyShape[] = keptOf(makeShapes)

function makeShapes(body: Body): BodyShape[] {
  const { base } = body
  if (!isPrism(body)) {
    const { z0, z1 } = meshHeights(body.mesh)
    return [{ regions: silhouette(body.mesh), z0: base + z0, z1: base + z1 }]
  }
  if (!liesAcross(body)) return [{ regions: [body], z0: base, z1: base + body.thickness }]
  return acrossBlocks(body, body.effect === 'adds' ? 'outside' : 'inside').map(({ ring, z0, z1 }) => ({
    regions: [{ outline: ring, holes: [] }],
    z0,
    z1,
  }))
}
