import { describe, expect, it } from 'vitest'
import { importDxf } from '../../../src-core/import/dxf/read.ts'
import { droppedOf, drawingFile, dxfOf, line, lwPolyline, read, refusal } from '../../helpers/drawings.ts'

const utf8 = (text: string) => new TextEncoder().encode(text)
const square = lwPolyline([
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
])
const circle = (r: string | number) => [0, 'CIRCLE', 8, '0', 10, 0, 20, 0, 40, r]

/** Blocks A0 … An, each holding the groups that `inside` gives. */
function blocks(
  count: number,
  inside: (i: number) => (string | number)[],
  entities: (string | number)[],
): string {
  const all = Array.from({ length: count }, (_, i) => [
    0,
    'BLOCK',
    2,
    `A${i}`,
    10,
    0,
    20,
    0,
    ...inside(i),
    0,
    'ENDBLK',
  ])
  return [
    0,
    'SECTION',
    2,
    'BLOCKS',
    ...all.flat(),
    0,
    'ENDSEC',
    0,
    'SECTION',
    2,
    'ENTITIES',
    ...entities,
    0,
    'ENDSEC',
    0,
    'EOF',
  ].join('\n')
}
const insert = (i: number) => [0, 'INSERT', 8, '0', 2, `A${i}`, 10, 0, 20, 0]

describe('importDxf refuses, with the place', () => {
  it('binary DXF and DWG, by name', () => {
    expect(refusal(importDxf(utf8('AutoCAD Binary DXF\r\n\u001a\u0000')))).toBe(
      'byte 0: a binary DXF: save it as ASCII (text) DXF',
    )
    expect(refusal(importDxf(utf8('AC1032\u0000\u0000')))).toBe('byte 0: a DWG drawing: save it as DXF')
  })

  it('what is not DXF at all', () => {
    expect(refusal(importDxf(''))).toBe('line 0: cut short: the end mark EOF is missing')
    expect(refusal(importDxf('hello\nworld\n'))).toMatch(/^line 1: "hello" is not a group code/)
    expect(refusal(importDxf('0\nEOF\n'))).toBe('line 1: no section: not a DXF drawing')
    expect(refusal(importDxf(utf8('%PDF-1.7\n\u0000\u0001')))).toMatch(/^line 1/)
  })

  it('a file cut short at any place', () => {
    const bytes = drawingFile('plate-r12.dxf')
    for (let n = 0; n < bytes.length - 6; n += 97) expect(importDxf(bytes.subarray(0, n)).ok).toBe(false)
  })

  it.each(['NaN', 'inf', '1e400', '1e10', '', '1,5', '0x1', '1 2'])(
    'the radius %j, with its line',
    (radius) => {
      expect(refusal(importDxf(dxfOf([circle(radius)])))).toMatch(
        /^line 24: group 40 of CIRCLE: .* is not a usable number$/,
      )
    },
  )

  it('an entity that lacks what it needs', () => {
    expect(refusal(importDxf(dxfOf([[0, 'LINE', 8, '0', 10, 1, 20, 2]])))).toBe(
      'line 15: LINE lacks its group 11',
    )
  })

  it('more elements than allowed', () => {
    const many = Array.from({ length: 100_001 }, () => [0, 'POINT', 8, '0'])
    expect(refusal(importDxf(dxfOf(many)))).toMatch(/more than 100000 elements/)
  })

  it('more vertices than allowed', () => {
    const points = Array.from({ length: 100_001 }, (_, i) => [i, i % 7])
    expect(refusal(importDxf(dxfOf([lwPolyline(points)])))).toMatch(/more than 100000 vertices/)
  })

  it('more bytes than allowed', () => {
    expect(refusal(importDxf(new Uint8Array(10_000_001)))).toMatch(/more than the 10000000 allowed/)
  })

  it('blocks that hold themselves, and blocks that multiply', () => {
    expect(refusal(importDxf(blocks(1, () => insert(0), insert(0))))).toMatch(
      /blocks within blocks, deeper than 24/,
    )
    const bomb = blocks(
      20,
      (i) => (i < 19 ? [...insert(i + 1), ...insert(i + 1), ...insert(i + 1), ...insert(i + 1)] : square),
      insert(0),
    )
    expect(refusal(importDxf(bomb))).toMatch(/more than 100000 vertices/)
    const empty = blocks(
      20,
      (i) => (i < 19 ? Array.from({ length: 9 }, () => insert(i + 1)).flat() : []),
      insert(0),
    )
    expect(refusal(importDxf(empty))).toMatch(/more than 100000 elements/)
    const rows = blocks(1, () => [], [...insert(0), 70, 32000, 71, 32000, 44, 1, 45, 1])
    expect(refusal(importDxf(rows))).toMatch(/more than 100000 elements/)
    const heavy = blocks(
      1,
      () => [...circle(1), ...Array.from({ length: 20_000 }, () => [1000, 'x']).flat()],
      [...insert(0), 70, 300, 71, 300],
    )
    expect(refusal(importDxf(heavy))).toMatch(/takes too long to follow/)
  })

  it('splines that would take for ever', () => {
    const n = 4000
    const points = Array.from({ length: n }, (_, i) => [
      10,
      (i * 7919) % 1000,
      20,
      (i * 104729) % 1000,
    ]).flat()
    const knots = Array.from({ length: n + 26 }, (_, i) => [40, i]).flat()
    expect(refusal(importDxf(dxfOf([[0, 'SPLINE', 8, '0', 71, 25, ...knots, ...points]])))).toMatch(
      /takes too long|more than 100000/,
    )
  })
})

