import { describe, expect, it } from 'vitest'
import { drawPages, flow as set } from '../../../src-core/drawing/sheet/flow.ts'
import type { Block, Region } from '../../../src-core/drawing/sheet/flow.ts'
import { headline, noteBlock } from '../../../src-core/drawing/sheet/noteBlock.ts'
import { tableBlock } from '../../../src-core/drawing/sheet/table.ts'
import type { Primitive, TextPrimitive } from '../../../src-core/drawing/model/model.ts'
import { textWidth } from '../../../src-core/drawing/text/textWidth.ts'

const texts = (primitives: readonly Primitive[]) =>
  primitives.filter((p): p is TextPrimitive => p.kind === 'text')
const words = (primitives: readonly Primitive[]) => texts(primitives).map((t) => t.text)
const region = (x: number, y: number, width: number, height: number): Region => ({ x, y, width, height })

const COLUMNS = [
  { title: 'No', align: 'middle' },
  { title: 'Item', wraps: true },
  { title: 'kg', align: 'end' },
] as const
const rows = (n: number) => Array.from({ length: n }, (_, i) => [`${i + 1}`, `piece ${i + 1}`, `${i + 1}.5`])

/** Blocks set and drawn, sheet by sheet. */
const flow = (...given: Parameters<typeof set>) => drawPages(set(...given))

describe('a table', () => {
  it('is as wide as what it holds and as high as its rows', () => {
    const block = tableBlock({ title: 'List', columns: COLUMNS, rows: rows(3) })
    const laid = block.lay(200, 200)!
    expect(laid.rest).toBeNull()
    expect(laid.height).toBeCloseTo(5.5 + 4 * 5.3, 9)
    const drawn = laid.draw({ x: 10, y: 100 })
    expect(words(drawn)).toEqual([
      'List',
      'No',
      '1',
      '2',
      '3',
      'Item',
      'piece 1',
      'piece 2',
      'piece 3',
      'kg',
      '1.5',
      '2.5',
      '3.5',
    ])
    const ys = texts(drawn).map((t) => t.at.y)
    expect(Math.max(...ys)).toBeLessThan(100)
    expect(Math.min(...ys)).toBeGreaterThan(100 - laid.height)
  })

  it('wraps its wide column where it must, and cuts nothing else', () => {
    const long = 'an angle bracket with a web that is named at length'
    const block = tableBlock({ title: 'List', columns: COLUMNS, rows: [['1', long, '0.125']] })
    const laid = block.lay(block.width + 15, 200)!
    const drawn = texts(laid.draw({ x: 0, y: 100 }))
    expect(drawn.map((t) => t.text)).toEqual(expect.arrayContaining(['1', '0.125', 'No', 'kg']))
    const lines = drawn.filter((t) => long.includes(t.text) && t.text.length > 3)
    expect(lines.length).toBeGreaterThan(1)
    for (const l of lines) expect(textWidth(l.text, l.height)).toBeLessThanOrEqual(block.width)
  })

  it('keeps to a width that its columns do not go into', () => {
    const columns = [{ title: 'Cut' }, { title: 'Tool' }, { title: 'Measured', least: 24 }] as const
    const row = ['a recess that somebody gave a name of many words', 'carbide', '']
    for (const width of [90, 100]) {
      const block = tableBlock({ title: 'Cuts', columns, rows: [row] })
      expect(block.width).toBeGreaterThan(width)
      const drawn = texts(block.lay(width, 200)!.draw({ x: 0, y: 100 }))
      for (const t of drawn) expect(t.at.x + textWidth(t.text, t.height, t.bold)).toBeLessThanOrEqual(width)
      expect(drawn.map((t) => t.text)).toEqual(expect.arrayContaining(['Cut', 'Tool', 'Measured', 'carbide']))
    }
  })

  it('breaks between rows with its heading again', () => {
    const block = tableBlock({ title: 'List', columns: COLUMNS, rows: rows(10), bold: new Set([7]) })
    const first = block.lay(200, 5.5 + 5.3 * 5.5)!
    const second = first.rest!.lay(200, 200)!
    expect(words(first.draw({ x: 0, y: 0 }))).toContain('piece 4')
    expect(words(first.draw({ x: 0, y: 0 }))).not.toContain('piece 5')
    const rest = second.draw({ x: 0, y: 0 })
    expect(words(rest).slice(0, 2)).toEqual(['List, continued', 'No'])
    expect(
      texts(rest)
        .filter((t) => t.bold && t.text.startsWith('piece'))
        .map((t) => t.text),
    ).toEqual(['piece 8'])
    expect(second.rest).toBeNull()
  })

  it('has no room under two rows', () => {
    expect(tableBlock({ title: 'List', columns: COLUMNS, rows: rows(2) }).lay(200, 12)).toBeNull()
  })
})

