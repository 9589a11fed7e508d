/** How high a mesh stands over a place of the plate. mm. */
import { boxOf, inBox } from '../../geometry/polygonBox.ts'
import type { Point, Point3 } from '../../geometry/types.ts'
import type { Mesh } from '../../job/schema.ts'
import { placeVertices } from '../../mounting/place.ts'
import type { Placement } from '../../mounting/types.ts'

/** Cells along each side of the grid that triangles are sorted into. */
const CELLS = 64

/** @param back z of the plane from which the mesh counts its own. Gives the height at a point, -Infinity beside the mesh. */
export function meshTop(mesh: Mesh, placement: Placement, back: number): (p: Point) => number {
  const { triangles } = mesh
  const at = placeVertices(placement, mesh, back)
  const box = boxOf([at])
  const { x0, y0, x1, y1 } = box
  const cell = (v: number, from: number, to: number) =>
    Math.max(0, Math.min(CELLS - 1, Math.floor(((v - from) / (to - from || 1)) * CELLS)))
  const cells: number[][] = Array.from({ length: CELLS * CELLS }, () => [])
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const corners = [0, 1, 2].map((k) => at[triangles[t + k]!]!)
    const xs = corners.map((p) => p.x)
    const ys = corners.map((p) => p.y)
    for (let c = cell(Math.min(...xs), x0, x1); c <= cell(Math.max(...xs), x0, x1); c++)
      for (let r = cell(Math.min(...ys), y0, y1); r <= cell(Math.max(...ys), y0, y1); r++)
        cells[r * CELLS + c]!.push(t)
  }
  return (p) => {
    let top = -Infinity
    if (!inBox(box, p)) return top
    for (const t of cells[cell(p.y, y0, y1) * CELLS + cell(p.x, x0, x1)]!) {
      const [a, b, c] = [0, 1, 2].map((k) => at[triangles[t + k]!]!) as [Point3, Point3, Point3]
      const area = (b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y)
      if (area === 0) continue
      const u = ((p.x - a.x) * (c.y - a.y) - (c.x - a.x) * (p.y - a.y)) / area
      const v = ((b.x - a.x) * (p.y - a.y) - (p.x - a.x) * (b.y - a.y)) / area
      if (u >= 0 && v >= 0 && u + v <= 1) top = Math.max(top, a.z + u * (b.z - a.z) + v * (c.z - a.z))
    }
    return top
  }
}
