/** Bodies that remove must find as much as they take: nothing outside the part, nothing twice. */
import { flattenRegion } from '../geometry/flatten.ts'
import {
  polygonArea,
  polygonDifference,
  polygonIntersection,
  polygonPlace,
  polygonUnion,
} from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import { plain } from '../units/format.ts'
import type { JobFault } from './fault.ts'
import { isPrism, type Part, type Prism } from './schema.ts'

interface Flat {
  readonly index: number
  readonly body: Prism
  readonly rings: Point[][]
}

/** Faults of the removing prisms of a part whose outlines are sound; meshes are not looked into. */
export function removalFaults(part: Part): JobFault[] {
  const flat = part.bodies.flatMap((body, index): Flat[] =>
    isPrism(body) ? [{ index, body, rings: flattenRegion(body) }] : [],
  )
  const removes = flat.filter((f) => f.body.effect === 'removes')
  const adds = flat.filter((f) => f.body.effect === 'adds')
  // A mesh may well hold what is taken away; it is not resolved in height, so it is believed.
  if (removes.length === 0 || part.bodies.some((b) => !isPrism(b))) return []
  const faults: JobFault[] = []
  const heights = [...new Set(flat.flatMap(({ body }) => [body.base, body.base + body.thickness]))].sort(
    (a, b) => a - b,
  )
  const reported = new Set<string>()
  const report = (key: string, path: string, left: Point[][], words: string) => {
    const area = polygonArea(left)
    if (area <= TOLERANCE.clashArea || reported.has(key)) return
    reported.add(key)
    const at = polygonPlace(left)
    const place = at ? ` near x ${plain(at.x, 1)}, y ${plain(at.y, 1)} mm` : ''
    faults.push({ path, message: `${words}: ${plain(area, 1)} mm²${place}` })
  }
  for (let k = 0; k + 1 < heights.length; k++) {
    const z = (heights[k]! + heights[k + 1]!) / 2
    if (heights[k + 1]! - heights[k]! <= TOLERANCE.height) continue
    const here = (f: Flat) => f.body.base < z && z < f.body.base + f.body.thickness
    const solid = adds.filter(here)
    const taken = removes.filter(here)
    const material = solid.reduce<Point[][]>((all, f) => polygonUnion(all, f.rings), [])
    for (const r of taken) {
      const path = `part.bodies[${r.index}]`
      report(`out ${r.index}`, path, polygonDifference(r.rings, material), 'takes away more than is there')
      for (const other of taken) {
        if (other.index <= r.index) continue
        const both = polygonIntersection(r.rings, other.rings)
        const twice = solid.length > 1 ? lessDoubled(both, solid) : both
        report(
          `two ${r.index} ${other.index}`,
          `part.bodies[${other.index}]`,
          twice,
          `takes away again what ${path} removes`,
        )
      }
    }
  }
  return faults
}

/** Where two adding bodies overlap there is material twice, so it may be taken twice. */
function lessDoubled(area: Point[][], solid: readonly Flat[]): Point[][] {
  let left = area
  solid.forEach((a, i) => {
    for (const b of solid.slice(i + 1)) left = polygonDifference(left, polygonIntersection(a.rings, b.rings))
  })
  return left
}
