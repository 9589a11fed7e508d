/** The setup seen from the front of the lathe: headstock left, tailstock right, z along and y up. mm. */
import { carriageRows, crossSlideReach } from '../../src-core/clearance/carriage.ts'
import { edgesBox, ringEdges } from '../../src-core/geometry/edges.ts'
import { boxOf } from '../../src-core/geometry/polygonBox.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import { bodiesSeen, solidOutline, UP } from '../editor/sideFrame.ts'
import { isClamp, isCounterweight, liesAcross } from '../../src-core/job/schema.ts'
import type { Mounted, MountedPiece, MountedSolid, SolidRole } from '../../src-core/mounting/types.ts'
import { offToes } from '../scene/offToes.ts'

export interface SideBox {
  /** Of the piece or body, which is chosen with it. */
  readonly id: string
  readonly key: string
  readonly kind:
    | 'plate'
    | 'nose'
    | 'body'
    | 'pocket'
    | 'packing'
    | 'clamp'
    | 'strap-off'
    | 'heel'
    | 'stud'
    | 'nut'
    | 'counterweight'
    | 'other'
    | 'bore'
    | 'bed'
    | 'cross-slide'
  readonly z0: number
  readonly z1: number
  readonly y0: number
  readonly y1: number
  /** What is seen of it, x along z; left out: all of the box. */
  readonly outlines?: readonly (readonly Point[])[]
}

export interface SideScene {
  readonly boxes: readonly SideBox[]
  readonly z0: number
  readonly z1: number
  readonly y0: number
  readonly y1: number
}

/** A solid at its true heights, as wide as its outline is from top to bottom; one that lies by its own outline. */
function sideSolid(mounted: Mounted, piece: MountedPiece, solid: MountedSolid, i: number): SideBox {
  const { id } = piece.item
  const { y0, y1 } = edgesBox(ringEdges(solid.ring))
  return {
    id,
    key: `${id}:${i}`,
    kind: kindOf(mounted, piece, solid.role),
    z0: solid.z0,
    z1: solid.z1,
    y0,
    y1,
    ...(solid.lies ? { outlines: [solidOutline(solid, UP)] } : {}),
  }
}

function kindOf(mounted: Mounted, { item }: MountedPiece, role: SolidRole): SideBox['kind'] {
  switch (role) {
    case 'strap':
      return offToes(mounted).has(item.id) ? 'strap-off' : 'clamp'
    case 'heel':
    case 'stud':
    case 'nut':
    case 'packing':
      return role
    case 'fixture':
      return 'packing'
    case 'washer':
      return 'nut'
    case 'weight':
      return 'counterweight'
    case 'block':
    case 'twin':
    case 'dowel':
      return isClamp(item) ? 'clamp' : isCounterweight(item) ? 'counterweight' : 'other'
  }
}

export function sideScene(mounted: Mounted): SideScene {
  const { plate, lathe } = mounted.job
  const rim = plate.diameter / 2
  const boxes: SideBox[] = []
  const front = Math.max(mounted.partFront, ...mounted.pieces.flatMap((p) => p.solids.map((s) => s.z1)), 40)
  const z0 = -plate.thickness * 2.6
  const swing = lathe.swingOverBed / 2
  const y0 = -swing - lathe.swingOverBed * 0.09
  const gap = lathe.gap?.open ? lathe.gap : null
  const z1 = Math.max(front * 1.25 + 20, gap ? gap.width + 40 : 0)
  boxes.push({
    id: 'bed',
    key: 'bed',
    kind: 'bed',
    z0: gap ? Math.min(gap.width, z1) : z0,
    z1,
    y0,
    y1: -swing,
  })
  const reach = crossSlideReach(mounted)
  if (reach !== null && reach < z1)
    boxes.push({
      id: 'cross-slide',
      key: 'cross-slide',
      kind: 'cross-slide',
      z0: Math.max(z0, reach),
      z1,
      y0: -swing,
      y1: -lathe.swingOverCrossSlide / 2,
    })
  carriageRows(mounted).forEach((row, i) => {
    if (row.from < z1)
      boxes.push({
        id: 'cross-slide',
        key: `carriage:${i}`,
        kind: 'cross-slide',
        z0: row.from,
        z1,
        y0: -swing,
        y1: -row.radius,
      })
  })
  boxes.push({
    id: 'nose',
    key: 'nose',
    kind: 'nose',
    z0,
    z1: -plate.thickness,
    y0: -Math.max(plate.bore, rim * 0.4) / 1.6,
    y1: Math.max(plate.bore, rim * 0.4) / 1.6,
  })
  boxes.push({ id: 'plate', key: 'plate', kind: 'plate', z0: -plate.thickness, z1: 0, y0: -rim, y1: rim })
  const solids = mounted.pieces.flatMap((p) => p.solids.map((solid, i) => sideSolid(mounted, p, solid, i)))
  boxes.push(...solids.filter((b) => b.kind === 'packing'))
  for (const [i, { mounted: seen, outlines }] of bodiesSeen(mounted, UP).entries()) {
    const { body } = seen
    const box = boxOf(outlines)
    boxes.push({
      id: body.id,
      key: `body:${body.id}:${i}`,
      kind: body.effect === 'adds' ? 'body' : 'pocket',
      z0: box.x0,
      z1: box.x1,
      y0: box.y0,
      y1: box.y1,
      ...(liesAcross(body) ? { outlines } : {}),
    })
  }
  for (const b of mounted.bores)
    boxes.push({
      id: b.bore.id,
      key: `bore:${b.bore.id}`,
      kind: 'bore',
      z0: b.z0,
      z1: b.z1,
      y0: b.centre.y - b.bore.diameter / 2,
      y1: b.centre.y + b.bore.diameter / 2,
    })
  // Straps over heels, nuts over straps.
  boxes.push(...solids.filter((b) => b.kind !== 'packing').sort((a, b) => a.z1 - b.z1))
  const top = Math.max(rim, ...boxes.map((b) => b.y1)) * 1.05
  return { boxes, z0, z1, y0, y1: top }
}
