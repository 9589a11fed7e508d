import { describe, expect, it } from 'vitest'
import { importDxf } from '../../../src-core/import/dxf/read.ts'
import { expectNear } from '../../helpers/near.ts'
import { areasOf, droppedOf, drawingFile, dxfOf, line, lwPolyline, read } from '../../helpers/drawings.ts'

const half = Math.PI / 2

describe('importDxf, files written by ezdxf', () => {
  it.each([
    ['plate-r12.dxf', null, 'POLYLINE'],
    ['plate-r2000.dxf', 'mm', 'LWPOLYLINE'],
    ['plate-r2018.dxf', 'mm', 'LWPOLYLINE'],
  ])('%s: outline, holes, a joined slot, a separate piece', (name, units, polyline) => {
    const preview = read(importDxf(drawingFile(name)))
    expect(preview.units).toBe(units)
    expect(preview.counts).toEqual({ [polyline]: 1, CIRCLE: 1, LINE: 6, ARC: 2 })
    expect(preview.outlines.map((o) => [o.outline.length, o.holes.length])).toEqual([
      [4, 2],
      [3, 0],
    ])
    const [plate, piece] = areasOf(preview)
    expectNear(plate!, 5000 + half * 625 - Math.PI * 100 - (20 * 8 + Math.PI * 16), { rel: 1e-9 })
    expectNear(piece!, 600, { rel: 1e-12 })
    // Arcs stay arcs.
    expect(preview.outlines[0]!.outline.filter((v) => v.bulge === 1)).toHaveLength(1)
    expect(preview.outlines[0]!.holes[0]!.every((v) => v.bulge === 1)).toBe(true)
    expect(droppedOf(preview)).toEqual([
      'CIRCLE ×1: on a layer that is off or frozen',
      'CIRCLE ×1: on a sheet, not in the model',
      'LINE ×1: an open run of 1 edge: its ends are 10 apart',
      'TEXT ×1: not a line or a curve',
    ])
    expect(preview.faults).toEqual([])
    expect(preview.layers).toContainEqual({ name: 'Löcher', count: 1, visible: true })
    expect(preview.layers).toContainEqual({ name: 'Hilfslinien', count: 1, visible: false })
  })

  it('takes only the layers asked for, in any case, also those that are off', () => {
    const preview = read(importDxf(drawingFile('plate-r2000.dxf'), { layers: ['LÖCHER', 'hilfslinien'] }))
    expectNear(areasOf(preview)[0]!, Math.PI * (100 - 9), { rel: 1e-12 })
    expect(preview.outlines[0]!.holes).toHaveLength(1)
  })

  it('blocks.dxf: blocks in blocks, scaled, turned, mirrored, in rows and columns, in inches', () => {
    const preview = read(importDxf(drawingFile('blocks.dxf')))
    expect(preview.units).toBe('in')
    expect(preview.counts).toEqual({ INSERT: 8, LWPOLYLINE: 10, CIRCLE: 1 })
    expect(droppedOf(preview)).toEqual(['INSERT ×1: its block is not in the file'])
    // A leaf: 2 × 1 with a segment of bulge 0.5 on a chord of 2; its radius is 1.25, its angle 4·atan 0.5.
    const angle = 4 * Math.atan(0.5)
    const leaf = 2 + (1.25 ** 2 / 2) * (angle - Math.sin(angle))
    const inch2 = 25.4 ** 2
    const expected = [Math.PI * 6, 4 * leaf, 4 * leaf, ...Array.from({ length: 8 }, () => leaf)].map(
      (a) => a * inch2,
    )
    const areas = areasOf(preview).sort((p, q) => q - p)
    expect(areas).toHaveLength(11)
    areas.forEach((area, i) => expectNear(area, expected[i]!, { rel: 1e-5 }))
    expect(
      preview.outlines.some((o) =>
        o.outline.some((v) => Math.abs(v.x - 55 * 25.4) < 1e-9 && Math.abs(v.y - 4 * 25.4) < 1e-9),
      ),
    ).toBe(true)
    // The mirrored leaf of the second twig: base point at (10, 0) turned by 90° to (0, 10), then moved up by 20.
    expect(preview.outlines.some((o) => o.outline.some((v) => Math.hypot(v.x, v.y - 30 * 25.4) < 1e-6))).toBe(
      true,
    )
    // Leaf corner (3, 2): (2, 1) from the base, scaled to (−4, 2), turned by 30°, at (10, 0).
    const c = Math.cos(Math.PI / 6)
    const corner = { x: (10 - 4 * c - 1) * 25.4, y: (-2 + 2 * c) * 25.4 }
    expect(
      preview.outlines.some((o) => o.outline.some((v) => Math.hypot(v.x - corner.x, v.y - corner.y) < 1e-6)),
    ).toBe(true)
  })

  it('mirrored.dxf: entities whose plane faces down, and one whose plane stands upright', () => {
    const preview = read(importDxf(drawingFile('mirrored.dxf')))
    expect(preview.faults).toEqual([])
    expect(droppedOf(preview)).toEqual(['CIRCLE ×1: drawn in a plane that is not parallel to the plan'])
    const angle = 4 * Math.atan(0.5)
    const radius = 18.75
    const [plate, disc, ellipse] = areasOf(preview)
    expectNear(plate!, 600 + (radius ** 2 / 2) * (angle - Math.sin(angle)) - 25 * Math.PI, { rel: 1e-9 })
    expectNear(disc!, half * 36, { rel: 1e-9 })
    expectNear(ellipse!, half * 32, { rel: 1e-3 })
    expect(preview.outlines[0]!.outline.every((v) => v.x > 0)).toBe(true)
    // The half disc bulges to +x, away from the mirror; the half ellipse hangs down.
    const [low, high] = [Math.min, Math.max].map((f) => f(...preview.outlines[2]!.outline.map((v) => v.y)))
    expectNear(low!, -4, { abs: 0.01 })
    expectNear(high!, 0, { abs: 1e-9 })
  })

  it('curves.dxf: a rational spline that is a circle, an ellipse, a spline through points, in cm', () => {
    const preview = read(importDxf(drawingFile('curves.dxf')))
    expect(preview.units).toBe('cm')
    const [ellipse, circle, bow] = areasOf(preview)
    expectNear(circle!, Math.PI * 2500, { abs: 0.01 * 2 * Math.PI * 50 })
    expectNear(ellipse!, Math.PI * 100 * 40, { abs: 0.01 * 2 * Math.PI * 100 })
    for (const { x, y } of preview.outlines[1]!.outline) expectNear(Math.hypot(x, y), 50, { abs: 1e-9 })
    // The natural cubic through (0,0), (5,4), (10,0) has chords of √41; on each half of length h its y is
    // 4·(1.5·s − 0.5·s³) and x grows evenly, so the area beneath is 2·5·4·(0.75 − 0.125) cm².
    expectNear(bow!, 2500, { abs: 0.01 * 230 })
    expect(preview.faults.map((f) => f.message)).toEqual([
      'a spline is given by points on it only: a natural cubic spline through them stands in',
    ])
  })
})

