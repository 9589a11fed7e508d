import { describe, expect, it } from 'vitest'
import { writeDxf } from '../../../src-core/drawing/writers/writeDxf.ts'
import { writeSvg } from '../../../src-core/drawing/writers/writeSvg.ts'
import { plateTemplate } from '../../../src-core/drawing/template/plateTemplate.ts'
import { bracketJob, bracketSheets, golden } from '../../helpers/goldenSheet.ts'

const sheets = [
  { name: 'bracket-a3', drawing: bracketSheets()[0]!, units: 'mm' },
  { name: 'bracket-ansi-a', drawing: bracketSheets({ sheet: 'ANSI-A' }, 'in')[0]!, units: 'in' },
] as const

describe.each(sheets)('$name', ({ name, drawing, units }) => {
  it('is the golden SVG', () => {
    const svg = writeSvg(drawing)
    expect(svg).toBe(golden(`${name}.svg`, svg))
  })

  it('is the golden DXF', () => {
    const dxf = writeDxf(drawing, { units })
    expect(dxf).toBe(golden(`${name}.dxf`, dxf))
  })
})

it("the template's first sheet is the golden SVG", () => {
  const svg = writeSvg(plateTemplate(bracketJob(), 'op10', 'A4')[0]!)
  expect(svg).toBe(golden('bracket-template-a4.svg', svg))
})
