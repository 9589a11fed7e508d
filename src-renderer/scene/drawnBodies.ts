/** Bodies of the part as they are drawn: one that is mounted as several pieces is one outline, seen from in front. */
import { flattenRing } from '../../src-core/geometry/flatten.ts'
import { polygonUnion } from '../../src-core/geometry/polygon.ts'
import type { Polygons } from '../../src-core/geometry/polygonBox.ts'
import { TOLERANCE } from '../../src-core/geometry/tolerance.ts'
import type { Ring } from '../../src-core/geometry/types.ts'
import type { Body } from '../../src-core/job/schema.ts'
import type { MountedBody } from '../../src-core/mounting/types.ts'

export interface DrawnBody {
  readonly body: Body
  readonly rings: readonly Ring[]
  /** Of its front. */
  readonly z1: number
}

/** Lowest first; of those that end as high what adds comes first. */
export function drawnBodies(bodies: readonly MountedBody[]): DrawnBody[] {
  const groups = new Map<string, MountedBody[]>()
  for (const b of bodies) groups.set(b.body.id, [...(groups.get(b.body.id) ?? []), b])
  return [...groups.values()]
    .map((group): DrawnBody => ({
      body: group[0]!.body,
      rings: group.length === 1 ? ringsOf(group[0]!) : unionOf(group),
      z1: Math.max(...group.map((b) => b.z1)),
    }))
    .sort((a, b) => a.z1 - b.z1 || (a.body.effect === 'adds' ? -1 : 1))
}

const ringsOf = ({ regions }: MountedBody): Ring[] => regions.flatMap((r) => [r.outline, ...r.holes])

const unionOf = (group: readonly MountedBody[]): Ring[] =>
  group
    .map((b): Polygons => ringsOf(b).map((r) => flattenRing(r, TOLERANCE.clashChord)))
    .reduce((a, b) => polygonUnion(a, b)) as Ring[]
