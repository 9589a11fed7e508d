/** Where the bed is, in words. */
import { capital } from '../../words/capital.ts'
import { noteCandidates } from './callouts.ts'
import type { FrontLines } from './frontLines.ts'
import { LETTERING } from '../text/lettering.ts'
import type { Label } from '../placing/placeLabels.ts'
import { textWidth } from '../text/textWidth.ts'
import { bedIsShown, bedRadius, dimensionText, type ViewInput } from './view.ts'

/** Names the bed under its line. */
export function bedLabel({ job, analysis, scale, origin }: ViewInput, { swing }: FrontLines): Label[] {
  if (!bedIsShown(job, analysis)) return []
  const { name, radius } = bedRadius(job)
  const half = textWidth(name, LETTERING.note) / 2
  const out = Math.max(0, swing + 8 - half)
  const below = radius * scale + 4.5
  const places = [out, -out, out / 2, -out / 2, 0, swing + 12 + half, -swing - 12 - half].flatMap((x, i) =>
    [0, 4, 8].map((down) => ({ at: { x: origin.x + x, y: origin.y - below - down }, cost: down + 1.5 * i })),
  )
  return [
    {
      id: 'bed name',
      words: `the name of the ${name}, the level under the plate`,
      candidates: noteCandidates({ lines: [name], height: LETTERING.note, target: null, places }),
    },
  ]
}

/** Where the bed is, if it is too far down to draw. */
export function bedAside({ job, analysis }: ViewInput): string[] {
  if (bedIsShown(job, analysis)) return []
  const { name, radius } = bedRadius(job)
  return [`${capital(name)} ${dimensionText(job, radius)} below the axis, not drawn.`]
}
