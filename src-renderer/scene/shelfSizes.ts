/** Sizes in the view square to a shelf: how far out the part stands, and where the chosen piece does, along and out. */
import { boxAround } from '../../src-core/geometry/polygonBox.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'
import { ringBox } from '../editor/draw/rings.ts'
import type { Guide, Target } from '../editor/target.ts'
import { describeGuide } from './guide.ts'
import { lineItem } from './lineItem.ts'
import type { SceneItem } from './items.ts'

/** mm: shorter ones are no sizes to be told. */
const LEAST = 0.01
/** px that words stand beside their line. */
const BESIDE = 8

/** @param view the setup as it looks from the shelf. @param length as the job's units say it. */
export function describeShelfSizes(
  view: Mounted,
  selection: Target | null,
  guide: Guide | null,
  length: (mm: number) => string,
): SceneItem[] {
  if (!view.shelf) return []
  const [, , out] = view.shelf.item.size
  const middle = lineItem('shelf-middle', 'axis', { x: 0, y: 0 }, { x: 0, y: 1.15 * out })
  const piece = selection?.kind === 'piece' ? view.pieces.find((p) => p.item.id === selection.id) : undefined
  const sizes = piece
    ? [
        ...size('along', { x: 0, y: piece.at.y }, piece.at, length),
        ...size('out', { x: piece.at.x, y: 0 }, piece.at, length),
      ]
    : standOff(view, length)
  // What a drag says stands where the chosen piece is: both would hide each other.
  return [middle, ...(guide ? [] : sizes), ...describeGuide(guide, 30)]
}

/** Of the part's back from the plate, beside it. */
function standOff({ bodies, shelf }: Mounted, length: (mm: number) => string): SceneItem[] {
  const rings = bodies.filter((b) => b.body.effect === 'adds').flatMap((b) => b.regions.map((r) => r.outline))
  if (!shelf?.carriesPart || rings.length === 0) return []
  const { x1, y0 } = boxAround(rings.map(ringBox))
  return size('stand-off', { x: x1, y: 0 }, { x: x1, y: y0 }, length)
}

function size(id: string, from: Point, to: Point, length: (mm: number) => string): SceneItem[] {
  const mm = Math.hypot(to.x - from.x, to.y - from.y)
  if (mm < LEAST) return []
  const isFlat = from.y === to.y
  return [
    lineItem(`shelf-size:${id}`, 'guide', from, to),
    {
      id: `shelf-size-text:${id}`,
      layer: 'overlay',
      role: 'guide-text',
      kind: 'text',
      at: { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 },
      offset: isFlat ? { x: 0, y: -BESIDE } : { x: BESIDE, y: 4 },
      align: isFlat ? 'centre' : 'left',
      text: length(mm),
    },
  ]
}
