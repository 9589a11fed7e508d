/** What the work passes when it is turned by hand: the cross-slide's profile, and the circle of the tightest corner. */
import type { Analysis } from '../../src-core/analysis/result.ts'
import { crossSlideReach } from '../../src-core/clearance/carriage.ts'
import type { Ring } from '../../src-core/geometry/types.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'
import type { SceneItem } from './items.ts'
import { tightestCorners } from './overlay.ts'

/** The slide seen from the tailstock: its table at the height that the swing over it leaves, its saddle on the bed. */
function slideRing(top: number, bed: number, width: number): Ring {
  const h = width / 2
  const table = Math.min(0.28 * width, (top - bed) * 0.6)
  return [
    { x: -h, y: top },
    { x: -h, y: top - table },
    { x: -h * 0.7, y: top - table },
    { x: -h * 0.7, y: bed },
    { x: h * 0.7, y: bed },
    { x: h * 0.7, y: top - table },
    { x: h, y: top - table },
    { x: h, y: top },
  ]
}

export function describePassing(
  mounted: Mounted,
  analysis: Analysis | null,
  length: (mm: number) => string,
): SceneItem[] {
  const { lathe } = mounted.job
  const top = -lathe.swingOverCrossSlide / 2
  const bed = -lathe.swingOverBed / 2
  const reach = crossSlideReach(mounted)
  const items: SceneItem[] = []
  if (bed < top)
    items.push(
      {
        id: 'cross-slide-profile',
        layer: 'front',
        role: 'cross-slide-profile',
        kind: 'region',
        rings: [slideRing(top, bed, lathe.swingOverBed * 0.5)],
      },
      {
        id: 'cross-slide-word',
        layer: 'front',
        role: 'machine-label',
        kind: 'text',
        at: { x: -lathe.swingOverBed * 0.19, y: bed + lathe.swingOverBed * 0.03 },
        align: 'right',
        text: reach === null ? 'cross-slide' : `cross-slide, from ${length(reach)} out`,
      },
    )
  const first = analysis?.clearances[0]
  if (first?.item === 'plate' && first.clearance_mm >= 0)
    items.push({
      id: 'rim-clearance',
      layer: 'front',
      role: 'guide-text',
      kind: 'text',
      at: { x: 0, y: -first.swept_radius_mm - first.clearance_mm / 2 },
      align: 'centre',
      text: `plate ${length(first.clearance_mm)} to ${first.against}`,
    })
  for (const c of analysis ? tightestCorners(analysis) : [])
    items.push({
      id: `swept:${c.against}`,
      layer: 'front',
      role: 'swept',
      kind: 'circle',
      centre: { x: 0, y: 0 },
      radius: c.swept_radius_mm,
    })
  return items
}
