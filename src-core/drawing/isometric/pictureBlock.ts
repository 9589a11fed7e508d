/** The isometric picture, and views square to what the part stands on, as blocks among the lists. Sheet mm. */
import type { Hardware } from '../../job/schema.ts'
import { carries, seatShelf, shelfUnder } from '../../mounting/shelf.ts'
import type { Mounted } from '../../mounting/types.ts'
import type { Block, Laid } from '../sheet/flow.ts'
import type { LayerName } from '../model/model.ts'
import { polyline, text } from '../model/primitives.ts'
import { LETTERING } from '../text/lettering.ts'
import { textWidth } from '../text/textWidth.ts'
import { setupPicture, type Picture } from './picture.ts'
import { squareTo } from './projection.ts'
import type { Part } from './solids.ts'

/** Least and greatest width and greatest height. */
const LEAST = 90
const MOST = { width: 130, height: 110 }
const HEAD = LETTERING.read + 3
const LAYERS: Readonly<Record<Part, LayerName>> = {
  plate: 'outline-thin',
  part: 'outline',
  piece: 'outline-thin',
}

/** @param small no larger than it must be: for a sheet that would else run over. */
export const pictureBlock = (mounted: Mounted, small = false): Block =>
  block(setupPicture(mounted), 'Isometric', "from the operator's side", small)

/** A shelf with the part and what stands on it, and the plate; what stands elsewhere would be in the way. */
export const shelfPicture = (mounted: Mounted, { item, pose }: NonNullable<Mounted['shelf']>): Picture => {
  const { setup } = mounted
  const stands = (h: Hardware) =>
    h.id === item.id ||
    carries(setup.hardware, item, h.kind === 'bolt' ? seatShelf(setup) : shelfUnder(setup.hardware, h))
  const pieces = mounted.pieces.filter((p) => stands(p.item))
  return setupPicture({ ...mounted, pieces }, squareTo(pose))
}

/** Of each angle plate and vee that something stands on: square to its face, the plate below. */
export const shelfBlocks = (mounted: Mounted): Block[] =>
  (mounted.shelves ?? []).flatMap(({ shelf, pieces }) =>
    // A loose block with nothing on its lands is seen with what it lies on.
    shelf && (!shelf.under || pieces.length > 0)
      ? [
          block(
            shelfPicture(mounted, shelf),
            `On ${shelf.item.id}`,
            'square to its face, the plate below',
            true,
          ),
        ]
      : [],
  )

function block(picture: Picture, title: string, from: string, small: boolean): Block {
  const fromAt = textWidth(title, LETTERING.read, true) + 3
  const { x0, y0, x1, y1 } = picture.box
  const [wide, tall] = [x1 - x0, y1 - y0]
  const most = small ? { width: LEAST, height: LEAST } : MOST
  return {
    width: LEAST,
    lay: (width, room): Laid | null => {
      const scale = Math.min(Math.min(width, most.width) / wide, Math.min(room - HEAD, most.height) / tall)
      // Upright things are narrower than they are high: those count by their height.
      if (!(scale > 0) || Math.max(wide, tall) * scale < LEAST - 1e-6) return null
      return {
        height: HEAD + tall * scale,
        width: Math.max(wide * scale, fromAt + textWidth(from, LETTERING.note)),
        rest: null,
        draw: ({ x, y }) => [
          text({ x, y: y - LETTERING.read }, title, LETTERING.read, { bold: true }),
          text({ x: x + fromAt, y: y - LETTERING.read }, from, LETTERING.note),
          ...picture.lines(scale).map(({ of, points }) =>
            polyline(
              LAYERS[of],
              points.map((p) => ({ x: x + (p.x - x0) * scale, y: y - HEAD - (y1 - p.y) * scale })),
            ),
          ),
        ],
      }
    },
  }
}
