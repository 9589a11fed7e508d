/** Titles of the views, and what their marks mean. */
import type { Point } from '../geometry/types.ts'
import type { Job } from '../job/schema.ts'
import { LETTERING } from './lettering.ts'
import type { Primitive } from './model.ts'
import { circle, text } from './primitives.ts'
import { indexMark, openCentre, quarteredDisc } from './symbols.ts'
import { fitText, textWidth } from './textWidth.ts'

const ROW = 4.6
const R = 1.5

interface Entry {
  readonly words: string
  readonly mark: (at: Point) => Primitive[]
}

/** The legend in rows under `at`, as wide as there is room; then, at the right of the last row, what had no room. */
export function legend(job: Job, at: Point, width: number, unplaced: readonly string[]): Primitive[] {
  const entries: Entry[] = [
    { words: 'centre of mass as set up', mark: (p) => quarteredDisc(p, R) },
    { words: 'before counterweights', mark: (p) => openCentre(p, R) },
    ...(job.plate.slots.length > 0
      ? [{ words: 'index slot', mark: (p: Point) => [indexMark({ x: p.x - 2, y: p.y }, 0)] }]
      : []),
    {
      words: 'tightest clearance',
      mark: (p) => [circle('caution', p, R), circle('caution', p, 0.5, 'solid')],
    },
    ...(unplaced.length > 0 ? [{ words: `no room to label: ${unplaced.join(', ')}`, mark: () => [] }] : []),
  ]
  const out: Primitive[] = []
  let x = at.x
  let y = at.y
  for (const { words, mark } of entries) {
    const shown = fitText(words, LETTERING.note, width - 6)
    const wide = textWidth(shown, LETTERING.note) + 10
    if (x > at.x && x + wide > at.x + width) {
      x = at.x
      y -= ROW
    }
    out.push(...mark({ x: x + R, y: y + LETTERING.note / 2 }))
    out.push(text({ x: x + 5, y }, shown, LETTERING.note))
    x += wide
  }
  return out
}

/** A view's title, centred over a point. */
export const viewTitle = (at: Point, words: string, width: number): Primitive =>
  text(at, fitText(words, LETTERING.note, width, true), LETTERING.note, { anchor: 'middle', bold: true })
