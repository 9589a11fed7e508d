/** What the cuts of a job take off its part, setup after setup. Part frame, heights above its seat. */
import { edgesBox, ringEdges } from '../geometry/edges.ts'
import {
  isBoreCut,
  isPrism,
  liesAcross,
  type Body,
  type Cut,
  type Job,
  type Part,
  type Setup,
} from '../job/schema.ts'
import { meshHeights } from '../mesh/silhouette.ts'
import type { Removal } from '../mass/slabs.ts'

/** The point of the part, part frame, that sits on the spindle axis. */
export function centrePoint(part: Part, setup: Setup): { x: number; y: number } {
  const centre = setup.centre
  if (!('bore' in centre)) return centre
  const bore = part.bores.find((b) => b.id === centre.bore)
  if (!bore) throw new RangeError(`no bore ${centre.bore}`)
  return bore
}

/** Heights of a body's back and front, mm; above the part's seat where it is not given how high that is. */
export function bodyHeights(body: Body, seat = 0): { readonly z0: number; readonly z1: number } {
  if (liesAcross(body)) {
    const { y0, y1 } = edgesBox(ringEdges(body.outline))
    return { z0: seat + y0, z1: seat + y1 }
  }
  const own = isPrism(body) ? { z0: 0, z1: body.thickness } : meshHeights(body.mesh)
  return { z0: seat + body.base + own.z0, z1: seat + body.base + own.z1 }
}

/** Heights above the seat between which the part has material that could be cut, mm. */
function partHeights(part: Part): readonly [number, number] {
  const ranges = part.bodies.filter((b) => b.effect === 'adds').map((b) => bodyHeights(b))
  if (ranges.length === 0) return [0, 0]
  return [Math.min(...ranges.map((r) => r.z0)), Math.max(...ranges.map((r) => r.z1))]
}

/** Heights above the seat over which a cut about the axis goes. */
export function turnedHeights(part: Part, cut: Exclude<Cut, { bore: unknown }>): readonly [number, number] {
  if (cut.z) return cut.z
  const [back, front] = partHeights(part)
  return cut.kind === 'turn' ? [back, front] : [front - cut.depth, front]
}

/** Diameters between which a cut about the axis takes material away, the smaller one first. */
export function turnedDiameters(cut: Exclude<Cut, { bore: unknown }>): readonly [number, number] {
  switch (cut.kind) {
    case 'face':
      return [2 * Math.min(cut.from, cut.to), 2 * Math.max(cut.from, cut.to)]
    case 'turn':
      return [cut.diameter, cut.start]
    case 'recess':
      return [cut.start, cut.diameter]
  }
}

/** Null for a cut in a bore that is not there: `jobFaults` names those. */
function removalOf(part: Part, setup: Setup, cut: Cut): Removal | null {
  if (isBoreCut(cut)) {
    const bore = part.bores.find((b) => b.id === cut.bore)
    if (!bore) return null
    return cut.kind === 'drill' ? { ...bore, diameter: cut.diameter } : bore
  }
  const { x, y } = centrePoint(part, setup)
  const [start, diameter] = turnedDiameters(cut)
  const [z0, z1] = turnedHeights(part, cut)
  return { x, y, start, diameter, z0, z1 }
}

/** What each setup's cuts take away; a drill is left out where the same setup takes its bore to size. */
function removalsIn({ part }: Job, setup: Setup): Removal[] {
  const cuts = setup.cuts ?? []
  const sized = new Set(cuts.flatMap((c) => (isBoreCut(c) && c.kind !== 'drill' ? [c.bore] : [])))
  return cuts
    .filter((c) => !(c.kind === 'drill' && sized.has(c.bore)))
    .flatMap((c) => removalOf(part, setup, c) ?? [])
}

/** In the job's order, which is that of the work. */
export const setupsBefore = ({ setups }: Job, setup: Setup): readonly Setup[] =>
  setups.slice(0, Math.max(0, setups.indexOf(setup)))

/** What the setups before this one took away, in order, each once. */
export const removedBefore = (job: Job, setup: Setup): readonly Removal[] => [
  ...new Set(setupsBefore(job, setup).flatMap((s) => removalsIn(job, s))),
]

/** The same once this setup's own cuts are made. */
export const removedAfter = (job: Job, setup: Setup): readonly Removal[] => [
  ...new Set([...removedBefore(job, setup), ...removalsIn(job, setup)]),
]

/** Ids of the bores that the setups before this one took to size. */
export const boresFinishedBefore = (job: Job, setup: Setup): ReadonlySet<string> =>
  new Set(
    setupsBefore(job, setup).flatMap((s) =>
      (s.cuts ?? []).flatMap((c) => (isBoreCut(c) && c.kind !== 'drill' ? [c.bore] : [])),
    ),
  )
