/** Cards to take to the machine: every step is on one, whole, and nothing lies outside or over the plate. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import type { Drawing } from '../../../src-core/drawing/model/model.ts'
import { textWidth } from '../../../src-core/drawing/text/textWidth.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { cardPlate } from '../../../src-core/drawing/cards/cardPlate.ts'
import { stepCards } from '../../../src-core/drawing/cards/stepCards.ts'
import { lettering, overlaps, struckThrough } from '../../helpers/sheetText.ts'
import { stepsOf } from '../../../src-core/steps/steps.ts'
import { EXAMPLES, block, jobWith, partOf, shippedJob } from '../../helpers/jobs.ts'

const setups = EXAMPLES.flatMap((name) => {
  const job = shippedJob(name)
  return job.setups.map((s) => ({ what: `${name} ${s.id}`, job, id: s.id }))
})
const made = (job: Job, id: string) => {
  const mounted = mountSetup(job, id)
  const analysis = analyse(job, id)
  return { cards: stepCards(mounted, analysis), steps: stepsOf(mounted, analysis), analysis }
}
const texts = (d: Drawing) => d.primitives.flatMap((p) => (p.kind === 'text' ? [p] : []))

describe.each(setups)('$what', ({ job, id }) => {
  const { cards, steps, analysis } = made(job, id)
  const all = cards.flatMap(texts).map((t) => t.text)

  test('every step has its card, every word of it is there', () => {
    expect(cards.length).toBeGreaterThanOrEqual(steps.length)
    const written = all.join(' ').replace(/\s+/g, ' ')
    for (const s of steps) {
      expect(written).toContain(s.title)
      for (const words of [...s.does, ...s.warns, ...s.facts.map((f) => f.value)])
        expect(written).toContain(words.replace(/\s+/g, ' '))
      if (s.barred) expect(written).toContain(s.barred)
    }
  })

  test('all lies within the frame, words beside the plate', () => {
    for (const card of cards)
      for (const t of texts(card)) {
        const width = textWidth(t.text, t.height, t.bold)
        const left = t.anchor === 'end' ? t.at.x - width : t.anchor === 'middle' ? t.at.x - width / 2 : t.at.x
        expect(left, t.text).toBeGreaterThanOrEqual(5)
        expect(left + width, t.text).toBeLessThanOrEqual(205)
        expect(t.at.y, t.text).toBeGreaterThanOrEqual(5)
        expect(t.at.y + t.height, t.text).toBeLessThanOrEqual(143)
        const inColumn = t.anchor === 'start' && t.at.y > 25 && t.at.y < 125
        if (inColumn) expect(left + width, t.text).toBeLessThanOrEqual(125)
      }
  })

  test('the plate says which way up it is: every slot named, the index marked, no name over a line or another', () => {
    for (const card of cards) {
      const named = texts(card).filter((t) => job.plate.slots.some((s) => s.id === t.text))
      expect(named.map((t) => t.text).sort()).toEqual(job.plate.slots.map((s) => s.id).sort())
      const marks = card.primitives.filter(
        (p) => p.kind === 'path' && p.layer === 'mark' && p.fill === 'solid',
      )
      expect(marks).toHaveLength(1)
      expect(texts(card).some((t) => t.text.startsWith('Seen from the tailstock'))).toBe(true)
      expect(overlaps(lettering(card))).toEqual([])
      expect(struckThrough(card, lettering(card))).toEqual([])
    }
  })

  test('what a step is about is named', () => {
    const mounted = mountSetup(job, id)
    for (const s of steps.filter((one) => one.lit.length === 1)) {
      const piece = mounted.pieces.find((p) => p.item.id === s.lit[0])
      const card = cards.find((c) => texts(c).some((t) => t.text.includes(s.title)))!
      if (piece) expect(texts(card).filter((t) => t.text === piece.item.id)).toHaveLength(1)
    }
  })

  test('the verdict is on every card', () => {
    const word = analysis.verdict.state === 'not-judged' ? 'NOT JUDGED' : analysis.verdict.state.toUpperCase()
    for (const card of cards) expect(texts(card).some((t) => t.text.startsWith(`${word}: `))).toBe(true)
  })
})

test('a part that reaches out past the plate stays within the circle that the plate is drawn into', () => {
  const job = jobWith({ part: partOf([block('b', { x: 0, y: 0 }, [500, 60, 20])]) })
  const [centre, radius] = [{ x: 163, y: 76 }, 32]
  const drawn = cardPlate(mountSetup(job, 'op10'), [], centre, radius)
  const corners = drawn.flatMap((p) => (p.kind === 'path' ? p.steps.filter((s) => s.to !== 'close') : []))
  const off = corners.map((c) => Math.hypot(c.x - centre.x, c.y - centre.y))
  expect(Math.max(...off)).toBeCloseTo(radius, 9)
})

test('what does not fit goes on a second card', () => {
  const job = shippedJob('flat-link')
  const long: Job = { ...job, part: { ...job.part, name: 'A part of a very long name, '.repeat(40) } }
  const { cards, steps } = made(long, 'op10')
  expect(cards.length).toBeGreaterThan(steps.length)
  expect(cards.some((c) => texts(c).some((t) => t.text.includes(', continued')))).toBe(true)
})
