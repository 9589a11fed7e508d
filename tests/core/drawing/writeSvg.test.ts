import { Window } from 'happy-dom'
import { describe, expect, it } from 'vitest'
import { LAYER_STYLES } from '../../../src-core/drawing/model/styles.ts'
import { writeSvg } from '../../../src-core/drawing/writers/writeSvg.ts'
import { readXml } from '../../helpers/readback.ts'
import { LAYERS, SAMPLE, sampleWith } from '../../helpers/sampleDrawing.ts'

const parse = (svg: string) => new new Window().DOMParser().parseFromString(svg, 'image/svg+xml')
const svg = writeSvg(SAMPLE)
const root = parse(svg).documentElement
const all = (selector: string) => [...root.querySelectorAll(selector)]
const attributes = (element: (typeof root)['children'][number]) =>
  Object.fromEntries(element.getAttributeNames().map((name) => [name, element.getAttribute(name)]))

describe('writeSvg', () => {
  it('is well-formed XML, in the eyes of a strict parser too', () => {
    const tags = readXml(svg)
    expect(tags[0]).toBe('{http://www.w3.org/2000/svg}svg')
    expect(tags.filter((tag) => tag.endsWith('}text'))).toHaveLength(5)
  })

  it('has the sheet in millimetres and the title', () => {
    expect(root.getAttribute('width')).toBe('210mm')
    expect(root.getAttribute('height')).toBe('297mm')
    expect(root.getAttribute('viewBox')).toBe('0 0 210 297')
    expect(root.getAttribute('font-family')).toBe('DejaVu Sans')
    expect(root.querySelector('title')?.textContent).toBe('Set-up <1> & Ø plate')
  })

  it('groups by layer with width, dashes and colour, every id once', () => {
    const groups = all('g')
    expect(new Set(groups.map((g) => g.getAttribute('class')))).toEqual(new Set(LAYERS))
    const ids = groups.map((g) => g.id)
    expect(new Set(ids).size).toBe(ids.length)
    for (const layer of LAYERS) {
      const group = root.querySelector(`#layer-${layer}`)!
      const { width, colour, dash } = LAYER_STYLES[layer]
      expect(Number(group.getAttribute('stroke-width'))).toBe(width)
      expect(group.getAttribute('stroke')).toBe(colour)
      expect(group.getAttribute('stroke-dasharray')?.split(' ').map(Number) ?? []).toEqual(dash)
    }
  })

  it('draws what the model says, y down, in painting order', () => {
    const paths = all('path').map((path) => path.getAttribute('d'))
    expect(paths).toEqual([
      'M10 287L200 287',
      'M20 17L120 17',
      'M125 102L155 102A5 5 0 0 0 160 97A5 5 0 0 0 155 92L125 92A5 5 0 0 0 120 97A5 5 0 0 0 125 102Z',
      'M40 77A20 20 0 0 1 60 57',
      'M20 117L190 117',
      'M20 127L190 127',
      'M20 137L190 137',
      'M20 147L190 147',
      'M170 197L190 197L190 177L170 177ZM175 192L185 192L185 182L175 182Z',
      'M20 248L20 259',
      'M80 248L80 259',
      'M20 257L80 257',
      'M20 257L23 256.5L23 257.5Z',
      'M80 257L77 256.5L77 257.5Z',
    ])
  })

  it('fills: none, solid without a line round it, tint and paper with one', () => {
    expect(all('circle').map(attributes)).toEqual([
      { cx: '50', cy: '187', r: '20' },
      { cx: '100', cy: '187', r: '10', fill: '#000000', 'fill-rule': 'evenodd', stroke: 'none' },
      { cx: '140', cy: '187', r: '15', fill: '#e6e6e6', 'fill-rule': 'evenodd' },
      { cx: '140', cy: '187', r: '5', fill: '#ffffff', 'fill-rule': 'evenodd' },
    ])
  })

  it('keeps text as text, with size from the capital height', () => {
    const texts = all('text')
    expect(texts.map((t) => t.textContent)).toEqual([
      'HEAVY SIDE 37°',
      'kg·mm',
      'A<B & "C"',
      '50%%c ^J',
      'Ø120 ±0.1',
    ])
    expect(Number(texts[0]!.getAttribute('font-size')) * (1493 / 2048)).toBeCloseTo(5, 3)
    expect(texts.map((t) => t.getAttribute('text-anchor'))).toEqual([
      'start',
      'middle',
      'end',
      'start',
      'middle',
    ])
    expect(texts.map((t) => t.getAttribute('font-weight'))).toEqual([null, 'bold', null, null, null])
    expect(texts[2]!.getAttribute('transform')).toBe('rotate(-90 195 157)')
    expect(texts[3]!.getAttribute('fill')).toBe(LAYER_STYLES.caution.colour)
  })

  it('takes characters out that XML cannot hold', () => {
    const text = 'a\u0000b\u0008c\nd\ud800e\uffff<script>'
    const hostile = sampleWith({
      kind: 'text',
      layer: 'text',
      at: { x: 0, y: 0 },
      text,
      height: 3,
      anchor: 'start',
      angle: 0,
    })
    const written = writeSvg(hostile)
    expect(readXml(written)).not.toContain('{http://www.w3.org/2000/svg}script')
    expect([...parse(written).querySelectorAll('text')].at(-1)?.textContent).toBe('a b c d e <script>')
  })

  it('gives the same text twice', () => {
    expect(writeSvg(structuredClone(SAMPLE))).toBe(svg)
  })

  it('refuses a number that is not finite', () => {
    const bad = { kind: 'circle', layer: 'outline', centre: { x: Number.NaN, y: 0 }, radius: 1 } as const
    expect(() => writeSvg(sampleWith(bad))).toThrow(RangeError)
  })
})
