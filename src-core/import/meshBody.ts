/** An STL file's triangles as a body of a part. */
import { IMPORT_TOLERANCE } from '../geometry/tolerance.ts'
import { LIMITS, type MeshBody } from '../job/schema.ts'
import { meshFaultWords } from '../mesh/faultWords.ts'
import { convert } from '../units/convert.ts'
import { isSolid, meshFaults, type MeshFaults } from '../mesh/faults.ts'
import { meshBox } from '../mesh/properties.ts'
import { badCoordinate } from '../mesh/stlFault.ts'
import { weld } from '../mesh/weld.ts'

/** Units an STL file may be drawn in; it does not say, so the user is asked. */
export type MeshUnit = 'mm' | 'cm' | 'm' | 'in' | 'ft'

export type MeshBodyResult =
  | { readonly ok: true; readonly body: MeshBody; readonly faults: MeshFaults; readonly collapsed: number }
  | { readonly ok: false; readonly reason: string; readonly faults: MeshFaults | null }

/** Vertices per mm: they are kept to 1 µm. */
const PER_MM = 1000

/**
 * A body whose lowest point sits on the part's seat, x and y as in the file; vertices in mm, rounded to 1 µm. Refused
 * with its reason unless the surface is closed and wound outwards; `faults` counts the bad edges.
 */
export function meshBody(
  stl: { readonly triangles: Float64Array },
  unit: MeshUnit,
  id: string,
): MeshBodyResult {
  const factor = convert(1, unit, 'mm') * PER_MM
  const corners = stl.triangles.map((value) => Math.round(value * factor) / PER_MM)
  const far = corners.find((value) => !(Math.abs(value) <= LIMITS.coordinate))
  if (far !== undefined) return { ok: false, reason: `${badCoordinate(far)} mm`, faults: null }
  const { vertices, triangles, collapsed } = weld(corners, IMPORT_TOLERANCE.weld)
  if (triangles.length < 12)
    return { ok: false, reason: 'fewer than four triangles with an area', faults: null }
  if (vertices.length / 3 > LIMITS.meshVertices) {
    const count = vertices.length / 3
    return {
      ok: false,
      reason: `${count} vertices, more than the ${LIMITS.meshVertices} allowed`,
      faults: null,
    }
  }
  const mesh = { vertices, triangles }
  const faults = meshFaults(mesh)
  if (!isSolid(faults)) return { ok: false, reason: meshFaultWords(faults), faults }
  const base = -meshBox(mesh).low[2]
  return { ok: true, body: { id, effect: 'adds', base: base === 0 ? 0 : base, mesh }, faults, collapsed }
}
