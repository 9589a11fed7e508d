/** The setup seen from the front of the lathe: headstock left, tailstock right, z along and y up. Boxes in mm. */
import { crossSlideReach } from '../../src-core/clearance/clearance.ts'
import { edgeBounds, ringEdges } from '../../src-core/geometry/edges.ts'
import type { Ring } from '../../src-core/geometry/types.ts'
import { isClamp, isCounterweight } from '../../src-core/job/schema.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'

export interface SideBox {
  readonly id: string
  readonly kind:
    | 'plate'
    | 'nose'
    | 'body'
    | 'pocket'
    | 'packing'
    | 'clamp'
    | 'counterweight'
    | 'other'
    | 'bore'
    | 'bed'
    | 'cross-slide'
  readonly z0: number
  readonly z1: number
  readonly y0: number
  readonly y1: number
}

export interface SideScene {
  readonly boxes: readonly SideBox[]
  readonly z0: number
  readonly z1: number
  readonly y0: number
  readonly y1: number
}

function heights(rings: readonly Ring[]): { y0: number; y1: number } {
  let y0 = Infinity
  let y1 = -Infinity
  for (const ring of rings)
    for (const e of ringEdges(ring)) {
      const b = edgeBounds(e)
      y0 = Math.min(y0, b.y0)
      y1 = Math.max(y1, b.y1)
    }
  return { y0, y1 }
}

export function sideScene(mounted: Mounted): SideScene {
  const { plate, lathe } = mounted.job
  const rim = plate.diameter / 2
  const boxes: SideBox[] = []
  const front = Math.max(mounted.partFront, ...mounted.pieces.map((p) => p.z1), 40)
  const z0 = -plate.thickness * 2.6
  const swing = lathe.swingOverBed / 2
  const y0 = -swing - lathe.swingOverBed * 0.09
  const gap = lathe.gap?.open ? lathe.gap : null
  const z1 = Math.max(front * 1.25 + 20, gap ? gap.width + 40 : 0)
  boxes.push({ id: 'bed', kind: 'bed', z0: gap ? Math.min(gap.width, z1) : z0, z1, y0, y1: -swing })
  const reach = crossSlideReach(mounted)
  if (reach !== null && reach < z1)
    boxes.push({
      id: 'cross-slide',
      kind: 'cross-slide',
      z0: Math.max(z0, reach),
      z1,
      y0: -swing,
      y1: -lathe.swingOverCrossSlide / 2,
    })
  boxes.push({
    id: 'nose',
    kind: 'nose',
    z0,
    z1: -plate.thickness,
    y0: -Math.max(plate.bore, rim * 0.4) / 1.6,
    y1: Math.max(plate.bore, rim * 0.4) / 1.6,
  })
  boxes.push({ id: 'plate', kind: 'plate', z0: -plate.thickness, z1: 0, y0: -rim, y1: rim })
  const pieces = mounted.pieces.map((p): SideBox => {
    const kind = isClamp(p.item)
      ? 'clamp'
      : isCounterweight(p.item)
        ? 'counterweight'
        : p.item.kind === 'packing'
          ? 'packing'
          : 'other'
    return { id: p.item.id, kind, z0: p.z0, z1: p.z1, ...heights([p.footprint]) }
  })
  boxes.push(...pieces.filter((p) => p.kind === 'packing'))
  for (const { body, regions, z0: back, z1: face } of mounted.bodies) {
    if (regions.length === 0) continue
    boxes.push({
      id: body.id,
      kind: body.effect === 'adds' ? 'body' : 'pocket',
      z0: back,
      z1: face,
      ...heights(regions.map((r) => r.outline)),
    })
  }
  for (const b of mounted.bores)
    boxes.push({
      id: b.bore.id,
      kind: 'bore',
      z0: b.z0,
      z1: b.z1,
      y0: b.centre.y - b.bore.diameter / 2,
      y1: b.centre.y + b.bore.diameter / 2,
    })
  boxes.push(...pieces.filter((p) => p.kind !== 'packing'))
  const top = Math.max(rim, ...boxes.map((b) => b.y1)) * 1.05
  return { boxes, z0, z1, y0, y1: top }
}
