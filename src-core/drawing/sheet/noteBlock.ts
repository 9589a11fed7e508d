/** Notes as a block: a heading and wrapped lines, with boxes to tick where they are checks. */
import type { Point } from '../../geometry/types.ts'
import { NARROWEST, type Block, type Laid } from './flow.ts'
import { remembered } from '../text/remembered.ts'
import { LETTERING } from '../text/lettering.ts'
import type { Primitive } from '../model/model.ts'
import { box, text } from '../model/primitives.ts'
import { breakText, fitText, textWidth, wrapText } from '../text/textWidth.ts'

export interface Notes {
  readonly title: string
  readonly lines: readonly string[]
  /** Each line starts with an empty box to tick. */
  readonly ticks?: boolean
  readonly caution?: boolean
  /** Begun on the first sheet whatever its length. */
  readonly breaks?: boolean
  /** May be broken between two regions of a sheet that follows. */
  readonly splits?: boolean
  /** Notes that began on the sheet before. */
  readonly goesOn?: readonly boolean[]
  /** Capital height of the lines; `note` where not given. */
  readonly height?: number
}

/** Widest a line is set, for the eye to find the next. */
const WIDEST = 170
const TITLE_LEADING = LETTERING.read * 1.5
const TICK = 2.7
const INDENT = 4.6
const CONTINUED = ', continued'

interface Line {
  readonly text: string
  /** First of its note: it has the box to tick. */
  readonly first: boolean
  readonly note: number
  readonly width: number
}

export function noteBlock(notes: Notes): Block {
  const height = notes.height ?? LETTERING.note
  const leading = height * 1.5
  const indent = notes.ticks ? INDENT : 0
  const gap = notes.ticks ? 0.9 : 0.6
  const titleIn = remembered((width) => breakText(notes.title, LETTERING.read, width, true))
  const linesIn = remembered((width) =>
    notes.lines.flatMap((content, note) =>
      breakText(content, height, width).map((text, i): Line => ({
        text,
        first: i === 0 && !notes.goesOn?.[note],
        note,
        width: textWidth(text, height),
      })),
    ),
  )
  return {
    width: NARROWEST,
    breaks: notes.breaks ?? false,
    splits: notes.splits ?? false,
    lay: (available, room): Laid | null => {
      const widest = Math.min(available, WIDEST)
      const title = titleIn(widest)
      const lines = linesIn(widest - indent)
      const head = LETTERING.read + 1 + (title.length - 1) * TITLE_LEADING
      const depth = (k: number) => head + k * leading + (lines[k - 1]?.note ?? 0) * gap
      let count = lines.length
      while (count > 0 && depth(count) > room) count--
      if (count === 0 && (lines.length > 0 || head > room)) return null
      return {
        height: depth(count) + gap,
        width: Math.max(
          ...title.map((words) => textWidth(words, LETTERING.read, true)),
          ...lines.slice(0, count).map((l) => indent + l.width),
        ),
        rest: count < lines.length ? noteBlock(remaining(notes, lines.slice(count))) : null,
        draw: (at) => {
          const layer = notes.caution ? 'caution' : 'text'
          const out: Primitive[] = title.map((words, i) =>
            text({ x: at.x, y: at.y - LETTERING.read - i * TITLE_LEADING }, words, LETTERING.read, {
              bold: true,
              layer,
            }),
          )
          lines.slice(0, count).forEach((line, i) => {
            const y = at.y - depth(i + 1)
            if (notes.ticks && line.first) out.push(box('outline-thin', at.x, y - 0.1, TICK, TICK))
            out.push(text({ x: at.x + indent, y }, line.text, height))
          })
          return out
        },
      }
    },
  }
}

/** The notes that the lines left over are of, the first perhaps begun on the sheet before. */
function remaining(notes: Notes, lines: readonly Line[]): Notes {
  const first = lines[0]!
  const begun = lines.filter((l) => l.note === first.note).map((l) => l.text)
  return {
    ...notes,
    title: notes.title.endsWith(CONTINUED) ? notes.title : notes.title + CONTINUED,
    lines: [begun.join(' '), ...notes.lines.slice(first.note + 1)],
    goesOn: [!first.first],
  }
}

export interface Headline {
  /** The verdict and the speed to run. */
  readonly first: string
  /** Why; none where nothing was found against it. */
  readonly reason: string | null
  readonly ceiling: string
  /** For the head of the sheets that follow: verdict and reason. */
  readonly again: string
  /** It must not run, or nobody knows whether it may. */
  readonly caution: boolean
}

/** Lines that a reason may take: names can be long. */
const MOST_REASON = 6
/** Clear space under the verdict at the head of a sheet, mm. */
const BELOW_LEAD = 4.5

/** The reason's lines; what is more than fits is said to be, and stands in full in the lists. */
function reasonLines(reason: string, width: number): string[] {
  const lines = breakText(reason, LETTERING.read, width, true)
  if (lines.length <= MOST_REASON) return lines
  const last = fitText(`${lines[MOST_REASON - 1]!} …`, LETTERING.read, width, true)
  return [...lines.slice(0, MOST_REASON - 1), last]
}

/** The verdict and the speed to run, large, the reason and the ceiling under them. */
export function headline({ first, reason, ceiling, caution }: Headline): Block {
  const leading = LETTERING.read * 1.5
  const layer = caution ? 'caution' : 'text'
  return {
    width: NARROWEST,
    lay: (width, room): Laid | null => {
      const sizes = [LETTERING.head, LETTERING.read, LETTERING.note]
      const head = sizes.find((h) => textWidth(first, h, true) <= width) ?? LETTERING.note
      const why = reason === null ? [] : reasonLines(reason, width)
      const lines = [
        ...why.map((content) => ({ content, bold: true, layer }) as const),
        ...wrapText(ceiling, LETTERING.read, width).map((content) => ({ content }) as const),
      ]
      const height = head + 1 + lines.length * leading
      if (height > room) return null
      return {
        height,
        rest: null,
        draw: ({ x, y }) => [
          text({ x, y: y - head }, fitText(first, head, width, true), head, { bold: true, layer }),
          ...lines.map(({ content, ...style }, i) =>
            text(
              { x, y: y - head - 1 - (i + 1) * leading },
              fitText(content, LETTERING.read, width, 'bold' in style),
              LETTERING.read,
              style,
            ),
          ),
        ],
      }
    },
  }
}

/** The verdict across the head of a sheet: its height, and its lines with their upper left corner at a point. Sheet mm. */
export interface Lead {
  readonly height: number
  draw(at: Point): Primitive[]
}

/** On the first sheet with the speed, large; on those that follow in letters to read. */
export function lead(
  { first, again, reason, ceiling, caution }: Headline,
  width: number,
  isFirst: boolean,
): Lead {
  const head = isFirst ? LETTERING.head : LETTERING.read
  const leading = LETTERING.read * 1.5
  const said = isFirst
    ? [first, ...(reason === null ? [] : reasonLines(reason, width)), ceiling]
    : reasonLines(again, width)
  const lines = said.map((l, i) => fitText(l, i === 0 ? head : LETTERING.read, width, true))
  return {
    height: head + (lines.length - 1) * leading + BELOW_LEAD,
    draw: ({ x, y }) =>
      lines.map((content, i) =>
        text({ x, y: y - head - i * leading }, content, i === 0 ? head : LETTERING.read, {
          bold: true,
          layer: caution ? 'caution' : 'text',
        }),
      ),
  }
}
