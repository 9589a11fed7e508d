/** What stands on the plate in the section from the operator's side, in the order in which it is painted. mm. */
import { TOLERANCE } from '../../geometry/tolerance.ts'
import type { Mounted, SolidRole } from '../../mounting/types.ts'
import { seenSolids } from './stackedSolids.ts'
import { slice, type Range } from './slices.ts'

export interface Standing {
  readonly z0: number
  readonly z1: number
  readonly y: Range
  readonly role: SolidRole | 'part'
}

export interface StandingParts {
  /** Beyond the plane, furthest first. */
  readonly beyond: readonly (Standing & { readonly layer: 'outline' | 'outline-thin' })[]
  /** Cut by the plane. */
  readonly sliced: readonly Standing[]
  /** On the plane, but never drawn cut: studs, nuts, washers and pins along their length (ISO 128-3). */
  readonly uncut: readonly Standing[]
  /** Before the plane, and not the same as what is drawn beyond it. */
  readonly before: readonly Standing[]
}

const UNCUT: ReadonlySet<SolidRole> = new Set(['stud', 'nut', 'washer', 'dowel'])

export function standing(mounted: Mounted): StandingParts {
  const solids = mounted.pieces
    .flatMap(seenSolids)
    .filter((s) => s.z1 > 0)
    .map((s) => ({ ...slice(s.ring, s.holes), role: s.role, z0: Math.max(s.z0, 0), z1: s.z1 }))
  const bodies = mounted.bodies
    .filter((b) => b.body.effect === 'adds')
    .flatMap((b) =>
      b.regions.map((r) => ({ ...slice(r.outline), role: 'part' as const, z0: b.z0, z1: b.z1 })),
    )
  const beyond = [...solids, ...bodies]
    .flatMap(({ beyond: far, cut, role, z0, z1 }) => {
      if (!far || (cut.length > 0 && role !== 'part' && UNCUT.has(role))) return []
      return [{ z0, z1, y: far.y, x: far.x, role, layer: 'outline-thin' as const }]
    })
    .sort((a, b) => b.x - a.x)
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
  return { beyond, sliced, uncut, before }
}

function extent({ before, beyond }: ReturnType<typeof slice>): Range {
  const ranges = [before, beyond?.y].filter((r) => r !== null && r !== undefined)
  return [Math.min(...ranges.map((r) => r[0])), Math.max(...ranges.map((r) => r[1]))]
}

const isSame = (a: Standing, b: Standing): boolean =>
  [a.z0 - b.z0, a.z1 - b.z1, a.y[0] - b.y[0], a.y[1] - b.y[1]].every((d) => Math.abs(d) < TOLERANCE.gap)
