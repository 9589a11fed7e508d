/** Part and hardware as they lie on the plate, lowest first. */
import type { Analysis } from '../../src-core/analysis/result.ts'
import { polar } from '../../src-core/geometry/angles.ts'
import { flattenRing } from '../../src-core/geometry/flatten.ts'
import { boxOf } from '../../src-core/geometry/polygonBox.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import { STANDINGS, standingAt, type Standing } from '../../src-core/findings/finding.ts'
import { pressPoint } from '../../src-core/mounting/press.ts'
import type { HardwareKind } from '../../src-core/job/schema.ts'
import type { Mounted, MountedPiece, MountedSolid, SolidRole } from '../../src-core/mounting/types.ts'
import type { Target } from '../editor/target.ts'
import { drawnBodies } from './drawnBodies.ts'
import type { Emphasis, SceneItem } from './items.ts'
import { offToes } from './offToes.ts'

/** What a piece looks like. */
export const HARDWARE_ROLE: Record<HardwareKind, SceneItem['role']> = {
  clamp: 'clamp',
  press: 'clamp',
  bolt: 'clamp',
  packing: 'packing',
  bracket: 'bracket',
  stop: 'bracket',
  dowel: 'other',
  fixture: 'fixture',
  anglePlate: 'fixture',
  vee: 'fixture',
  twin: 'other',
  other: 'other',
  weight: 'counterweight',
  counterweight: 'counterweight',
}

/** What a solid of it looks like; left out: as the whole. */
export const SOLID_ROLE: Partial<Record<SolidRole, SceneItem['role']>> = {
  heel: 'heel',
  stud: 'bolt',
  nut: 'nut',
  washer: 'nut',
}

export interface Pointed {
  readonly selection: Target | null
  readonly hover: Target | null
}

/** The worst finding about each item. */
export function worstByItem(analysis: Analysis | null): Map<string, Standing> {
  const rank = (standing: Standing) => STANDINGS.indexOf(standing)
  const worst = new Map<string, Standing>()
  for (const f of analysis?.findings ?? []) {
    const before = worst.get(f.item)
    const standing = standingAt(f, analysis?.chosen_rpm ?? null)
    if (before === undefined || rank(standing) < rank(before)) worst.set(f.item, standing)
  }
  return worst
}

export function describeWork(
  mounted: Mounted,
  pointed: Pointed,
  flags: ReadonlyMap<string, Standing>,
): SceneItem[] {
  const pieces = [...mounted.pieces].sort((a, b) => a.z1 - b.z1)
  // Seen from its shelf, a loose block with the part in it lies below that.
  const isBelow = ({ item }: MountedPiece) => item.kind === 'fixture' || item.id === mounted.shelf?.block?.id
  const fixtures = pieces.filter(isBelow)
  const packing = pieces.filter((p) => p.item.kind === 'packing')
  const standing = pieces.filter((p) => p.item.kind !== 'packing' && !isBelow(p))
  const under = pieces.flatMap((p) =>
    p.solids.filter((s) => s.role === 'packing' && s.ring !== p.footprint).map((s) => packingItem(p, s)),
  )
  return [
    ...fixtures.flatMap((p) => standingItems(mounted, p, pointed, flags)),
    ...packing.map((p) => pieceItem(p, pointed, flags)),
    ...under,
    ...partItems(mounted, pointed),
    ...under.map((item): SceneItem => ({ ...item, id: `hidden:${item.id}`, role: 'packing-hidden' })),
    ...packing.map((p): SceneItem => ({
      ...pieceItem(p, pointed, flags),
      id: `hidden:${p.item.id}`,
      role: 'packing-hidden',
    })),
    ...standing.flatMap((p) => standingItems(mounted, p, pointed, flags)),
  ]
}

/** The part alone, for drawing on it; `traced`: so that a photograph under it shows through. */
export function describePart(mounted: Mounted, traced: boolean): SceneItem[] {
  const items = partItems(mounted, { selection: null, hover: null })
  if (!traced) return items
  return items.map((item) =>
    item.role === 'part' || item.role === 'pocket' ? { ...item, role: `${item.role}-traced` } : item,
  )
}

