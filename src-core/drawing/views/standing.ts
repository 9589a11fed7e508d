/** What stands on the plate in the section from the operator's side, in the order in which it is painted. mm. */
import { TOLERANCE } from '../../geometry/tolerance.ts'
import { solidInSpace } from '../../clearance/inSpace.ts'
import { acrossBodies, acrossInSpace } from '../../clearance/partInSpace.ts'
import { polygonUnion } from '../../geometry/polygon.ts'
import { boxOf } from '../../geometry/polygonBox.ts'
import type { Point } from '../../geometry/types.ts'
import { liesAcross } from '../../job/schema.ts'
import type { Mounted, MountedSolid, SolidRole } from '../../mounting/types.ts'
import { seenSolids } from './stackedSolids.ts'
import { sliceLying } from './lyingSlices.ts'
import { slice, type Range } from './slices.ts'

export interface Standing {
  readonly z0: number
  readonly z1: number
  readonly y: Range
  readonly role: SolidRole | 'part'
  /** Of what does not stand upright, x is z; left out: the rectangle between its heights and levels. */
  readonly outlines?: readonly (readonly Point[])[]
}

export interface StandingParts {
  /** Beyond the plane by `x` at least, furthest first. */
  readonly beyond: readonly (Standing & { readonly layer: 'outline' | 'outline-thin'; readonly x: number })[]
  /** Cut by the plane. */
  readonly sliced: readonly Standing[]
  /** On the plane, but never drawn cut: studs, nuts, washers and pins along their length (ISO 128-3). */
  readonly uncut: readonly Standing[]
  /** Before the plane, and not the same as what is drawn beyond it. */
  readonly before: readonly Standing[]
}

const UNCUT: ReadonlySet<SolidRole> = new Set(['stud', 'nut', 'washer', 'dowel'])

export function standing(mounted: Mounted): StandingParts {
  const seen = mounted.pieces.flatMap(seenSolids).filter((s) => s.z1 > 0)
  const solids = seen
    .filter((s) => !s.lies)
    .map((s) => ({ ...slice(s.ring, s.holes), role: s.role, z0: Math.max(s.z0, 0), z1: s.z1 }))
  const lying = lyingParts(mounted, seen)
  const bodies = mounted.bodies
    .filter((b) => b.body.effect === 'adds' && !liesAcross(b.body))
    .flatMap((b) =>
      b.regions.map((r) => ({ ...slice(r.outline), role: 'part' as const, z0: b.z0, z1: b.z1 })),
    )
  const uprightBeyond = [...solids, ...bodies].flatMap(({ beyond: far, cut, role, z0, z1 }) => {
    if (!far || (cut.length > 0 && role !== 'part' && UNCUT.has(role))) return []
    return [{ z0, z1, y: far.y, x: far.x, role, layer: 'outline-thin' as const }]
  })
  const beyond = [...uprightBeyond, ...lying.beyond].sort((a, b) => b.x - a.x)
  const isCut = (s: (typeof solids)[number]) => s.cut.length > 0
  const sliced = solids.flatMap(({ cut, role, z0, z1 }) =>
    UNCUT.has(role) ? [] : cut.map((y) => ({ z0, z1, y, role })),
  )
  const uncut = solids.filter((s) => isCut(s) && UNCUT.has(s.role)).map((s) => ({ ...s, y: extent(s) }))
  const drawn = [...beyond, ...sliced]
  const before = solids.flatMap(({ before: near, cut, role, z0, z1 }) => {
    if (!near || cut.length > 0 || UNCUT.has(role)) return []
    const own = { z0, z1, y: near, role }
    return drawn.some((d) => isSame(d, own)) ? [] : [own]
  })
  return {
    beyond,
    sliced: [...sliced, ...lying.sliced],
    uncut: [...uncut, ...lying.uncut],
    before: [...before, ...lying.before.filter((own) => !drawn.some((d) => isSame(d, own)))],
  }
}

/** What does not stand upright; of bodies of the part what lies beyond, their section is drawn with the part's. */
function lyingParts(mounted: Mounted, seen: readonly MountedSolid[]) {
  const slices = [
    ...seen.flatMap((s) => (s.lies ? [{ role: s.role, solid: solidInSpace(s) }] : [])),
    ...acrossBodies(mounted).map((b) => ({ role: 'part' as const, solid: acrossInSpace(mounted, b) })),
  ].map(({ role, solid }) => ({ role, ...sliceLying(solid.pieces) }))
  const shown = (role: Standing['role'], outlines: NonNullable<Standing['outlines']>): Standing[] => {
    if (outlines.length === 0) return []
    const { x0, x1, y0, y1 } = boxOf(outlines)
    return [{ z0: x0, z1: x1, y: [y0, y1], role, outlines }]
  }
  const isUncut = ({ role }: (typeof slices)[number]) => role !== 'part' && UNCUT.has(role)
  const hardware = slices.filter((s) => s.role !== 'part')
  return {
    beyond: slices.flatMap((s) =>
      s.beyond && !(isUncut(s) && s.cut.length > 0)
        ? shown(s.role, s.beyond.outlines).map((b) => ({
            ...b,
            x: s.beyond!.x,
            layer: 'outline-thin' as const,
          }))
        : [],
    ),
    sliced: hardware.flatMap((s) => (isUncut(s) ? [] : shown(s.role, s.cut))),
    uncut: hardware.flatMap((s) =>
      isUncut(s) && s.cut.length > 0
        ? shown(
            s.role,
            polygonUnion([...s.before.map(copied), ...(s.beyond?.outlines ?? []).map(copied)], []),
          )
        : [],
    ),
    before: hardware.flatMap((s) => (s.cut.length > 0 || isUncut(s) ? [] : shown(s.role, s.before))),
  }
}

const copied = (ring: readonly Point[]): Point[] => [...ring]

function extent({ before, beyond }: ReturnType<typeof slice>): Range {
  const ranges = [before, beyond?.y].filter((r) => r !== null && r !== undefined)
  return [Math.min(...ranges.map((r) => r[0])), Math.max(...ranges.map((r) => r[1]))]
}

const isSame = (a: Standing, b: Standing): boolean =>
  [a.z0 - b.z0, a.z1 - b.z1, a.y[0] - b.y[0], a.y[1] - b.y[1]].every((d) => Math.abs(d) < TOLERANCE.gap)
