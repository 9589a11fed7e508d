/** A mesh from an STL file, as a preview: its silhouette and what is wrong with its surface. */
import type { PreviewFault, ImportOptions, ImportResult, ImportUnit } from './types.ts'
import { meshBody, type MeshUnit } from './meshBody.ts'
import { readStl } from '../mesh/stl.ts'
import { silhouetteOf } from '../mesh/silhouette.ts'
import { refused } from './refusal.ts'

const UNITS: readonly ImportUnit[] = ['mm', 'cm', 'm', 'in', 'ft']
export const isMeshUnit = (unit: ImportUnit): unit is MeshUnit => UNITS.includes(unit)

/** STL states no unit: `units` is null unless given. A surface that is no solid comes back with faults, not a refusal. */
export function importStl(bytes: Uint8Array, options: ImportOptions = {}): ImportResult {
  const units = options.units ?? null
  if (units && !isMeshUnit(units))
    return refused({ place: 'the whole file', reason: `an STL file in ${units} is not taken` })
  const read = readStl(bytes)
  if (!read.ok) return refused({ place: read.place, reason: read.reason })
  const made = meshBody(read, units && isMeshUnit(units) ? units : 'mm', 'mesh')
  const faults: PreviewFault[] = []
  const note = (message: string) => faults.push({ outline: null, at: null, message })
  if (!made.ok) note(made.reason)
  const shape = made.ok ? silhouetteOf(made.body.mesh) : null
  if (shape?.hull) note('its contour is too intricate to follow: in plan the convex hull stands in for it')
  const collapsed = made.ok ? made.collapsed : 0
  const reason = 'smaller than 2 µm: its corners fall together'
  return {
    ok: true,
    kind: 'stl',
    units,
    outlines: shape ? shape.regions : [],
    counts: {
      triangle: read.triangles.length / 9,
      ...(made.ok ? { vertex: made.body.mesh.vertices.length / 3 } : {}),
    },
    dropped: collapsed > 0 ? [{ kind: 'triangle', count: collapsed, reason, place: '' }] : [],
    faults,
    layers: [],
    solid: { triangles: read.triangles, faults: made.faults },
  }
}
