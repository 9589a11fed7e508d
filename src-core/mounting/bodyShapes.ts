/** A body of the part as what stands upright of it: the shapes that everything seen from in front is made of. */
import { edgesBox, rectRing, ringEdges } from '../geometry/edges.ts'
import { isPrism, liesAcross, type Body, type Prism } from '../job/schema.ts'
import { meshHeights, silhouette } from '../mesh/silhouette.ts'
import { shelfPose } from './shelf.ts'
import type { BodyShape } from './types.ts'

const kept = new WeakMap<Body, readonly BodyShape[]>()

/** One shape of a body that stands upright, or of a mesh its silhouette's. */
export function bodyShapes(body: Body): readonly BodyShape[] {
  let shapes = kept.get(body)
  if (!shapes) kept.set(body, (shapes = makeShapes(body)))
  return shapes
}

function makeShapes(body: Body): BodyShape[] {
  const { base } = body
  if (!isPrism(body)) {
    const { z0, z1 } = meshHeights(body.mesh)
    return [{ regions: silhouette(body.mesh), z0: base + z0, z1: base + z1 }]
  }
  if (!liesAcross(body)) return [{ regions: [body], z0: base, z1: base + body.thickness }]
  return body.effect === 'adds' ? [boxAbout(body, body.across)] : []
}

/** The upright box about a body that lies across. */
function boxAbout({ outline, base, thickness }: Prism, across: number): BodyShape {
  const { u, n } = shelfPose({ x: 0, y: 0 }, across)
  const { x0, x1, y0, y1 } = edgesBox(ringEdges(outline))
  const [a, h] = [(x0 + x1) / 2, base + thickness / 2]
  const middle = { x: a * u.x + h * n.x, y: a * u.y + h * n.y }
  const ring = rectRing(middle, thickness, x1 - x0, across)
  return { regions: [{ outline: ring, holes: [] }], z0: y0, z1: y1 }
}
