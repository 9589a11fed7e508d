/** Titles of the views, and what their marks mean. */
import { isCounterweight } from '../../job/schema.ts'
import type { Point } from '../../geometry/types.ts'
import type { Mounted } from '../../mounting/types.ts'
import { LETTERING } from '../text/lettering.ts'
import type { PlainPrimitive } from '../model/model.ts'
import { circle, text } from '../model/primitives.ts'
import { indexMark, noseMark, openCentre, quarteredDisc } from '../views/symbols.ts'
import { fitText, textWidth } from '../text/textWidth.ts'
import { pilesOf } from '../views/piles.ts'
import { noses } from '../views/view.ts'

const ROW = 4.4
const TITLE = 4.6
const R = 1.5

type Marked = Pick<Mounted, 'job' | 'pieces'>

interface Entry {
  readonly words: string
  readonly mark: (at: Point) => PlainPrimitive[]
}

/** Legend entries broken into rows no wider than `width`. */
function legendRows({ job, pieces }: Marked, width: number): Entry[][] {
  const entries: Entry[] = [
    { words: 'centre of mass as set up', mark: (p) => quarteredDisc(p, R) },
    ...(pieces.some((p) => isCounterweight(p.item))
      ? [{ words: 'before counterweights', mark: (p: Point) => openCentre(p, R) }]
      : []),
    {
      words: `${job.plate.slots.length > 0 ? 'index slot' : 'index'}; angles counter-clockwise from it`,
      mark: (p) => [indexMark({ x: p.x - 2, y: p.y }, 0)],
    },
    ...(noses({ pieces }).length > 0
      ? [{ words: 'clamp bears here', mark: (p: Point) => [noseMark(p)] }]
      : []),
    ...(pilesOf(pieces).some((under) => under !== null && under.length > 0)
      ? [{ words: 'a pile: at the leader the uppermost', mark: pileMark }]
      : []),
    {
      words: 'tightest clearance',
      mark: (p) => [circle('caution', p, R), circle('caution', p, 0.5, 'solid')],
    },
  ]
  const rows: Entry[][] = []
  let used = Infinity
  for (const entry of entries) {
    const wide = entryWidth(entry)
    if (used + wide > width) {
      rows.push([])
      used = 0
    }
    rows.at(-1)!.push(entry)
    used += wide
  }
  return rows
}

const pileMark = (p: Point): PlainPrimitive[] => [
  circle('outline-thin', { x: p.x - 1, y: p.y }, 1),
  circle('outline-thin', { x: p.x + 1, y: p.y }, 1),
]

const entryWidth = ({ words }: Entry): number => textWidth(words, LETTERING.note) + 10

/** Height of the view titles and the legend under them, mm. */
export const captionsHeight = (marked: Marked, width: number): number =>
  TITLE + legendRows(marked, width).length * ROW

/** The legend, its first row under the view titles; `at` is the upper left corner of the captions. */
export function legend(marked: Marked, at: Point, width: number): PlainPrimitive[] {
  return legendRows(marked, width).flatMap((row, i) => {
    let x = at.x
    const y = at.y - TITLE - i * ROW - LETTERING.note
    return row.flatMap((entry) => {
      const here = x
      x += entryWidth(entry)
      return [
        ...entry.mark({ x: here + R, y: y + LETTERING.note / 2 }),
        text({ x: here + 5, y }, entry.words, LETTERING.note),
      ]
    })
  })
}

/** A view's title, centred about `at`, the middle of the captions' upper edge, but kept within x0 to x1. */
export function viewTitle(at: Point, words: string, x0: number, x1: number): PlainPrimitive {
  const shown = fitText(words, LETTERING.note, x1 - x0, true)
  const half = textWidth(shown, LETTERING.note, true) / 2
  const x = Math.max(x0 + half, Math.min(x1 - half, at.x))
  return text({ x, y: at.y - LETTERING.note }, shown, LETTERING.note, { anchor: 'middle', bold: true })
}
