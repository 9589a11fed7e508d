/** From a preview to bodies of a part. */
import type { Point, Region, Ring, Vertex } from '../geometry/types.ts'
import { LIMITS, type Body } from '../job/schema.ts'
import { lainOn, type Direction } from '../mesh/lying.ts'
import { meshBody } from './meshBody.ts'
import { toMm } from './assemble.ts'
import { isMeshUnit } from './stl.ts'
import type { ImportUnit, Preview } from './types.ts'

export interface BodyOptions {
  /** mm; not asked for a mesh. */
  readonly thickness: number
  /** Needed where the preview's own `units` is null; else left out. */
  readonly units?: ImportUnit | undefined
  /** z of the bodies' backs above the part's seat, mm; 0 unless told. */
  readonly base?: number | undefined
  /** Which outlines, by index; all without faults unless told. */
  readonly outlines?: readonly number[] | undefined
  /** The point, in the preview's unit, that becomes the part's origin; the file's origin unless told. */
  readonly origin?: Point | undefined
  /** A mesh: the direction, out of the solid and in the file's own frame, that points at the seat; −z unless told. */
  readonly down?: Direction | undefined
  /** Outlines: what was drawn from one side lies with the other to the front, mirrored left to right. */
  readonly turnedOver?: boolean | undefined
  /** Ids that the part uses already. */
  readonly takenIds?: readonly string[] | undefined
}

export type BodiesResult =
  { readonly ok: true; readonly bodies: Body[] } | { readonly ok: false; readonly reason: string }

/** Prisms of one thickness from a drawing, or the one mesh body of an STL file; places in mm, rounded to 0.1 nm. */
export function toBodies(preview: Preview, options: BodyOptions): BodiesResult {
  if (preview.units === null && !options.units)
    return no('the file states no unit: say which it was drawn in')
  const units = preview.units ?? options.units!
  return preview.solid ? solidBody(preview.solid.triangles, units, options) : prisms(preview, units, options)
}

const no = (reason: string): BodiesResult => ({ ok: false, reason })

function solidBody(triangles: Float64Array, units: ImportUnit, options: BodyOptions): BodiesResult {
  if (!isMeshUnit(units)) return no(`an STL file in ${units} is not taken`)
  const lain = options.down ? lainOn(triangles, options.down) : triangles
  const made = meshBody({ triangles: lain }, units, freeIds(options)())
  if (!made.ok) return no(made.reason)
  return { ok: true, bodies: [{ ...made.body, base: made.body.base + (options.base ?? 0) }] }
}

function prisms(preview: Preview, units: ImportUnit, options: BodyOptions): BodiesResult {
  const { thickness } = options
  if (!(thickness > 0 && thickness <= LIMITS.coordinate)) return no('the thickness must be above zero')
  const faulty = new Map(
    preview.faults.flatMap((f) => (f.outline === null ? [] : [[f.outline, f.message] as const])),
  )
  const chosen = options.outlines ?? preview.outlines.map((_, i) => i).filter((i) => !faulty.has(i))
  if (chosen.length === 0)
    return no(preview.outlines.length === 0 ? 'no closed outline was found' : 'every outline has a fault')
  if (chosen.length > LIMITS.bodies)
    return no(`${chosen.length} outlines, more than the ${LIMITS.bodies} bodies a part may have`)
  const factor = preview.units === null ? toMm(units) : 1
  const nextId = freeIds(options)
  const bodies: Body[] = []
  for (const index of chosen) {
    const region = preview.outlines[index]
    if (!region) return no(`there is no outline ${index}`)
    if (faulty.has(index)) return no(`outline ${index + 1} ${faulty.get(index)}`)
    const moved = moveRegion(region, factor, options.origin ?? { x: 0, y: 0 })
    if (
      moved.outline.some((v) => !(Math.abs(v.x) <= LIMITS.coordinate && Math.abs(v.y) <= LIMITS.coordinate))
    ) {
      return no(`outline ${index + 1} reaches beyond ${LIMITS.coordinate} mm`)
    }
    const lying = options.turnedOver ? { outline: over(moved.outline), holes: moved.holes.map(over) } : moved
    bodies.push({ id: nextId(), effect: 'adds', base: options.base ?? 0, thickness, ...lying })
  }
  return { ok: true, bodies }
}

function moveRegion(
  { outline, holes }: Region,
  factor: number,
  origin: Point,
): { outline: Vertex[]; holes: Vertex[][] } {
  const tidy = (value: number) => Math.round(value * 1e7) / 1e7 + 0
  const move = (ring: Ring): Vertex[] =>
    ring.map(({ x, y, bulge }) => ({
      x: tidy((x - origin.x) * factor),
      y: tidy((y - origin.y) * factor),
      ...(bulge ? { bulge } : {}),
    }))
  return { outline: move(outline), holes: holes.map(move) }
}

/** Mirrored left to right, and gone round the other way so that it winds as before: each arc keeps its side. */
function over(ring: readonly Vertex[]): Vertex[] {
  const n = ring.length
  return ring.map((_, k) => {
    const { x, y } = ring[n - 1 - k]!
    const bulge = ring[(2 * n - 2 - k) % n]!.bulge
    return { x: -x + 0, y, ...(bulge ? { bulge } : {}) }
  })
}

/** b1, b2 … leaving out what is taken. */
function freeIds({ takenIds = [] }: BodyOptions): () => string {
  const taken = new Set(takenIds)
  let n = 0
  return () => {
    do n++
    while (taken.has(`b${n}`))
    return `b${n}`
  }
}
