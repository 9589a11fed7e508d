/** The enlarged detail as a block among the lists, its letter and scale over it. Sheet mm. */
import type { Primitive } from '../model/model.ts'
import { movedPrimitive } from '../model/moved.ts'
import { text } from '../model/primitives.ts'
import { LETTERING } from '../text/lettering.ts'
import { DETAIL_LETTER, type Detail } from '../views/detail.ts'
import { detailSide, type DrawnDetail } from '../views/detailView.ts'
import type { Block, Laid } from './flow.ts'
import { scaleText } from './sheetSizes.ts'

const HEAD = LETTERING.head + 2

/** @param draw asked for when the block is drawn, and not before */
export function detailBlock(detail: Detail, draw: () => DrawnDetail): Block {
  const side = detailSide(detail)
  const title = `${DETAIL_LETTER} (${scaleText(detail.scale)})`
  return {
    width: side,
    fullWidth: side,
    lay: (width, room): Laid | null => {
      if (HEAD + side > room || side > width + 1e-6) return null
      return {
        height: HEAD + side,
        width: side,
        rest: null,
        draw: ({ x, y }): Primitive[] => {
          const { lines, labels } = draw()
          const move = { factor: 1, by: { x, y: y - HEAD - side } }
          return [
            text({ x: x + side / 2, y: y - LETTERING.head }, title, LETTERING.head, {
              anchor: 'middle',
              bold: true,
            }),
            ...[...lines, ...labels].map((p) => movedPrimitive(p, move)),
          ]
        },
      }
    },
  }
}
