import { describe, expect, it } from 'vitest'
import type { Ring } from '../../../src-core/geometry/types.ts'
import { importSvg } from '../../../src-core/import/svg/read.ts'
import { expectNear } from '../../helpers/near.ts'
import { areaOf, areasOf, droppedOf, read, refusal } from '../../helpers/drawings.ts'

/** A drawing of 100 mm by 50 mm with one user unit a millimetre. */
const svg = (body: string, attributes = 'width="100mm" height="50mm" viewBox="0 0 100 50"') =>
  `<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${attributes}>\n${body}\n</svg>\n`
const path = (d: string, more = '') => svg(`<path d="${d}" ${more}/>`)
const only = (text: string) => {
  const preview = read(importSvg(text))
  expect(preview.outlines).toHaveLength(1)
  return preview.outlines[0]!
}

describe('importSvg', () => {
  it('reads the basic shapes, y up from the lower left corner, arcs kept', () => {
    const preview = read(
      importSvg(
        svg(`<rect x="10" y="5" width="30" height="20"/>
          <rect x="50" y="0" width="20" height="10" rx="3"/>
          <circle cx="20" cy="15" r="5"/>
          <polygon points="80,0 90,0 90 10"/>
          <ellipse cx="85" cy="30" rx="10" ry="5"/>
          <line x1="0" y1="40" x2="10" y2="40"/><polyline points="10 40 10 48 0 40"/>`),
      ),
    )
    expect(preview).toMatchObject({ kind: 'svg', units: 'mm', faults: [], dropped: [] })
    expect(preview.counts).toEqual({ rect: 2, circle: 1, polygon: 1, ellipse: 1, line: 1, polyline: 1 })
    const [rect, round, ellipse, polygon, joined] = preview.outlines
    expect(rect!.outline).toContainEqual({ x: 10, y: 45 })
    expect(rect!.outline).toContainEqual({ x: 40, y: 25 })
    expect(rect!.holes[0]).toHaveLength(2)
    expectNear(areaOf(rect!), 600 - 25 * Math.PI, { rel: 1e-12 })
    expectNear(areaOf(round!), 200 - (4 - Math.PI) * 9, { rel: 1e-12 })
    expect(round!.outline).toHaveLength(8)
    expectNear(areaOf(ellipse!), 50 * Math.PI, { abs: 0.01 * 50 })
    expect([areaOf(polygon!), areaOf(joined!)]).toEqual([50, 40])
  })

  it('reads every command of a path, absolute and relative', () => {
    expect(areaOf(only(path('M 0 0 H 10 V 5 L 0 5 Z')))).toBe(50)
    expect(areaOf(only(path('m0,0h10v5l-10 0z')))).toBe(50)
    // Further pairs after a move are lines; numbers may follow one another without a separator.
    expect(areaOf(only(path('M0 0 10 0 10 5 0 5z')))).toBe(50)
    expect(areaOf(only(path('M10-5.5.5.5.5-5.5z')))).toBeCloseTo((9.5 * 6) / 2, 12)
    // Half a parabola's bow: two thirds of base times height.
    expectNear(areaOf(only(path('M0 0 Q 10 20 20 0 Z'))), (2 / 3) * 20 * 10, { abs: 0.01 * 45 })
    expectNear(areaOf(only(path('M0 0 Q 5 10 10 0 T 20 0 L 20 20 L 0 20 Z'))), 400, { abs: 0.01 * 80 })
    // A circle as four cubic curves is a circle to 0.027 %.
    const k = 0.5522847498 * 10
    const quarters = `M10 0 C10 ${k} ${k} 10 0 10 S -10 ${k} -10 0 S ${-k} -10 0 -10 S 10 ${-k} 10 0 Z`
    const disc = only(path(quarters, 'transform="translate(20 20)"'))
    expectNear(areaOf(disc), 100 * Math.PI, { rel: 5e-4 })
    expect(disc.outline.length).toBeLessThan(33)
  })

  it('keeps circular arcs as they are, with compact flags, of every kind', () => {
    const half = only(path('M10 10A5 5 0 0 1 20 10Z'))
    expect(half.outline.map((v) => Math.abs(v.bulge ?? 0))).toEqual([1, 0])
    expectNear(areaOf(half), 12.5 * Math.PI, { rel: 1e-12 })
    // Sweep 1 turns with the hands of a clock on screen: the arc lies above its chord.
    expect(Math.sign(half.outline[0]!.bulge!)).toBe(-1)
    const quarter = 25 * Math.PI
    expectNear(areaOf(only(path('M0 0a10 10 0 0110 10h-10z'))), quarter, { rel: 1e-12 })
    expectNear(areaOf(only(path('M0 10a10 10 0 1010-10v10z'))), 3 * quarter, { rel: 1e-12 })
    // Too small a radius grows to half the chord.
    expectNear(areaOf(only(path('M10 10A1 1 0 0 1 20 10Z'))), 12.5 * Math.PI, { rel: 1e-12 })
    // No radius: a line.
    expect(areaOf(only(path('M0 0A0 5 0 0 1 10 0L10 10Z')))).toBe(50)
    // Elliptic and turned.
    expectNear(areaOf(only(path('M0 0A10 5 30 0 1 17.320508075688775 10Z'))), 25 * Math.PI, {
      abs: 0.01 * 45,
    })
  })

  it('follows transforms, groups and use, and turns circles under unequal scales into ellipses', () => {
    const preview = read(
      importSvg(
        svg(`<defs><circle id="c" r="2"/><symbol id="s" viewBox="0 0 10 10"><rect width="10" height="10"/></symbol></defs>
          <g transform="translate(10,10) rotate(90)"><g transform="scale(2)"><use xlink:href="#c" x="5"/></g></g>
          <use href="#c" transform="matrix(3 0 0 1 50 10)"/>
          <use href="#s" x="70" y="5" width="4" height="8"/>
          <rect x="80" y="20" width="5" height="5" transform="rotate(45 80 20) skewX(30)"/>`),
      ),
    )
    expect(preview.counts).toEqual({ use: 3, circle: 2, rect: 2 })
    const find = (is: (outline: Ring) => boolean) => preview.outlines.find((o) => is(o.outline))
    const disc = find((o) => o.length === 2)
    const ellipse = find((o) => o.length > 4)
    const symbol = find((o) => o.length === 4 && o.some((v) => v.x === 70))
    const rect = find((o) => o.length === 4 && o.every((v) => v.x !== 70))
    // At (5, 0) times 2, turned by 90° on screen to (0, 10), moved to (10, 20), so 30 above the bottom.
    expectNear(areaOf(disc!), 16 * Math.PI, { rel: 1e-12 })
    expectNear((disc!.outline[0]!.x + disc!.outline[1]!.x) / 2, 10, { abs: 1e-12 })
    expectNear((disc!.outline[0]!.y + disc!.outline[1]!.y) / 2, 30, { abs: 1e-12 })
    expectNear(areaOf(ellipse!), 12 * Math.PI, { abs: 0.01 * 26 })
    // 10 × 10 fitted into 4 × 8: 4 × 4 in its middle, 7 to 11 from the top.
    expect(symbol!.outline.map((v) => v.y).sort((p, q) => p - q)).toEqual([39, 39, 43, 43])
    expectNear(areaOf(rect!), 25, { rel: 1e-12 })
  })

  it('reads the size from width, height and view box', () => {
    const shape = '<rect x="1" y="1" width="2" height="1"/>'
    const size = (attributes: string, options = {}) => {
      const preview = read(importSvg(svg(shape, attributes), options))
      return [preview.units, Number(areasOf(preview)[0]!.toFixed(6))]
    }
    expect(size('width="100mm" viewBox="0 0 10 10"')).toEqual(['mm', 200])
    expect(size('height="4in" viewBox="0 0 8 4"')).toEqual(['in', 2 * 645.16])
    expect(size('width="10cm" height="10cm"')).toEqual(['cm', Number((2 * (25.4 / 96) ** 2).toFixed(6))])
    expect(size('width="72pt" viewBox="0 0 2.54 1"')).toEqual(['mm', 200])
    expect(size('width="20mm" height="10mm" viewBox="0 0 10 10"')).toEqual(['mm', 2])
    expect(size('width="20mm" height="10mm" viewBox="0 0 10 10" preserveAspectRatio="none"')).toEqual([
      'mm',
      4,
    ])
    expect(size('width="800" height="400" viewBox="0 0 10 10"')).toEqual([null, 2])
    expect(size('')).toEqual([null, 2])
    expect(size('', { units: 'in' })).toEqual(['in', 2 * 645.16])
    expect(size('width="96" height="96"', { units: 'px' })).toEqual([
      'px',
      Number((2 * (25.4 / 96) ** 2).toFixed(6)),
    ])
    expect(size('width="100mm" viewBox="0 0 10 10"', { units: 'cm' })).toEqual(['cm', 200])
  })

  it('reads lengths with units, comments, CDATA, a document type with entities, and prefixes', () => {
    const text = `\ufeff<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "svg11.dtd" [ <!ENTITY ns "http://example.org/"> ]>
<!-- <rect width="1" height="1"/> -->
<svg:svg xmlns:svg="http://www.w3.org/2000/svg" xmlns:x="&ns;" width='10in' viewBox='0 0 960 960'>
<svg:style><![CDATA[ rect > circle { fill: "<rect/>" } ]]></svg:style>
<x:view a="1"><x:page/></x:view>
<svg:rect width="1in" height="25.4mm" id="a&#38;b" />
</svg:svg>`
    const preview = read(importSvg(text))
    expect(preview.counts).toEqual({ rect: 1 })
    expect(areasOf(preview)[0]).toBeCloseTo(645.16, 9)
  })

  it('drops what is hidden or no outline, with the reason', () => {
    const preview = read(
      importSvg(
        svg(`<rect width="9" height="9"/><g display="none"><rect width="3" height="3"/></g>
          <rect width="2" height="2" style="fill:red; visibility : hidden"/><text x="1">a &amp; b</text><image href="a.png"/>
          <use href="other.svg#x"/><circle r="0"/><rect width="50%" height="2"/><polygon points="1 2 3"/>
          <path d="M0 0 L 5 x"/><path d="L 1 2"/><path d="M1 1"/><rect width="2" height="2" transform="spin(3)"/>
          <circle r="1" transform="scale(0 1)"/><path d="M 20 20 h 5 v 5"/>`),
      ),
    )
    expect(preview.outlines).toHaveLength(1)
    expect(droppedOf(preview)).toEqual([
      'circle ×1: its radius is not above zero',
      'circle ×1: scaled to nothing',
      'g ×1: hidden',
      'image ×1: not a line or a curve',
      'path ×1: an open run of 1 edge: its ends are 7.071 apart',
      'path ×1: draws nothing',
      'path ×1: path data, character 10: a number is expected',
      'path ×1: path data, character 1: it must begin with M',
      'polygon ×1: its points are not pairs of numbers',
      'rect ×1: hidden',
      'rect ×1: its transform is not one',
      'rect ×1: its width is not a length that stands for itself',
      'text ×1: not a line or a curve',
      'use ×1: what it uses is not in the file',
    ])
  })

  it.each([
    ['', 'line 1: no element: not an SVG file'],
    ['hello', 'line 1: "hello" stands outside the drawing: not an SVG file'],
    ['<html></html>', 'line 1: <html> is no SVG drawing'],
    ['<svg>\n<g>\n', 'line 3: cut short: <g> of line 2 is not closed'],
    ['<svg>\n<g></svg>', 'line 2: </svg> where </g> is expected'],
    ['<svg></svg></svg>', 'line 1: </svg> closes nothing'],
    ['<svg/><svg/>', 'line 1: a second root element'],
    ['<svg>\n<rect width=5/></svg>', 'line 2: attribute width of <rect> without quotes'],
    ['<svg>\n<rect width/></svg>', 'line 2: attribute width of <rect> without a value'],
    ['<svg>\n<rect x="1" x="2"/></svg>', 'line 2: attribute x of <rect> stands twice'],
    ['<svg>\n<rect x="1', 'line 2: cut short within attribute x of <rect>'],
    ['<svg>\n\n<!-- a', 'line 3: cut short within a comment'],
    ['<svg><1/></svg>', 'line 1: "1/></svg>" is no name'],
    ['<svg><!ELEMENT a></svg>', 'line 1: markup that has no place in a drawing'],
    [
      '<!DOCTYPE svg [ <!ENTITY a "b"> ]>\n<svg>\n<path d="&a;"/></svg>',
      'line 3: the entity "&a;" is not taken',
    ],
    ['<svg>\n<rect width="&#0;"/></svg>', 'line 2: the entity "&#0;" is not taken'],
  ])('refuses %j', (text, words) => {
    expect(refusal(importSvg(text))).toBe(words)
  })

  it('refuses drawings that multiply, nest without end or take too long', () => {
    expect(refusal(importSvg(svg('<g id="a"><use href="#a"/></g>')))).toMatch(
      /deeper than|more than 100000 elements/,
    )
    const bomb = Array.from(
      { length: 12 },
      (_, i) => `<g id="g${i}">${`<use href="#g${i + 1}"/>`.repeat(10)}</g>`,
    ).join('')
    expect(refusal(importSvg(svg(`${bomb}<g id="g12"/>`)))).toMatch(/more than 100000 elements/)
    expect(refusal(importSvg('<svg>'.repeat(1000)))).toMatch(/elements within elements, deeper than/)
    expect(
      refusal(
        importSvg(
          svg(`<defs><path id="p" d="M0 0${' '.repeat(100_000)}"/></defs>${'<use href="#p"/>'.repeat(1000)}`),
        ),
      ),
    ).toMatch(/takes too long to follow/)
    expect(refusal(importSvg(path(`M0 0${'h1v1'.repeat(120_000)}z`)))).toMatch(/more than 100000 vertices/)
    expect(refusal(importSvg(' '.repeat(10_000_001)))).toMatch(/longer than 10000000/)
  })

  it('ends soon on long lines, long attributes and many openings', () => {
    expect(importSvg(svg(`<rect transform="${'scale(1)'.repeat(500_000)}"/>`)).ok).toBe(true)
    expect(importSvg(`<svg>${'<!a'.repeat(1_000_000)}`).ok).toBe(false)
    expect(importSvg(`<svg a="${'&'.repeat(1_000_000)}"/>`).ok).toBe(true)
    expect(importSvg(`<svg>${'<g/>'.repeat(90_000)}</svg>`).ok).toBe(true)
  })
})
