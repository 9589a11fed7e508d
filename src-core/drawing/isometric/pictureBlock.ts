/** The isometric picture, and views square to what the part stands on, as blocks among the lists. Sheet mm. */
import type { Hardware } from '../../job/schema.ts'
import { carries, seatShelf, shelfUnder } from '../../mounting/shelf.ts'
import type { Mounted } from '../../mounting/types.ts'
import type { Block, Laid } from '../sheet/flow.ts'
import type { LayerName, PlainPrimitive, Primitive } from '../model/model.ts'
import { polyline, text } from '../model/primitives.ts'
import { InkMap, type Bounds } from '../placing/inkMap.ts'
import { placeLabels } from '../placing/placeLabels.ts'
import { BALLOON_RADIUS, balloonCandidates } from '../views/callouts.ts'
import { plain } from '../../units/format.ts'
import type { Point } from '../../geometry/types.ts'
import { LETTERING } from '../text/lettering.ts'
import { fitText, textWidth } from '../text/textWidth.ts'
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
  block(setupPicture(mounted), 'Isometric', "operator's side, not to scale", small)

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
            'seen square, plate below, not to scale',
            true,
            numbersOf(mounted),
          ),
        ]
      : [],
  )

/** Numbers in the list of hardware, by id. */
const numbersOf = ({ pieces }: Mounted): ReadonlyMap<string, number> =>
  new Map(pieces.map(({ item }, i) => [item.id, i + 1]))

/** @param numbers of pieces that are named by balloons, where those find room. */
function block(
  picture: Picture,
  title: string,
  from: string,
  small: boolean,
  numbers: ReadonlyMap<string, number> = new Map(),
): Block {
  // An id may be of any length.
  const name = fitText(title, LETTERING.read, LEAST - 3 - textWidth(from, LETTERING.note), true)
  const fromAt = textWidth(name, LETTERING.read, true) + 3
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
        draw: ({ x, y }) => {
          const map = (p: Point): Point => ({
            x: x + (p.x - x0) * scale,
            y: y - HEAD - (y1 - p.y) * scale,
          })
          const lines = picture.lines(scale).map(({ of, points }) => polyline(LAYERS[of], points.map(map)))
          const ground = { x0: x, x1: x + wide * scale, y0: y - HEAD - tall * scale, y1: y - HEAD }
          const spots = numbers.size > 0 ? [...picture.spots(scale)] : []
          const numbered = spots.map(([id, at]) => ({ number: numbers.get(id)!, at: map(at) }))
          return [
            text({ x, y: y - LETTERING.read }, name, LETTERING.read, { bold: true }),
            text({ x: x + fromAt, y: y - LETTERING.read }, from, LETTERING.note),
            ...lines,
            ...balloons(numbered, lines, ground),
          ]
        },
      }
    },
  }
}

/** From one place for a balloon to the next, mm. */
const GRID = 3
/** Least of a leader, mm. */
const LEADER = 4

/** Item numbers on ground that the picture leaves free; those without room are left out, the front view has them. */
function balloons(
  numbered: readonly { readonly number: number; readonly at: Point }[],
  lines: readonly PlainPrimitive[],
  ground: Bounds,
): readonly Primitive[] {
  const ink = new InkMap(ground)
  ink.addLines(lines)
  const places: Point[] = []
  for (let x = ground.x0 + GRID; x < ground.x1; x += GRID)
    for (let y = ground.y0 + GRID; y < ground.y1; y += GRID) places.push({ x, y })
  const centre = { x: (ground.x0 + ground.x1) / 2, y: (ground.y0 + ground.y1) / 2 }
  const labels = numbered.map(({ number, at }) => ({
    id: plain(number, 0),
    candidates: balloonCandidates({
      numbers: [number],
      targets: [at],
      centre,
      distances: [],
      places: places.filter((p) => Math.hypot(p.x - at.x, p.y - at.y) > BALLOON_RADIUS + LEADER),
      polar: null,
    }),
  }))
  return placeLabels(labels, ink).primitives
}
