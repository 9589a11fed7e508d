/** Where a setup's cuts are made, in the plate's frame. */
import type { Point } from '../geometry/types.ts'
import { isBoreCut, type Cut } from '../job/schema.ts'
import { turnedDiameters, turnedHeights } from '../mounting/cutAway.ts'
import type { Mounted, MountedBore } from '../mounting/types.ts'

export interface CutPlace {
  readonly cut: Cut
  /** What findings about it stand for: its bore, else the cut itself. */
  readonly item: string
  /** Null for a cut about the axis, and in a bore that is not there. */
  readonly bore: MountedBore | null
  /** mm: the largest diameter that is cut. */
  readonly diameter: number
  /** Heights above the plate's face. */
  readonly z0: number
  readonly z1: number
}

export function cutPlaces(mounted: Mounted): CutPlace[] {
  const { job, setup, bores, seat } = mounted
  return (setup.cuts ?? []).flatMap((cut): CutPlace[] => {
    if (!isBoreCut(cut)) {
      const [z0, z1] = turnedHeights(job.part, cut)
      const diameter = turnedDiameters(cut)[1]
      return [{ cut, item: cut.id, bore: null, diameter, z0: seat + z0, z1: seat + z1 }]
    }
    const bore = bores.find((b) => b.bore.id === cut.bore)
    if (!bore) return []
    const diameter = cut.kind === 'drill' ? cut.diameter : bore.bore.diameter
    return [{ cut, item: cut.bore, bore, diameter, z0: bore.z0, z1: bore.z1 }]
  })
}

const AXIS: Point = { x: 0, y: 0 }

/** The point round which it is cut. */
export const cutCentre = ({ bore }: CutPlace): Point => bore?.centre ?? AXIS

/** Radii between which it takes material away, the smaller one first, mm. */
export function cutRadii({ cut, bore, diameter }: CutPlace): readonly [number, number] {
  const inner = isBoreCut(cut) ? (bore?.bore.start ?? 0) : turnedDiameters(cut)[0]
  return [inner / 2, diameter / 2]
}

const VERBS = {
  bore: 'boring',
  drill: 'drilling',
  ream: 'reaming',
  face: 'facing',
  turn: 'turning',
  recess: 'recessing',
} as const satisfies Record<Cut['kind'], string>

/** `boring A`, `facing cut2`. */
export const cutWords = (cut: Cut): string =>
  `${VERBS[cut.kind]} ${isBoreCut(cut) ? cut.bore : (cut.name ?? cut.id)}`
