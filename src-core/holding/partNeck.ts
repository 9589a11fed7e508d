/**
 * Whether the part bears the cut where it is narrow between its seat and the tool. On each section parallel to the seat
 * the cut's loads bend what stands over it,
 *
 *   σ(x, y) = N/A + αx + βy,   ∫σy dA = M_x,   ∫σx dA = −M_y,
 *
 * with the moments about the section's centre; shear and torsion are left out, and so is what clamps hold from the side.
 */
import { cuttingAdvice } from '../cutting/advice.ts'
import { cutPlaces } from '../cutting/cutPlace.ts'
import { finding, type Finding } from '../findings/finding.ts'
import { into, outOf } from '../geometry/space/pose.ts'
import type { Point } from '../geometry/types.ts'
import { keptFor } from '../mounting/kept.ts'
import { isSound } from '../mounting/material.ts'
import { placeInPlate, seatShelf } from '../mounting/shelf.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { levelsBelow } from './bearing.ts'
import { seatLoad, worstEffect, type Load, type SeatWrench } from './loads.ts'
import { BENDS_AT } from './support.ts'
import { sectionAt, type Section } from './partSection.ts'
import { partStand, seatAt } from './stand.ts'
import { cutLoadsOf } from './working.ts'

export const neckFindings = keptFor(judge, ({ job, setup }) => [job.lathe, setup.cuts, seatShelf(setup)])

function judge(mounted: Mounted): Finding[] {
  const cutting = isSound(mounted) ? cuttingAdvice(mounted) : null
  if (!cutting) return []
  const view = partStand(mounted)
  const cuts = cutPlaces(mounted).flatMap((place, i) =>
    (cutLoadsOf(cutting.cuts[i]!, place, seatAt(view, view.seat)) ?? []).map(({ loads, height }) => ({
      loads,
      top: lowestCut(view, height, place.diameter / 2),
    })),
  )
  const top = Math.max(view.seat, ...cuts.map((c) => c.top))
  let worst: { readonly section: Section; readonly stress: number } | null = null
  for (const section of bottomsBelow(view, top).flatMap((z) => sectionAt(view, z) ?? [])) {
    for (const { loads } of cuts.filter((c) => section.height < c.top)) {
      const bears = worst?.stress ?? BENDS_AT
      if (stressIn(view, section, loads, section.around) <= bears) continue
      const stress = stressIn(view, section, loads, section.corners())
      if (stress > bears) worst = { section, stress }
    }
  }
  return worst ? [neckFinding(view, worst.section, worst.stress)] : []
}

/** Height over what the part stands on up to which the part is whole under a cut. */
const lowestCut = ({ shelf }: Mounted, height: number, radius: number): number =>
  shelf ? into(shelf.pose, { x: 0, y: 0, z: height }).z - radius : height

/** Where each layer of the part begins between seat and `top`: bent most there. */
const bottomsBelow = (view: Mounted, top: number): number[] => [
  view.seat,
  ...levelsBelow(view, top).filter((z) => z > view.seat),
]

/** N/mm² in the worst of some places, seen from its centre. */
function stressIn(view: Mounted, section: Section, loads: readonly Load[], places: readonly Point[]): number {
  const { area, centre, xx, xy, yy } = section
  const level = seatAt(view, section.height)
  const seat = { ...level, origin: outOf(level, { ...centre, z: 0 }) }
  const seen = loads.map((l) => seatLoad(seat, l))
  const det = xx * yy - xy * xy
  if (!(det > 0)) return Infinity
  const at = (p: Point) => (w: SeatWrench) => {
    const alpha = (-w.mv * yy - w.mu * xy) / det
    const beta = (w.mu * xx + w.mv * xy) / det
    return w.fn / area + alpha * p.x + beta * p.y
  }
  return places.reduce(
    (most, p) =>
      Math.max(
        most,
        seen.reduce((sum, l) => sum + worstEffect(l, at(p)), 0),
      ),
    0,
  )
}

function neckFinding(view: Mounted, { height, area, centre }: Section, stress: number): Finding {
  const fmt = formatter(view.job.displayUnits)
  const message = `Whether the part bears the cut is not known: ${fmt.length(height - view.seat)} from its seat it is narrow, ${fmt.area(area)} there. Take a lighter cut, or carry it from the side; the cut bends it with ${fmt.stress(stress)} (rule of thumb: ${fmt.stress(BENDS_AT)}).`
  return finding('caution', 'part-bends', 'setup', message, placeInPlate(view, centre))
}
