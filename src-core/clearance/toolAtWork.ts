/** Where the tool's tip goes in a setup, and what of the machine follows it. Heights z from the plate's face, mm. */
import { keptOf } from '../geometry/kept.ts'
import { cutPlaces, type CutPlace } from '../cutting/cutPlace.ts'
import type { Mounted } from '../mounting/types.ts'
import { DRILL_POINT } from './breakthrough.ts'

export interface ToolAtWork {
  /** The tip at its deepest. */
  readonly tip: number
  /** Front of the material that the tool goes into: what follows it cannot come nearer the plate. */
  readonly mouth: number
  /** Smallest radius at which the tip cuts: so far out what carries it stands. */
  readonly out: number
}

/** z of the tool's tip at its deepest: the bottom of its work, or the part's seat where nothing says. */
export const tipDepth = (mounted: Mounted): number => Math.min(...toolsAtWork(mounted).map((t) => t.tip))

/**
 * The carriage's tool at the bottom of each of its cuts, and parked while the plate is turned by hand. Where no cut is
 * given, or none but from the tailstock, it may stand at the bottom of the bore on the axis unless it is parked. Kept per
 * mounted setup: it is asked for everything that turns, and by a search for every place that it looks at.
 */
export const toolsAtWork: (mounted: Mounted) => readonly ToolAtWork[] = keptOf(findTools)

function findTools(mounted: Mounted): ToolAtWork[] {
  const { workBore, partFront, setup, seat, job } = mounted
  const at = job.lathe.carriage?.parkedAt ?? null
  const parked = at === null ? [] : [{ tip: at, mouth: at, out: 0 }]
  const cutting = cutPlaces(mounted).flatMap(toolOf)
  const known = setup.cuts && (cutting.length > 0 || parked.length > 0)
  if (known) return [...cutting, ...parked]
  const deepest = { tip: workBore?.z0 ?? seat, mouth: workBore?.z1 ?? partFront, out: 0 }
  return [deepest, ...parked]
}

function toolOf({ cut, z0, z1 }: CutPlace): ToolAtWork[] {
  switch (cut.kind) {
    case 'drill':
    case 'ream':
      return []
    // A bar in a bore may cut at its smallest, on the axis.
    case 'bore':
    case 'recess':
      return [{ tip: z0, mouth: z1, out: 0 }]
    case 'face':
      return [{ tip: z0, mouth: z0, out: Math.min(cut.from, cut.to) }]
    case 'turn':
      return [{ tip: z0, mouth: z0, out: cut.diameter / 2 }]
  }
}

export interface Drilled {
  /** Front of the material, and where the drill's point goes. */
  readonly mouth: number
  readonly point: number
}

/** What goes into the work from the tailstock; where no drill opens a solid bore, one as large as the bore. */
export function drilledAtWork(mounted: Mounted): Drilled[] {
  const places = cutPlaces(mounted)
  const named = places.filter((p) => p.cut.kind === 'drill' || p.cut.kind === 'ream')
  const solid = mounted.bores.filter(
    (b) => b.state === 'to cut' && b.bore.start === 0 && !named.some((p) => p.bore === b),
  )
  return [
    ...named.map(({ z0, z1, diameter }) => ({ mouth: z1, point: z0 - diameter * DRILL_POINT })),
    ...solid.map(({ z0, z1, bore }) => ({ mouth: z1, point: z0 - bore.diameter * DRILL_POINT })),
  ]
}
