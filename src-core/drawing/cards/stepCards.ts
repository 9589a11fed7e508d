/** The steps of a setup as cards to take to the machine: A5 lying, one step each, a second card where one is too full. */
import type { Analysis } from '../../analysis/result.ts'
import type { Drawing, Primitive } from '../model/model.ts'
import { box, text } from '../model/primitives.ts'
import { fitText, wrapText } from '../text/textWidth.ts'
import { indexWords } from '../../mounting/plateAngle.ts'
import type { Mounted } from '../../mounting/types.ts'
import { VERDICT_WORDS } from '../../verdict/speeds.ts'
import { BEFORE_POWER } from '../../words/cautions.ts'
import { cardPlate } from './cardPlate.ts'
import type { Step } from '../../steps/step.ts'
import { stepsOf } from '../../steps/steps.ts'

/** ISO 216 A5, mm. */
const CARD = { width: 210, height: 148, margin: 8 } as const
/** Column of words, and the circle that the plate is drawn into. */
const COLUMN = 112
const PLATE = { x: 162.5, y: 76, radius: 30.5 } as const
/** Under it. */
const SEEN = { y: 27, width: 80, words: 'Seen from the tailstock; ◄' } as const
/** Capital heights, mm: to be read at arm's length and more. */
const HEIGHT = { title: 7, value: 4, words: 3.5, label: 2.5 } as const
/** Room for the box to tick. */
const TICKED = 7
/** Room for the name of a figure. */
const LABELLED = 42
const TOP = CARD.height - CARD.margin - 2
/** Where words begin. */
const FIRST = TOP - HEIGHT.title - 3
/** Lowest line of words; below it stands the foot. */
const BOTTOM = CARD.margin + 14

interface Line {
  readonly content: string
  readonly height: number
  readonly bold: boolean
  readonly caution: boolean
  /** Clear space above it. */
  readonly gap: number
  /** First of a thing to do: it has the box to tick. */
  readonly tick: boolean
  readonly indent: number
  /** In small letters before it. */
  readonly label: string
  /** mm that the rest takes of the sentence that it begins. */
  readonly follow: number
}

/** Cards of one mounted setup, in the order of its steps. */
export function stepCards(mounted: Mounted, analysis: Analysis): Drawing[] {
  const steps = stepsOf(mounted, analysis)
  return steps.flatMap((step, i) => {
    const pages = paged(linesOf(step))
    return pages.map((lines, page): Drawing => {
      const title = page === 0 ? step.title : `${step.title}, continued`
      return {
        title: `${mounted.job.title || mounted.job.part.name} ${mounted.setup.id}, cards`,
        width: CARD.width,
        height: CARD.height,
        primitives: [
          box(
            'frame',
            CARD.margin - 3,
            CARD.margin - 3,
            CARD.width - 2 * CARD.margin + 6,
            CARD.height - 2 * CARD.margin + 6,
          ),
          text(
            { x: CARD.margin, y: TOP - HEIGHT.title },
            `${i + 1}  ${fitText(title, HEIGHT.title, 175, true)}`,
            HEIGHT.title,
            { bold: true },
          ),
          ...wordsOf(lines),
          ...cardPlate(mounted, step.lit, PLATE, PLATE.radius),
          seenFrom(mounted),
          ...foot(mounted, analysis, `${i + 1} of ${steps.length}`),
        ],
      }
    })
  })
}

function seenFrom({ job }: Mounted): Primitive {
  const words = fitText(`${SEEN.words} ${indexWords(job)}`, HEIGHT.label, SEEN.width)
  return text({ x: PLATE.x, y: SEEN.y }, words, HEIGHT.label, { anchor: 'middle' })
}

function linesOf(step: Step): Line[] {
  const wrapped = (content: string, height: number, more: Partial<Line> = {}): Line[] => {
    const lines = wrapText(content, height, COLUMN - (more.indent ?? 0), more.bold)
    return lines.map((line, i) => ({
      content: line,
      height,
      bold: more.bold ?? false,
      caution: more.caution ?? false,
      gap: i === 0 ? 2.6 : 1.4,
      tick: i === 0 && (more.tick ?? false),
      indent: more.indent ?? 0,
      label: i === 0 ? (more.label ?? '') : '',
      follow: i === 0 ? (lines.length - 1) * (height + 1.4) : 0,
    }))
  }
  return [
    ...(step.barred ? wrapped(step.barred, HEIGHT.value, { bold: true, caution: true }) : []),
    ...step.facts.flatMap(({ label, value }) =>
      wrapped(value, HEIGHT.value, { bold: true, label, indent: LABELLED }),
    ),
    ...step.does.flatMap((words) => wrapped(words, HEIGHT.words, { tick: true, indent: TICKED })),
    ...step.warns.flatMap((words) => wrapped(`! ${words}`, HEIGHT.words, { bold: true, caution: true })),
  ]
}

/** Lines card by card: what does not fit goes on the next, a sentence whole. */
function paged(lines: readonly Line[]): (readonly Line[])[] {
  const pages: Line[][] = [[]]
  let y = FIRST
  for (const line of lines) {
    const need = line.gap + line.height
    const page = pages[pages.length - 1]!
    if (page.length > 0 && y - need - line.follow < BOTTOM) {
      pages.push([line])
      y = FIRST
    } else page.push(line)
    y -= need
  }
  return pages
}

function wordsOf(lines: readonly Line[]): Primitive[] {
  let y = FIRST
  return lines.flatMap((line): Primitive[] => {
    y -= line.gap + line.height
    const layer = line.caution ? 'caution' : 'text'
    const { label } = line
    return [
      ...(line.tick ? [box('outline-thin', CARD.margin, y - 0.3, 4, 4)] : []),
      ...(label
        ? [text({ x: CARD.margin, y }, fitText(label, HEIGHT.label, LABELLED - 2), HEIGHT.label)]
        : []),
      text({ x: CARD.margin + line.indent, y }, line.content, line.height, { bold: line.bold, layer }),
    ]
  })
}

function foot({ job, setup }: Mounted, { verdict }: Analysis, count: string): Primitive[] {
  const what = [count, setup.id, job.title || job.part.name].filter(Boolean).join(', ')
  const layer = verdict.state === 'stop' || verdict.state === 'not-judged' ? 'caution' : 'text'
  const wide = CARD.width - 2 * CARD.margin
  const word = fitText(
    `${VERDICT_WORDS[verdict.state].toUpperCase()}: ${verdict.reason}`,
    HEIGHT.label,
    wide - 78,
    true,
  )
  const checks = wrapText(BEFORE_POWER, HEIGHT.label, wide)
  const leading = HEIGHT.label * 1.5
  return [
    text({ x: CARD.margin, y: CARD.margin + 2 * leading }, word, HEIGHT.label, { bold: true, layer }),
    ...checks
      .slice(0, 2)
      .map((line, i) => text({ x: CARD.margin, y: CARD.margin + (1 - i) * leading }, line, HEIGHT.label)),
    text(
      { x: CARD.width - CARD.margin, y: CARD.margin + 2 * leading },
      fitText(what, HEIGHT.label, 75),
      HEIGHT.label,
      { anchor: 'end' },
    ),
  ]
}
