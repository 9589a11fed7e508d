/** Notes as a block: a heading and wrapped lines, with boxes to tick where they are checks. */
import type { Block, Laid } from './flow.ts'
import { LETTERING } from './lettering.ts'
import type { Primitive } from './model.ts'
import { box, text } from './primitives.ts'
import { fitText, wrapText } from './textWidth.ts'

export interface Notes {
  readonly title: string
  readonly lines: readonly string[]
  /** Each line starts with an empty box to tick. */
  readonly ticks?: boolean
  readonly caution?: boolean
  /** Capital height of the lines; `note` where not given. */
  readonly height?: number
}

/** Widest a line is set, for the eye to find the next. */
const WIDEST = 170
const NARROWEST = 60
const TICK = 2.7
const INDENT = 4.6

export function noteBlock(notes: Notes): Block {
  const height = notes.height ?? LETTERING.note
  const leading = height * 1.5
  return {
    width: NARROWEST,
    lay: (available, room): Laid | null => {
      const width = Math.min(available, WIDEST)
      const indent = notes.ticks ? INDENT : 0
      const items = notes.lines.map((content) =>
        wrapText(content, height, width - indent).map((l) => fitText(l, height, width - indent)),
      )
      const gap = notes.ticks ? 0.9 : 0.6
      let used = LETTERING.read + 1
      let count = 0
      for (const item of items) {
        const next = used + item.length * leading + gap
        if (next > room) break
        used = next
        count++
      }
      if (count === 0 && items.length > 0) return null
      const rest = count < items.length ? noteBlock({ ...notes, lines: notes.lines.slice(count) }) : null
      return {
        height: used,
        rest,
        draw: (at) => {
          const out: Primitive[] = [
            text({ x: at.x, y: at.y - LETTERING.read }, notes.title, LETTERING.read, {
              bold: true,
              layer: notes.caution ? 'caution' : 'text',
            }),
          ]
          let y = at.y - LETTERING.read - 1
          for (const item of items.slice(0, count)) {
            item.forEach((part, i) => {
              y -= leading
              if (notes.ticks && i === 0) out.push(box('outline-thin', at.x, y - 0.1, TICK, TICK))
              out.push(text({ x: at.x + indent, y }, part, height))
            })
            y -= gap
          }
          return out
        },
      }
    },
  }
}

export interface Headline {
  readonly first: string
  readonly second: string
  readonly caution: boolean
}

/** The speed to run, large, and the ceiling under it. */
export function headline({ first, second, caution }: Headline): Block {
  const leading = LETTERING.read * 1.5
  return {
    width: NARROWEST,
    lay: (width, room): Laid | null => {
      const lines = wrapText(second, LETTERING.read, width)
      const height = LETTERING.head + 1 + lines.length * leading
      if (height > room) return null
      return {
        height,
        rest: null,
        draw: ({ x, y }) => [
          text({ x, y: y - LETTERING.head }, fitText(first, LETTERING.head, width, true), LETTERING.head, {
            bold: true,
            layer: caution ? 'caution' : 'text',
          }),
          ...lines.map((content, i) =>
            text({ x, y: y - LETTERING.head - 1 - (i + 1) * leading }, content, LETTERING.read),
          ),
        ],
      }
    },
  }
}