describe('importDxf drops, with the reason', () => {
  const reasonOf = (entity: (string | number)[]) => droppedOf(read(importDxf(dxfOf([square, entity])))).join()

  it.each([
    [circle(0), 'CIRCLE ×1: its radius is not above zero'],
    [circle(-3), 'CIRCLE ×1: its radius is not above zero'],
    [
      [0, 'LWPOLYLINE', 8, '0', 90, 9, 70, 1, 10, 0, 20, 0, 10, 1, 20, 1],
      'LWPOLYLINE ×1: announces more or fewer vertices than it has',
    ],
    [
      lwPolyline([
        [0, 0, 1e5],
        [1, 1],
      ]),
      'LWPOLYLINE ×1: a bulge beyond 10000',
    ],
    [
      lwPolyline([
        [0, 0],
        [5, 5],
        [9, 9],
      ]),
      'outline ×1: encloses no area',
    ],
    [
      lwPolyline([
        [1e8, 0],
        [1e8, 1e8],
        [0, 1e8],
      ]),
      'LWPOLYLINE ×1: reaches beyond 10000000',
    ],
    [[0, 'ELLIPSE', 8, '0', 10, 0, 20, 0, 11, 0, 21, 0, 40, 1], 'ELLIPSE ×1: an axis without length'],
    [
      [0, 'SPLINE', 8, '0', 71, 3, 40, 0, 40, 1, 10, 0, 20, 0],
      'SPLINE ×1: its points, knots, weights and degree do not fit together',
    ],
    [
      [0, 'SPLINE', 8, '0', 71, 1e6, 40, 0, 40, 1, 10, 0, 20, 0],
      'SPLINE ×1: its points, knots, weights and degree do not fit together',
    ],
    [[0, 'HATCH', 8, '0', 2, 'SOLID'], 'HATCH ×1: not a line or a curve'],
    [[0, 'CONSTRUCTOR', 8, '0'], 'CONSTRUCTOR ×1: not a line or a curve'],
    [line(1, 1, 1, 1), 'LINE ×1: shorter than the joining tolerance'],
    [[...circle(2), 60, 1], 'CIRCLE ×1: invisible'],
  ])('%j', (entity, reason) => {
    expect(reasonOf(entity)).toBe(reason)
  })

  it('a hub of ten thousand loose spokes and ten thousand edges between two points', () => {
    const spokes = Array.from({ length: 10_000 }, (_, i) => line(0, 0, 100 * Math.cos(i), 100 * Math.sin(i)))
    expect(read(importDxf(dxfOf(spokes))).outlines).toEqual([])
    const between = Array.from({ length: 10_000 }, (_, i) =>
      lwPolyline(
        [
          [0, 0, i / 1e4 + 0.1],
          [10, 0],
        ],
        0,
      ),
    )
    expect(read(importDxf(dxfOf(between))).outlines).toEqual([])
  })

  it('a comb whose edges all lie above one another is kept, marked as not checked', () => {
    const teeth = Array.from({ length: 10_000 }, (_, i) => [i % 2 === 0 ? i / 1e4 : 50 + i / 1e4, i * 0.01])
    const preview = read(importDxf(dxfOf([lwPolyline([...teeth, [-1, 100], [-1, -1]])])))
    expect(preview.faults.map((f) => f.message)).toEqual(['is too intricate to be checked'])
  })
})
