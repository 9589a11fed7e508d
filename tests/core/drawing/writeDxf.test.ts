import { describe, expect, it } from 'vitest'
import { LAYER_STYLES } from '../../../src-core/drawing/model/styles.ts'
import { writeDxf } from '../../../src-core/drawing/writers/writeDxf.ts'
import { readDxf } from '../../helpers/readback.ts'
import type { DxfEntity, DxfFacts } from '../../helpers/readback.ts'
import { DIMENSION, SAMPLE, sampleWith } from '../../helpers/sampleDrawing.ts'

const dxf = writeDxf(SAMPLE, { units: 'mm' })
const facts = readDxf(dxf)
const inches = readDxf(writeDxf(SAMPLE, { units: 'in' }))

const of = ({ entities }: DxfFacts, type: string): DxfEntity[] => entities.filter((e) => e.type === type)
/** `LAYER TYPE` to count. */
function counts(entities: readonly DxfEntity[]): Record<string, number> {
  const found: Record<string, number> = {}
  for (const { layer, type } of entities) found[`${layer} ${type}`] = (found[`${layer} ${type}`] ?? 0) + 1
  return found
}

describe('writeDxf', () => {
  it('passes an audit without error or repair, in either unit and with nothing on the sheet', () => {
    const empty = readDxf(writeDxf({ ...SAMPLE, primitives: [] }))
    for (const { errors, fixes } of [facts, inches, empty])
      expect({ errors, fixes }).toEqual({ errors: [], fixes: [] })
  })

  it('says its units and the sheet', () => {
    expect(facts.version).toBe('AC1021')
    expect(facts.header).toEqual({
      $INSUNITS: 4,
      $MEASUREMENT: 1,
      $LIMMAX: [210, 297],
      $EXTMAX: [210, 297, 0],
    })
    expect(inches.header['$INSUNITS']).toBe(1)
    expect(inches.header['$MEASUREMENT']).toBe(0)
  })

  it('has every layer with colour, line type and line width', () => {
    for (const { dxfName, aci, lineType, width } of Object.values(LAYER_STYLES)) {
      expect(facts.layers[dxfName]).toEqual({ colour: aci, lineType, width: width * 100 })
    }
    expect(facts.lineTypes['HIDDEN']).toEqual([3, -0.75])
    expect(facts.lineTypes['CENTRE']).toEqual([6, -0.75, 0.125, -0.75])
    expect(facts.lineTypes['PHANTOM']).toEqual([6, -0.75, 0.125, -0.75, 0.125, -0.75])
    expect(inches.lineTypes['HIDDEN']![0]).toBeCloseTo(3 / 25.4, 6)
  })

  it('has each primitive once, on its layer', () => {
    const expected = {
      'FRAME LWPOLYLINE': 1,
      'OUTLINE LWPOLYLINE': 2,
      'OUTLINE_THIN LWPOLYLINE': 1,
      'HIDDEN LWPOLYLINE': 1,
      'CENTRE LWPOLYLINE': 1,
      'PHANTOM LWPOLYLINE': 1,
      'HATCH LWPOLYLINE': 1,
      'OUTLINE CIRCLE': 2,
      'OUTLINE_THIN CIRCLE': 1,
      'MARK HATCH': 2,
      'TEXT TEXT': 3,
      'CAUTION TEXT': 1,
      'DIMENSION DIMENSION': 1,
    }
    expect(counts(facts.entities)).toEqual(expected)
    expect(counts(inches.entities)).toEqual(expected)
  })

  it('keeps arcs as bulges', () => {
    const [, , slot, quarter] = of(facts, 'LWPOLYLINE')
    expect(slot!.closed).toBe(true)
    expect(slot!.points).toEqual([
      [125, 195, 0],
      [155, 195, 1],
      [155, 205, 0],
      [125, 205, 1],
    ])
    expect(quarter!.closed).toBe(false)
    expect(quarter!.points![0]![2]).toBeCloseTo(-Math.tan(Math.PI / 8), 10)
  })

  it('is the sheet in inches when asked: the check line is 100 / 25.4 long', () => {
    const line = of(inches, 'LWPOLYLINE')[1]!.points!
    expect(line[1]![0] - line[0]![0]).toBeCloseTo(100 / 25.4, 5)
    expect(of(inches, 'CIRCLE')[0]!.attributes['radius']).toBeCloseTo(20 / 25.4, 5)
    expect(of(inches, 'TEXT')[0]!.attributes['height']).toBeCloseTo(5 / 25.4, 5)
  })

  it('keeps text, its signs, place, anchor, angle and weight', () => {
    const texts = of(facts, 'TEXT')
    expect(texts.map((t) => t.text)).toEqual(['HEAVY SIDE 37°', 'kg·mm', 'A<B & "C"', '50% %c ^J'])
    const [plain, bold, turned] = texts.map((t) => t.attributes)
    expect(plain).toMatchObject({ insert: [20, 265, 0], height: 5, style: 'SHEET' })
    expect(plain!['halign'] ?? 0).toBe(0)
    expect(bold).toMatchObject({ halign: 1, align_point: [100, 25, 0], style: 'SHEET_BOLD' })
    expect(turned).toMatchObject({ halign: 2, align_point: [195, 140, 0], rotation: 90 })
    expect(facts.styles).toMatchObject({ SHEET: 'DejaVuSans.ttf', SHEET_BOLD: 'DejaVuSans-Bold.ttf' })
  })

  it('fills solid shapes with their holes', () => {
    const hatches = of(facts, 'HATCH')
    expect(hatches.map((h) => h.holes)).toEqual([0, 1])
    for (const hatch of hatches) expect(hatch.attributes['solid_fill']).toBe(1)
  })

  it.each([
    ['mm', facts, 1],
    ['in', inches, 1 / 25.4],
  ] as const)('measures its dimension in the model, in %s', (_, read, unit) => {
    const dimension = of(read, 'DIMENSION')[0]!
    const { attributes } = dimension
    expect(attributes['actual_measurement']).toBeCloseTo(DIMENSION.value * unit, 5)
    const style = read.dimensionStyles[String(attributes['dimstyle'])]!
    expect(dimension.measured! * style.factor).toBeCloseTo(DIMENSION.value * unit, 4)
    expect(style.height).toBeCloseTo(3.5 * unit, 5)
    expect(attributes['text']).toBe('Ø120 ±0.1')
    const [x, y] = attributes['text_midpoint'] as number[]
    expect(x).toBeCloseTo(50 * unit, 5)
    expect(y).toBeCloseTo(41 * unit, 5)
  })

  it('draws its dimension in a block of lines, arrowheads and text', () => {
    const { block } = of(facts, 'DIMENSION')[0]!
    expect(counts(block!)).toEqual({ 'DIMENSION LWPOLYLINE': 3, 'DIMENSION HATCH': 2, 'DIMENSION TEXT': 1 })
    expect(block!.at(-1)!.text).toBe('Ø120 ±0.1')
  })

  it('measures a sloping dimension along its line, one style for each scale', () => {
    const sloping = {
      ...DIMENSION,
      from: { x: 10, y: 10 },
      to: { x: 40, y: 50 },
      line: { a: { x: 6, y: 13 }, b: { x: 36, y: 53 } },
      value: 50,
      scale: 1,
    }
    const read = readDxf(writeDxf(sampleWith(sloping, { ...sloping, text: 'again' })))
    expect([read.errors, read.fixes]).toEqual([[], []])
    const dimensions = of(read, 'DIMENSION')
    expect(dimensions.map((d) => d.attributes['geometry'])).toEqual(['*D1', '*D2', '*D3'])
    expect(dimensions[1]!.measured).toBeCloseTo(50, 6)
    expect(Object.keys(read.dimensionStyles).sort()).toEqual(['SHEET_1_3_5', 'SHEET_2_3_5', 'Standard'])
  })

  it('lets no text add tags, codes or control characters', () => {
    const text = 'a\n0\nLINE\n%%d %%%% ^J {\\P} \\U'
    const at = { x: 1, y: 1 }
    const read = readDxf(
      writeDxf(
        sampleWith(
          { kind: 'text', layer: 'text', at, text, height: 3, anchor: 'start', angle: 0 },
          { ...DIMENSION, text },
        ),
      ),
    )
    expect([read.errors, read.fixes]).toEqual([[], []])
    expect(of(read, 'LINE')).toEqual([])
    expect(of(read, 'TEXT').at(-1)!.text).toBe('a 0 LINE % %d % % % % ^J {\\P} \\U')
    expect(of(read, 'DIMENSION').at(-1)!.attributes['text']).toBe(
      'a 0 LINE % %d % % % % ^ J \\{\\\\P\\} \\\\U',
    )
  })

  it('writes no number with an exponent, and none that is not finite', () => {
    const tiny = { kind: 'circle', layer: 'outline', centre: { x: 1e-9, y: -1e-9 }, radius: 1 } as const
    const written = writeDxf(sampleWith(tiny)).split('\n')
    expect(written.filter((line) => /^-?\d+(\.\d+)?e[+-]?\d+$/i.test(line))).toEqual([])
    expect(() => writeDxf(sampleWith({ ...tiny, radius: Number.NaN }))).toThrow(RangeError)
    expect(() => writeDxf(sampleWith({ ...DIMENSION, value: Infinity }))).toThrow(RangeError)
    expect(() => writeDxf(sampleWith({ ...DIMENSION, scale: 0 }))).toThrow(RangeError)
  })

  it('gives the same text twice', () => {
    expect(writeDxf(structuredClone(SAMPLE), { units: 'mm' })).toBe(dxf)
  })
})
