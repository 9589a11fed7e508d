/** The same rings given to general-purpose libraries, as independent second opinions. */
import Flatten from '@flatten-js/core'
import Module, { type Manifold } from 'manifold-3d'
import { ringEdges } from '../../src-core/geometry/edges.ts'
import { flattenRing } from '../../src-core/geometry/flatten.ts'
import type { Region, Ring } from '../../src-core/geometry/types.ts'

const wasm = await Module()
wasm.setup()

/** A ring as a @flatten-js/core polygon of segments and arcs. */
export function flattenJsPolygon(ring: Ring): Flatten.Polygon {
  const shapes = ringEdges(ring).map(({ a, b, arc }) => {
    if (!arc) return new Flatten.Segment(new Flatten.Point(a.x, a.y), new Flatten.Point(b.x, b.y))
    const { centre, radius, start, sweep } = arc
    return new Flatten.Arc(new Flatten.Point(centre.x, centre.y), radius, start, start + sweep, sweep > 0)
  })
  const polygon = new Flatten.Polygon()
  polygon.addFace(shapes)
  return polygon
}

const asPairs = (ring: Ring, chordError: number) =>
  flattenRing(ring, chordError).map(({ x, y }): [number, number] => [x, y])

/** Area by manifold-3d of rings flattened to a chord error in mm, even-odd filled. */
export function manifoldArea(rings: readonly Ring[], chordError: number): number {
  const section = new wasm.CrossSection(
    rings.map((r) => asPairs(r, chordError)),
    'EvenOdd',
  )
  const area = section.area()
  section.delete()
  return area
}

/** A prism over a region between two heights, arcs flattened. */
export function manifoldPrism(region: Region, z0: number, z1: number, chordError = 1e-3): Manifold {
  const section = new wasm.CrossSection(
    [region.outline, ...region.holes].map((r) => asPairs(r, chordError)),
    'EvenOdd',
  )
  const solid = section.extrude(z1 - z0).translate(0, 0, z0)
  section.delete()
  return solid
}

/** The points of the cut of two regions, for areas by manifold. */
export function manifoldIntersectionArea(a: readonly Ring[], b: readonly Ring[], chordError: number): number {
  const one = new wasm.CrossSection(
    a.map((r) => asPairs(r, chordError)),
    'EvenOdd',
  )
  const two = new wasm.CrossSection(
    b.map((r) => asPairs(r, chordError)),
    'EvenOdd',
  )
  const both = one.intersect(two)
  const area = both.area()
  for (const s of [one, two, both]) s.delete()
  return area
}