describe('importDxf, by hand', () => {
  it('joins ends within the tolerance and not beyond it, and says how far they are apart', () => {
    const text = dxfOf([
      line(0, 0, 10, 0),
      line(10.015, 0, 10, 10),
      line(10, 10, 0, 10),
      line(0, 10, 0, 0.01),
    ])
    expectNear(areasOf(read(importDxf(text)))[0]!, 100, { rel: 2e-3 })
    const strict = read(importDxf(text, { joinWithin: 0.005 }))
    expect(strict.outlines).toEqual([])
    expect(droppedOf(strict)).toEqual([
      'LINE ×1: an open run of 1 edge: its ends are 10 apart',
      'LINE ×3: an open run of 3 edges: its ends are 10.015 apart',
    ])
    expect(strict.faults.map((f) => f.message)).toEqual(['no closed outline was found'])
  })

  it('drops doubled edges, free ends and places where more than two edges meet', () => {
    const square = [line(0, 0, 10, 0), line(10, 0, 10, 10), line(10, 10, 0, 10), line(0, 10, 0, 0)]
    const doubled = read(
      importDxf(dxfOf([...square, line(10, 10, 10, 0), line(0, 0, -5, -5), line(-5, -5, -9, 0)])),
    )
    expect(areasOf(doubled)).toEqual([100])
    expect(droppedOf(doubled)).toEqual(['LINE ×1: drawn twice', 'LINE ×2: a run of 2 edges with a free end'])
    const crossed = read(importDxf(dxfOf([...square, line(0, 0, 10, 10)])))
    expect(crossed.outlines).toEqual([])
    expect(droppedOf(crossed)).toEqual([
      'LINE ×5: 3 edges meet in one place, so that no single outline can be followed',
    ])
    const twice = read(
      importDxf(
        dxfOf([
          lwPolyline([
            [0, 0],
            [5, 0],
            [5, 5],
          ]),
          lwPolyline([
            [5, 5],
            [0, 0],
            [5, 0],
          ]),
        ]),
      ),
    )
    expect(areasOf(twice)).toEqual([12.5])
    expect(droppedOf(twice)).toEqual(['outline ×1: drawn twice'])
  })

  it('sorts islands in holes into outlines of their own', () => {
    const ring = (r: number) => [0, 'CIRCLE', 8, '0', 10, 0, 20, 0, 40, r]
    const preview = read(importDxf(dxfOf([ring(10), ring(40), ring(30), ring(20), ring(5)])))
    expect(preview.outlines.map((o) => o.holes.length)).toEqual([1, 1, 0])
    areasOf(preview).forEach((a, i) => expectNear(a, Math.PI * [700, 300, 25][i]!, { rel: 1e-12 }))
  })

  it('keeps a crossed outline in the preview, with its fault', () => {
    const preview = read(
      importDxf(
        dxfOf([
          lwPolyline([
            [0, 0],
            [10, 10],
            [10, 0],
            [0, 12],
          ]),
        ]),
      ),
    )
    expect(preview.outlines).toHaveLength(1)
    expect(preview.faults[0]).toMatchObject({ outline: 0, message: 'crosses or touches itself' })
    expectNear(preview.faults[0]!.at!.x, 60 / 11, { abs: 1e-6 })
  })

  it('asks for the unit where the file states none, and takes the answer', () => {
    const text = dxfOf(
      [
        lwPolyline([
          [0, 0],
          [2, 0],
          [2, 1],
        ]),
      ],
      [],
    )
    expect(read(importDxf(text))).toMatchObject({
      units: null,
      outlines: [{ outline: [{ x: 0 }, { x: 2 }, { x: 2 }] }],
    })
    expect(areasOf(read(importDxf(text, { units: 'in' })))[0]).toBeCloseTo(645.16, 9)
    const parsecs = read(
      importDxf(
        dxfOf(
          [
            lwPolyline([
              [0, 0],
              [2, 0],
              [2, 1],
            ]),
          ],
          [9, '$INSUNITS', 70, 20],
        ),
      ),
    )
    expect(parsecs.units).toBeNull()
    expect(parsecs.faults[0]!.message).toBe('its unit ($INSUNITS 20) is not one a part is drawn in')
  })

  it('fits curves within 0.01 mm whatever the unit, also of a file without one', () => {
    const ellipse = (size: number) => [
      0,
      'ELLIPSE',
      8,
      '0',
      10,
      0,
      20,
      0,
      11,
      size,
      21,
      0,
      40,
      0.3,
      41,
      0,
      42,
      2 * Math.PI,
    ]
    for (const [size, factor, header] of [
      [100, 1, [9, '$INSUNITS', 70, 4]],
      [0.1, 1000, [9, '$INSUNITS', 70, 6]],
      [0.1, 1, []],
    ] as const) {
      const preview = read(importDxf(dxfOf([ellipse(size)], [...header])))
      const scale = header.length === 0 ? 1000 : 1
      for (const v of preview.outlines[0]!.outline) {
        expectNear((v.x / (size * factor)) ** 2 + (v.y / (0.3 * size * factor)) ** 2, 1, { abs: 1e-9 })
      }
      expectNear(areasOf(preview)[0]! * scale ** 2, Math.PI * 3000, { abs: 0.01 * 450 })
    }
  })

  it('reads CRLF, a byte order mark, remarks and old polylines fitted with a curve', () => {
    const vertex = (x: number, y: number, flag: number) => [0, 'VERTEX', 8, '0', 10, x, 20, y, 70, flag]
    const text = dxfOf([
      [999, 'a remark'],
      [0, 'POLYLINE', 8, '0', 66, 1, 70, 5],
      vertex(50, 50, 16),
      vertex(0, 0, 8),
      vertex(10, 0, 8),
      vertex(10, 10, 8),
      [0, 'SEQEND'],
    ])
    expect(areasOf(read(importDxf(`\ufeff${text.replaceAll('\n', '\r\n')}`)))).toEqual([50])
  })

  it('decodes names by the code page that an old file states', () => {
    const name = 'Öl'
    const text = dxfOf(
      [[0, 'CIRCLE', 8, '@@', 10, 0, 20, 0, 40, 5]],
      [9, '$ACADVER', 1, 'AC1015', 9, '$DWGCODEPAGE', 3, 'ANSI_1251'],
    )
    const bytes = new TextEncoder().encode(text)
    // Д and ц of the Cyrillic page.
    bytes.set([0xc4, 0xf6], bytes.indexOf(64))
    expect(read(importDxf(bytes)).layers[0]!.name).toBe('Дц')
    const utf8 = new TextEncoder().encode(text.replace('AC1015', 'AC1021').replace('@@', name))
    expect(read(importDxf(utf8)).layers[0]!.name).toBe(name)
  })
})
