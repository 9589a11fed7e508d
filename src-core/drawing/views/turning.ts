/** Which way the work comes round when the spindle runs forward, and on which side one stands. */
import { onCircle, toRadians } from '../../geometry/angles.ts'
import type { Point } from '../../geometry/types.ts'
import type { Primitive } from '../model/model.ts'
import { arrowhead, text } from '../model/primitives.ts'
import type { Label } from '../placing/placeLabels.ts'
import type { Candidate } from '../placing/option.ts'
import { quad } from '../placing/quad.ts'
import { LETTERING } from '../text/lettering.ts'
import { textWidth } from '../text/textWidth.ts'
import { around, noteCandidates } from './callouts.ts'
import type { FrontLines } from './frontLines.ts'
import type { ViewInput } from './view.ts'

/** mm on the sheet: length of the arrow's arc, and of its head. */
const LONG = 24
const HEAD = 3.5
/** Pieces of the arc, each with its own ground. */
const PIECES = 4
/** From the circle that everything sweeps, mm. */
const RINGS = [5, 8, 12, 17]
const WORD = 'forward'

/** Headstock behind the plate, operator at the left: seen so, forward is counter-clockwise and the top comes down to them. */
export function turningLabels({ origin }: ViewInput, { swing }: FrontLines): Label[] {
  const half = textWidth(OPERATOR, LETTERING.note, true) / 2
  const left = around(
    origin,
    Math.PI,
    [4, 8, 13, 19, 27].map((d) => swing + d),
  )
  return [
    {
      id: 'forward',
      words: 'the arrow of turning: forward is counter-clockwise, seen from the tailstock',
      candidates: [135, 45, 225, 315].flatMap((home, i) =>
        [0, 7, -7, 14, -14, 22, -22].flatMap((turn) =>
          RINGS.map((d, k) =>
            turningArrow(origin, swing + d, home + turn, 3 * i + 1.5 * k + Math.abs(turn) / 8),
          ),
        ),
      ),
    },
    {
      id: 'operator',
      words: 'the operator, who stands at the left',
      candidates: noteCandidates({
        lines: [OPERATOR],
        height: LETTERING.note,
        bold: true,
        target: null,
        places: left.map(({ at, direction, cost }) => ({
          at: { x: at.x + Math.cos(direction) * half, y: at.y },
          cost,
        })),
      }),
    },
  ]
}

const OPERATOR = "operator's side"

/** An arc about the axis, its middle at `degrees`, with its head where it runs to and its word outside. */
function turningArrow(centre: Point, radius: number, degrees: number, cost: number): Candidate {
  const middle = toRadians(degrees)
  const half = LONG / 2 / radius
  const at = (direction: number): Point => onCircle(centre, radius, direction)
  const height = LETTERING.note
  const width = textWidth(WORD, height, true)
  const word = onCircle(centre, radius + 3.5, middle)
  const beside = { x: word.x + (Math.cos(middle) * width) / 2, y: word.y }
  const grounds = Array.from({ length: PIECES }, (_, i) => {
    const direction = middle - half + ((i + 0.5) * 2 * half) / PIECES
    return quad(at(direction), LONG / PIECES, 2, direction + Math.PI / 2)
  })
  const tip = middle + half
  const draw = (): Primitive[] => [
    {
      kind: 'path',
      layer: 'mark',
      steps: [
        { to: 'move', ...at(middle - half) },
        { to: 'arc', ...at(tip - HEAD / 2 / radius), bulge: Math.tan((2 * half - HEAD / 2 / radius) / 4) },
      ],
    },
    // Along the chord of the head, so that it sits on the arc.
    arrowhead('mark', at(tip), tip + Math.PI / 2 - HEAD / 2 / radius, HEAD),
    text({ x: beside.x, y: beside.y - height / 2 }, WORD, height, { anchor: 'middle', bold: true }),
  ]
  return { quads: [...grounds, quad(beside, width, height)], lines: [], cost, draw }
}
