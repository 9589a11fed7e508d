/** The tailstock's barrel and chuck when something is drilled: they come along the axis as far as the drill goes. */
import { finding, type Finding } from '../findings/finding.ts'
import { polygonArea, polygonIntersection, polygonPlace } from '../geometry/polygon.ts'
import { boxOf, boxesMeet } from '../geometry/polygonBox.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import { planBetween } from '../geometry/space/shadow.ts'
import { discPolygons, flatBodies, materialBetween } from '../mounting/material.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'
import { called } from '../findings/finding.ts'
import { isFlat, metInPlan } from './inSpace.ts'
import { partInSpace } from './partInSpace.ts'
import { drilledAtWork } from './toolAtWork.ts'

/** mm across: few lathes that carry a faceplate have a thicker barrel or drill chuck. Evenswing's own choice. */
export const USUAL_BARREL = 80

/** Above any setup, mm. */
const TALL = 1e6

interface Met {
  readonly item: string
  readonly label: string
  readonly at: Point | null
}

export function tailstockFindings(mounted: Mounted): Finding[] {
  const drilled = drilledAtWork(mounted)
  if (drilled.length === 0) return []
  const { tailstock } = mounted.job.lathe
  const fmt = formatter(mounted.job.displayUnits)
  const barrel = tailstock?.barrel ?? USUAL_BARREL
  // It cannot come nearer than the mouth of the bore that the drill goes into.
  const comes = drilled.map((d) => Math.max(d.point + (tailstock?.reach ?? 0), d.mouth))
  const from = Math.min(...comes)
  const met = inWay(mounted, barrel, from)
  if (met.length === 0) return []
  if (tailstock) {
    const across = `${fmt.length(barrel)} across`
    return met.map(({ item, label, at }) => {
      const message = `${item === 'part' ? capital(label) : label} stands in the way of the tailstock. Barrel and chuck, ${across}, come to ${fmt.length(from)} from the plate when the drill is through: use a longer drill or sleeve, or bore instead.`
      return finding('stop', 'fouls-tailstock', item, message, at)
    })
  }
  const names = met.map((m) => m.label).join(', ')
  const message = `What of the tailstock comes near the work is not known for this lathe: ${names} may stand in its way: give the thickness of barrel and chuck, and how far they stand behind the drill's point.`
  return [finding('caution', 'tailstock-not-checked', 'lathe', message, met[0]!.at)]
}

/** What has material within the barrel's circle beyond a height. */
function inWay(mounted: Mounted, barrel: number, from: number): Met[] {
  const path = discPolygons({ x: 0, y: 0 }, barrel)
  const box = boxOf(path)
  const place = (polygons: Point[][]): Point | null | undefined =>
    polygonArea(polygons) > TOLERANCE.clashArea ? polygonPlace(polygons) : undefined
  const beyond = from + TOLERANCE.height
  const pieces = mounted.pieces.flatMap(({ item, solids }): Met[] => {
    for (const solid of solids) {
      const at = place(metInPlan(solid, beyond, TALL, path))
      if (at !== undefined) return [{ item: item.id, label: called(item), at }]
    }
    return []
  })
  const part = place(
    isFlat(mounted)
      ? polygonIntersection(materialBetween(mounted, flatBodies(mounted), beyond, TALL, box), path)
      : partInSpace(mounted)
          .flatMap(({ solid }) => planBetween(solid.pieces, beyond, TALL))
          .filter((ring) => boxesMeet(boxOf([ring]), box))
          .flatMap((ring) => polygonIntersection([ring], path)),
  )
  return [...(part === undefined ? [] : [{ item: 'part', label: 'the part', at: part }]), ...pieces]
}
