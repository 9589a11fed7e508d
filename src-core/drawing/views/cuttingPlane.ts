/**
 * Where the section is cut: the ends of the plane's line wide, arrows the way one looks, letters beside them
 * (ISO 128-3; the letters stand larger than dimensions do). Sheet mm.
 */
import type { Point } from '../../geometry/types.ts'
import { noteCandidates } from './callouts.ts'
import type { FrontLines } from './frontLines.ts'
import type { PlainPrimitive } from '../model/model.ts'
import { arrowhead, line } from '../model/primitives.ts'
import type { Label } from '../placing/placeLabels.ts'
import { LETTERING } from '../text/lettering.ts'
import { bedIsShown, bedRadius, type ViewInput } from './view.ts'

export const SECTION_LETTER = 'A'
/** From the swing circle or the bed to the line's end, the length of that end, and of the arrow. */
const OFF = 1.5
const END = 5
const ARROW = 6

interface Ends {
  /** Outer ends of the line, upper and lower, and which way is out. */
  readonly at: Point
  readonly out: 1 | -1
}

function ends({ job, analysis, origin, scale }: ViewInput, { swing }: FrontLines): Ends[] {
  const bed = bedIsShown(job, analysis) ? bedRadius(job).radius * scale : Infinity
  // Under a bed that comes too near.
  const low = bed - swing < OFF + END + 2 ? bed + 2 : swing
  return [
    { at: { x: origin.x, y: origin.y + swing + OFF + END }, out: 1 },
    { at: { x: origin.x, y: origin.y - low - OFF - END }, out: -1 },
  ]
}

export const cuttingPlane = (input: ViewInput, lines: FrontLines): PlainPrimitive[] =>
  ends(input, lines).flatMap(({ at, out }) => {
    const tip = { x: at.x + ARROW, y: at.y }
    return [
      line('outline', { x: at.x, y: at.y - out * END }, at),
      line('outline-thin', at, tip),
      arrowhead('outline-thin', tip, 0, 3),
    ]
  })

export const cuttingLetters = (input: ViewInput, lines: FrontLines): Label[] =>
  ends(input, lines).map(({ at, out }, i) => ({
    id: `section letter ${i + 1}`,
    words: `the letter ${SECTION_LETTER} of the section`,
    candidates: [LETTERING.head, LETTERING.read].flatMap((height, k) =>
      noteCandidates({
        lines: [SECTION_LETTER],
        height,
        bold: true,
        target: null,
        places: [
          { x: ARROW / 2 + 0.5, y: out * 4 },
          { x: -4, y: 0 },
          { x: ARROW + 4, y: 0 },
          { x: -4, y: out * 4 },
          { x: ARROW + 4, y: out * 4 },
          { x: ARROW + 4, y: -out * 4 },
          { x: -5, y: -out * 4 },
          { x: ARROW / 2 + 0.5, y: -out * 3.2 },
          { x: -8, y: 0 },
          { x: ARROW + 8, y: 0 },
        ].map((off, i) => ({ at: { x: at.x + off.x, y: at.y + off.y }, cost: i / 2 + 8 * k })),
      }),
    ),
  }))
