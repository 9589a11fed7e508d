/** The setup from its side, as it is worked on there: what stands on a shelf lies before one edge on. */
import { carriageRows, crossSlideReach } from '../../src-core/clearance/carriage.ts'
import type { Standing } from '../../src-core/findings/finding.ts'
import { boxOf } from '../../src-core/geometry/polygonBox.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import { partStand } from '../../src-core/holding/stand.ts'
import { isShelf } from '../../src-core/job/schema.ts'
import { shelfSize } from '../../src-core/mounting/shelfSize.ts'
import type { Mounted, MountedPiece } from '../../src-core/mounting/types.ts'
import type { Extent } from '../editor/camera.ts'
import { bodiesSeen, heightOf, rect, sideUp, solidOutline, UP } from '../editor/sideFrame.ts'
import type { Guide } from '../editor/target.ts'
import { drawnBodies } from './drawnBodies.ts'
import { describeGuide } from './guide.ts'
import { lineItem } from './lineItem.ts'
import type { SceneItem } from './items.ts'
import { HARDWARE_ROLE, SOLID_ROLE, type Pointed } from './work.ts'

const region = (
  id: string,
  layer: SceneItem['layer'],
  role: SceneItem['role'],
  rings: readonly Point[][],
): SceneItem => ({ id, layer, role, kind: 'region', rings })

/** mm that are shown: plate and nose, and what stands before them. */
export function sideExtent(mounted: Mounted): Extent {
  const { plate } = mounted.job
  const rim = plate.diameter / 2
  const solids = mounted.pieces.flatMap((p) => p.solids)
  const front = Math.max(mounted.partFront, ...solids.map((s) => s.z1), plate.diameter / 4)
  return { x0: -2 * plate.thickness, x1: front * 1.15 + 10, y0: -rim * 1.05, y1: rim * 1.05 }
}

/** Plate and nose; where it is seen from the front of the lathe bed and carriage too. */
export function describeSideMachine(mounted: Mounted): SceneItem[] {
  const { plate, lathe } = mounted.job
  const rim = plate.diameter / 2
  const nose = Math.max(plate.bore, rim * 0.4) / 1.6
  const items = [
    region('nose', 'machine', 'bracket', [rect(-2.6 * plate.thickness, -plate.thickness, -nose, nose)]),
    region('plate-side', 'machine', 'fixture', [rect(-plate.thickness, 0, -rim, rim)]),
  ]
  if (sideUp(mounted.setup) !== UP) return items
  const swing = lathe.swingOverBed / 2
  const { x1 } = sideExtent(mounted)
  const end = x1 * 1.3 + 60
  const gap = lathe.gap?.open ? lathe.gap : null
  items.push(
    region('bed', 'machine', 'bed', [
      rect(gap ? gap.width : -2.6 * plate.thickness, end, -swing * 1.18, -swing),
    ]),
  )
  const reach = crossSlideReach(mounted)
  if (reach !== null)
    items.push(
      region('cross-slide', 'machine', 'cross-slide', [
        rect(reach, Math.max(reach + 10, end), -swing, -lathe.swingOverCrossSlide / 2),
      ]),
    )
  carriageRows(mounted).forEach((row, i) =>
    items.push(
      region(`carriage:${i}`, 'machine', 'cross-slide', [
        rect(row.from, Math.max(row.from + 10, end), -swing, -row.radius),
      ]),
    ),
  )
  return items
}

export function describeSideWork(
  mounted: Mounted,
  pointed: Pointed,
  flags: ReadonlyMap<string, Standing>,
): SceneItem[] {
  const up = sideUp(mounted.setup)
  const chosen = (kind: 'part' | 'piece', id: string | null) => {
    const is = (t: Pointed['selection']) => t?.kind === kind && (id === null || ('id' in t && t.id === id))
    return {
      selected: is(pointed.selection),
      hovered: is(pointed.hover),
      flag: id === null ? null : (flags.get(id) ?? null),
    }
  }
  const seen = mounted.pieces.map((piece) => ({
    piece,
    outlines: piece.solids.map((solid) => solidOutline(solid, up)),
  }))
  const pieces = seen.flatMap(({ piece, outlines }) => {
    const { id, kind } = piece.item
    const main = Math.max(
      0,
      piece.solids.findIndex((s) => s.ring === piece.footprint),
    )
    return piece.solids.map((solid, i) => ({
      under: isShelf(piece.item) || kind === 'fixture' || solid.role === 'packing',
      top: solid.z1,
      item: {
        ...region(`side:${id}:${i}`, 'work', SOLID_ROLE[solid.role] ?? HARDWARE_ROLE[kind], [outlines[i]!]),
        ...(i === main || isShelf(piece.item) ? { emphasis: chosen('piece', id) } : {}),
      } as SceneItem,
    }))
  })
  // Each body as one outline, whatever pieces it is mounted as.
  const outlined = bodiesSeen(mounted, up).flatMap(({ mounted: b, outlines }) =>
    outlines.map((outline) => ({ ...b, regions: [{ outline, holes: [] }] })),
  )
  const bodies = drawnBodies(outlined).map(({ body, rings }): SceneItem => ({
    id: `side-body:${body.id}`,
    layer: 'work',
    role: body.effect === 'adds' ? 'part' : 'pocket',
    kind: 'region',
    rings,
    emphasis: chosen('part', null),
  }))
  const bores = mounted.bores.map((b): SceneItem => {
    const y = heightOf(b.centre, up)
    const r = b.bore.diameter / 2
    return region(`side-bore:${b.bore.id}`, 'work', 'pocket', [rect(b.z0, b.z1, y - r, y + r)])
  })
  const byTop = [...pieces].sort((a, b) => a.top - b.top)
  return [
    ...byTop.filter((p) => p.under).map((p) => p.item),
    ...bodies,
    ...bores,
    ...byTop.filter((p) => !p.under).map((p) => p.item),
    ...seen.map(({ piece, outlines }) => tag(piece, outlines, pointed)),
  ]
}

function tag({ item }: MountedPiece, outlines: readonly Point[][], { selection }: Pointed): SceneItem {
  const { id } = item
  const { x0, x1, y0, y1 } = boxOf(outlines)
  const low = isShelf(item) || outlines.length === 0
  return {
    id: `side-tag:${id}`,
    layer: 'work',
    role: 'tag',
    kind: 'text',
    at: { x: (Math.max(0, x0) + x1) / 2, y: low ? y0 : y1 },
    offset: { x: 0, y: low ? -14 : -11 },
    text: id,
    align: 'centre',
    emphasis: { selected: selection?.kind === 'piece' && selection.id === id },
  }
}

/** Axis, the size from shelf to axis, and what a drag says. */
export function describeSideOverlay(
  mounted: Mounted,
  guide: Guide | null,
  words: (mm: number) => string,
): SceneItem[] {
  const { x0, x1 } = sideExtent(mounted)
  const items: SceneItem[] = [lineItem('side-axis', 'axis', { x: x0 * 1.3, y: 0 }, { x: x1 * 1.05, y: 0 })]
  const view = partStand(mounted)
  const size = shelfSize(view)
  if (view.shelf && size) {
    const at = view.shelf.item.size[2] * 0.9
    items.push(lineItem('side-size', 'guide', { x: at, y: 0 }, { x: at, y: -size.stands }), {
      id: 'side-size-text',
      layer: 'overlay',
      role: 'guide-text',
      kind: 'text',
      at: { x: at, y: -size.stands / 2 },
      text: words(size.stands),
      offset: { x: 8, y: 4 },
      align: 'left',
    })
  }
  return [...items, ...describeGuide(guide, 24)]
}