describe('notes', () => {
  it('wrap to their width, with a box to tick before each', () => {
    const lines = ['Turn the spindle by hand through a full turn.', 'Stand out of the plane of rotation.']
    const drawn = noteBlock({ title: 'By hand', ticks: true, lines }).lay(60, 100)!.draw({ x: 0, y: 0 })
    expect(drawn.filter((p) => p.kind === 'path')).toHaveLength(2)
    for (const t of texts(drawn)) expect(t.at.x + textWidth(t.text, t.height, t.bold)).toBeLessThanOrEqual(60)
    expect(words(drawn).slice(1).join(' ')).toBe(lines.join(' '))
  })

  it('carry a word that is wider than the column on into the next lines, none of it lost', () => {
    const drawn = noteBlock({ title: 'N', lines: ['W'.repeat(100)] })
      .lay(60, 100)!
      .draw({ x: 0, y: 0 })
    const [, ...carried] = texts(drawn)
    expect(carried.map((t) => t.text).join('')).toBe('W'.repeat(100))
    for (const { text, height } of carried) expect(textWidth(text, height)).toBeLessThanOrEqual(60)
  })

  it('break a title that is wider than the column, and their lines stand under it', () => {
    const title = 'Bore A, 42 mm to 42.025 mm (H7)'
    const drawn = texts(
      noteBlock({ title, lines: ['one'] })
        .lay(60, 100)!
        .draw({ x: 0, y: 0 }),
    )
    const heads = drawn.filter((t) => t.bold)
    expect(heads.length).toBeGreaterThan(1)
    expect(heads.map((t) => t.text).join(' ')).toBe(title)
    for (const t of heads) expect(textWidth(t.text, t.height, true)).toBeLessThanOrEqual(60)
    const ys = drawn.map((t) => t.at.y)
    for (const [i, y] of ys.entries()) if (i > 0) expect(ys[i - 1]! - y).toBeGreaterThan(drawn[i]!.height)
  })

  it('leave a blank to write in beside the word before it', () => {
    const line = '1 finish: depth 0.25 mm, then 41.51 mm; measured ______'
    for (let width = 60; width < 100; width++) {
      const drawn = noteBlock({ title: 'N', lines: [line] })
        .lay(width, 100)!
        .draw({ x: 0, y: 0 })
      expect(words(drawn).at(-1)).toMatch(/measured ______$/)
    }
  })

  it('keep STOP whole in a headline, in smaller letters if need be', () => {
    const say = (width: number) =>
      texts(
        headline({
          first: '■ STOP, SPINDLE 1234.5 rpm',
          reason: null,
          ceiling: 'none',
          again: '',
          caution: true,
        })
          .lay(width, 99)!
          .draw({ x: 0, y: 0 }),
      )[0]!
    expect([say(200).height, say(80).height]).toEqual([5, 3.5])
    expect(say(80)).toMatchObject({ text: '■ STOP, SPINDLE 1234.5 rpm', layer: 'caution' })
  })
})

describe('flow', () => {
  const block = (name: string, height: number, width = 10): Block => ({
    width,
    lay: (available, room) =>
      height > room || width > available
        ? null
        : {
            height,
            rest: null,
            draw: (at) => [
              { kind: 'text', layer: 'text', at, text: name, height: 3, anchor: 'start', angle: 0 },
            ],
          },
  })
  const at = (pages: Primitive[][]) =>
    pages.map((p) => Object.fromEntries(texts(p).map((t) => [t.text, [t.at.x, t.at.y]])))

  it('sets blocks in order, each whole where it first fits', () => {
    const pages = flow(
      [block('a', 30), block('b', 30), block('wide', 10, 50), block('c', 10)],
      [region(0, 100, 20, 60), region(50, 100, 60, 20)],
      () => [region(0, 100, 100, 90)],
    )
    expect(at(pages)).toEqual([{ a: [0, 100], wide: [50, 100], c: [0, 66.8] }, { b: [0, 100] }])
  })

  it('breaks what is higher than a sheet, and ends', () => {
    const table = tableBlock({ title: 'List', columns: COLUMNS, rows: rows(40) })
    const pages = flow([table], [region(0, 100, 100, 50)], () => [region(0, 100, 100, 100)])
    expect(pages).toHaveLength(4)
    const shown = pages.flatMap(words).filter((w) => w.startsWith('piece'))
    expect(shown).toEqual(rows(40).map((r) => r[1]))
  })

  it('has one page for no blocks', () => {
    expect(flow([], [], () => [])).toEqual([[]])
  })

  it('ends even where nothing fits anywhere', () => {
    const tall = noteBlock({ title: 'N', lines: ['one', 'two'] })
    const pages = flow([tall], [], () => [region(0, 100, 100, 1)])
    expect(pages.flatMap(words)).toEqual(['N', 'one', 'two'])
  })
})