function partItems(mounted: Mounted, pointed: Pointed): SceneItem[] {
  const emphasis: Emphasis = {
    selected: pointed.selection?.kind === 'part',
    hovered: pointed.hover?.kind === 'part' || pointed.hover?.kind === 'turn-handle',
  }
  const items = drawnBodies(mounted.bodies).map(({ body, rings }): SceneItem => ({
    id: `body:${body.id}`,
    layer: 'work',
    role: body.effect === 'adds' ? 'part' : 'pocket',
    kind: 'region',
    rings,
    emphasis,
  }))
  for (const { bore, centre, state } of mounted.bores) {
    const circle = (id: string, role: SceneItem['role'], diameter: number): SceneItem => ({
      id: `${id}:${bore.id}`,
      layer: 'work',
      role,
      kind: 'circle',
      centre,
      radius: diameter / 2,
    })
    if (state === 'open') items.push(circle('bore', 'bore-open', bore.diameter))
    else items.push(circle('bore', state === 'to cut' ? 'bore-to-cut' : 'bore-uncut', bore.diameter))
    items.push({
      id: `bore-label:${bore.id}`,
      layer: 'work',
      role: 'tag',
      kind: 'text',
      at: { x: centre.x - bore.diameter * 0.3536, y: centre.y - bore.diameter * 0.3536 },
      offset: { x: -9, y: 9 },
      text: bore.id,
      align: 'centre',
    })
  }
  return items
}

/** Packing that belongs to a clamp. */
const packingItem = (piece: MountedPiece, solid: MountedSolid): SceneItem => ({
  id: `packing:${piece.item.id}`,
  layer: 'work',
  role: 'packing',
  kind: 'region',
  rings: [solid.ring],
})

function pieceItem(piece: MountedPiece, pointed: Pointed, flags: ReadonlyMap<string, Standing>): SceneItem {
  const { id, kind } = piece.item
  const is = (t: Target | null) => (t?.kind === 'piece' || t?.kind === 'nose-handle') && t.id === id
  return {
    id: `piece:${id}`,
    layer: 'work',
    role: HARDWARE_ROLE[kind],
    kind: 'region',
    rings: [piece.footprint, ...(piece.solids.find((s) => s.ring === piece.footprint)?.holes ?? [])],
    emphasis: { selected: is(pointed.selection), hovered: is(pointed.hover), flag: flags.get(id) ?? null },
  }
}

/** A part's frame may have its origin anywhere: a twin is named where it is heaviest. */
const tagAt = (piece: MountedPiece): Point =>
  piece.item.kind === 'fixture' ? besidePart(piece) : piece.item.kind === 'twin' ? piece.massCentre : piece.at

/** Towards the edge of a sub-plate, where its name is not under the part; between its bolts, which stand in slots. */
function besidePart({ at, footprint }: MountedPiece): Point {
  const { x0, x1, y0 } = boxOf([flattenRing(footprint, 1)])
  const out = polar(NAME.out, NAME.angle)
  return { x: at.x + (out.x * (x1 - x0)) / 2, y: at.y + out.y * (at.y - y0) }
}
const NAME = { out: 0.88, angle: -112 }

/** Solids of a piece from the plate up, the largest last of those that end as high. */
function standingItems(
  mounted: Mounted,
  piece: MountedPiece,
  pointed: Pointed,
  flags: ReadonlyMap<string, Standing>,
): SceneItem[] {
  const { id } = piece.item
  const whole = pieceItem(piece, pointed, flags)
  const isOff = offToes(mounted).has(id)
  const seen = piece.solids.filter((s) => s.z1 > 0 && s.role !== 'packing')
  const items = [...seen]
    .sort((a, b) => a.z1 - b.z1)
    .map((solid, i): SceneItem => {
      if (solid.ring === piece.footprint) return isOff ? { ...whole, role: 'strap-off' } : whole
      return {
        id: `solid:${id}:${i}`,
        layer: 'work',
        role: SOLID_ROLE[solid.role] ?? whole.role,
        kind: 'region',
        rings: [solid.ring],
      }
    })
  const nose = piece.toe ? null : pressPoint(piece)
  if (nose)
    items.push({
      id: `strap:${id}`,
      layer: 'work',
      role: 'strap-line',
      kind: 'line',
      points: [piece.at, nose],
    })
  // The opening is drawn where no stud is.
  if (piece.bolt && !seen.some((s) => s.role === 'stud'))
    items.push({
      id: `bolt:${id}`,
      layer: 'work',
      role: 'bolt',
      kind: 'circle',
      centre: piece.at,
      radius: piece.bolt.diameter / 2,
    })
  items.push({
    id: `tag:${id}`,
    layer: 'work',
    role: 'tag',
    kind: 'text',
    at: tagAt(piece),
    text: id,
    offset: { x: 0, y: piece.bolt ? 17 : 0 },
    align: 'centre',
    emphasis: { selected: pointed.selection?.kind === 'piece' && pointed.selection.id === id },
  })
  return items
}
