/** The isometric picture as a block among the lists. Sheet mm. */
import type { Mounted } from '../../mounting/types.ts'
import type { Block, Laid } from '../sheet/flow.ts'
import type { LayerName } from '../model/model.ts'
import { polyline, text } from '../model/primitives.ts'
import { LETTERING } from '../text/lettering.ts'
import { textWidth } from '../text/textWidth.ts'
import { setupPicture } from './picture.ts'
import type { Part } from './solids.ts'

/** Least and greatest width and greatest height. */
const LEAST = 90
const MOST = { width: 130, height: 110 }
const HEAD = LETTERING.read + 3
const TITLE = 'Isometric'
const FROM = "from the operator's side"
const FROM_AT = textWidth(TITLE, LETTERING.read, true) + 3

const LAYERS: Readonly<Record<Part, LayerName>> = {
  plate: 'outline-thin',
  part: 'outline',
  piece: 'outline-thin',
}

/** @param small no larger than it must be: for a sheet that would else run over. */
export function pictureBlock(mounted: Mounted, small = false): Block {
  const picture = setupPicture(mounted)
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
        width: Math.max(wide * scale, FROM_AT + textWidth(FROM, LETTERING.note)),
        rest: null,
        draw: ({ x, y }) => [
          text({ x, y: y - LETTERING.read }, TITLE, LETTERING.read, { bold: true }),
          text({ x: x + FROM_AT, y: y - LETTERING.read }, FROM, LETTERING.note),
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
