/** The circle round what a detail shows, and its letter. Sheet mm. */
import { toRadians } from '../../geometry/angles.ts'
import type { PlainPrimitive } from '../model/model.ts'
import { circle } from '../model/primitives.ts'
import type { Label } from '../placing/placeLabels.ts'
import { LETTERING } from '../text/lettering.ts'
import { around, noteCandidates } from './callouts.ts'
import { DETAIL_LETTER, type Detail } from './detail.ts'
import type { FrontLines } from './frontLines.ts'

export const detailCircle = (
  { centre, radius }: Detail,
  { map }: FrontLines,
  scale: number,
): PlainPrimitive => circle('outline-thin', map(centre), radius * scale)

export function detailLetter({ centre, radius }: Detail, { map }: FrontLines, scale: number): Label {
  const middle = map(centre)
  const places = around(
    middle,
    toRadians(45),
    [3, 5, 8, 12, 18, 26].map((d) => radius * scale + d),
  )
  return {
    id: 'detail letter',
    words: `the letter ${DETAIL_LETTER} of the detail`,
    candidates: noteCandidates({
      lines: [DETAIL_LETTER],
      height: LETTERING.head,
      bold: true,
      target: middle,
      short: radius * scale,
      places,
    }),
  }
}
