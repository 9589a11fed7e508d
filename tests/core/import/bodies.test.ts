import { describe, expect, it } from 'vitest'
import { importFile } from '../../../src-core/import/importFile.ts'
import { importStl } from '../../../src-core/import/stl.ts'
import { toBodies } from '../../../src-core/import/toBodies.ts'
import { jobSchema } from '../../../src-core/job/schema.ts'
import { meshProperties } from '../../../src-core/mesh/properties.ts'
import { areaOf, drawingFile, read, refusal } from '../../helpers/drawings.ts'
import { Solid, binaryStl, cornersOf, meshOf } from '../../helpers/solids.ts'

const utf8 = (text: string) => new TextEncoder().encode(text)
const cube = cornersOf(meshOf(Solid.cube([10, 20, 30]).translate([0, 0, 5])))
const csv = (text: string) => read(importFile('points.csv', utf8(text)))

function made(result: ReturnType<typeof toBodies>) {
  if (!result.ok) throw new Error(result.reason)
  expect(jobSchema.shape.part.shape.bodies.safeParse(result.bodies).success).toBe(true)
  return result.bodies
}
const reason = (result: ReturnType<typeof toBodies>) => (result.ok ? 'made' : result.reason)

describe('importFile', () => {
  it('goes by the ending of the name', () => {
    expect(read(importFile('A.DXF', drawingFile('plate-r2000.dxf'))).kind).toBe('dxf')
    expect(read(importFile('a.b.svg', utf8('<svg><rect width="1" height="1"/></svg>'))).kind).toBe('svg')
    expect(read(importFile('a.stl', binaryStl(cube))).kind).toBe('stl')
    expect(read(importFile('a.txt', utf8('0,0\n1,0\n1,1'))).kind).toBe('csv')
    expect(refusal(importFile('a.step', utf8('')))).toBe(
      'the name: only dxf, svg, csv, txt, stl files are imported',
    )
    expect(refusal(importFile('dxf', utf8('')))).toMatch(/^the name/)
  })

  it('reads UTF-16 tables, as spreadsheets write them', () => {
    const text = '\ufeff0\t0\r\n1\t0\r\n1\t1\r\n'
    const wide = new Uint8Array(2 * text.length)
    for (let i = 0; i < text.length; i++) wide.set([text.charCodeAt(i) & 255, text.charCodeAt(i) >> 8], 2 * i)
    expect(read(importFile('a.txt', wide)).outlines).toHaveLength(1)
  })
})

describe('importStl', () => {
  it('gives the silhouette, counts and no unit', () => {
    const preview = read(importStl(binaryStl(cube)))
    expect(preview).toMatchObject({
      units: null,
      counts: { triangle: 12, vertex: 8 },
      dropped: [],
      faults: [],
    })
    expect(preview.outlines.map(areaOf)).toEqual([200])
  })

  it('names the open edges of a surface in the preview and makes no body of it', () => {
    const preview = read(importStl(binaryStl(cube.subarray(9)), { units: 'mm' }))
    expect(preview.solid!.faults).toMatchObject({ openEdges: 3 })
    expect(preview.faults[0]!.message).toMatch(/^the surface is open at 3 edges/)
    expect(reason(toBodies(preview, { thickness: 1 }))).toMatch(/^the surface is open at 3 edges/)
  })

  it('refuses a damaged file and a unit that no mesh is drawn in', () => {
    expect(refusal(importStl(binaryStl(cube).subarray(0, 300)))).toMatch(/^triangle 5: cut short/)
    expect(refusal(importStl(binaryStl(cube), { units: 'px' }))).toMatch(/an STL file in px is not taken/)
  })
})

describe('toBodies', () => {
  it('makes a prism of every outline without fault', () => {
    const preview = read(importFile('plate.dxf', drawingFile('plate-r2018.dxf')))
    const bodies = made(
      toBodies(preview, { thickness: 12, base: 3, takenIds: ['b1'], origin: { x: 30, y: 25 } }),
    )
    expect(bodies.map((b) => b.id)).toEqual(['b2', 'b3'])
    expect(bodies[0]).toMatchObject({
      effect: 'adds',
      base: 3,
      thickness: 12,
      outline: [{ x: -30, y: -25 }, { x: 70, y: -25, bulge: 1 }, {}, {}],
    })
    expect(bodies[0]).toHaveProperty('holes.length', 2)
    expect(made(toBodies(preview, { thickness: 12, outlines: [1] }))).toHaveLength(1)
  })

  it('asks for the unit once the file states none', () => {
    const preview = csv('0,0\n1,0\n1,1\n')
    expect(reason(toBodies(preview, { thickness: 5 }))).toBe(
      'the file states no unit: say which it was drawn in',
    )
    expect(made(toBodies(preview, { thickness: 5, units: 'in' }))[0]).toMatchObject({
      outline: [{}, { x: 25.4, y: 0 }, {}],
    })
    const stl = read(importStl(binaryStl(cube)))
    const [body] = made(toBodies(stl, { thickness: 0, units: 'in', base: 2 }))
    if (!body || !('mesh' in body)) throw new Error('no mesh')
    expect(meshProperties(body.mesh).volume).toBeCloseTo(6000 * 25.4 ** 3, -3)
    // Its lowest point, at 5 inches in the file, sits 2 mm above the seat.
    expect(body.base).toBe(2 - 127)
  })

  it('leaves out outlines with faults unless asked for, then refuses with the fault', () => {
    const preview = csv('0,0\n10,10\n10,0\n0,12\n\n20,0\n30,0\n30,9\n')
    expect(made(toBodies(preview, { thickness: 5, units: 'mm' }))).toHaveLength(1)
    const faulty = preview.faults[0]!.outline!
    expect(reason(toBodies(preview, { thickness: 5, units: 'mm', outlines: [faulty] }))).toBe(
      `outline ${faulty + 1} crosses or touches itself`,
    )
  })

  it('refuses without thickness, without outlines, and beyond the limits', () => {
    const preview = csv('0,0\n1,0\n1,1\n')
    expect(reason(toBodies(preview, { thickness: 0, units: 'mm' }))).toBe('the thickness must be above zero')
    expect(reason(toBodies(preview, { thickness: NaN, units: 'mm' }))).toBe(
      'the thickness must be above zero',
    )
    expect(reason(toBodies(preview, { thickness: 5, units: 'mm', outlines: [3] }))).toBe(
      'there is no outline 3',
    )
    expect(reason(toBodies(csv('0,0\n1,1\n2,2\n'), { thickness: 5, units: 'mm' }))).toBe(
      'no closed outline was found',
    )
    expect(reason(toBodies(csv('0,0\n99999,0\n1,1\n'), { thickness: 5, units: 'm' }))).toBe(
      'outline 1 reaches beyond 100000 mm',
    )
    const many = csv(
      Array.from({ length: 201 }, (_, i) => `${2 * i},0\n${2 * i + 1},0\n${2 * i},1\n`).join('\n'),
    )
    expect(many.faults[0]!.message).toBe('201 outlines, more than the 200 bodies that a part may have')
    expect(reason(toBodies(many, { thickness: 5, units: 'mm' }))).toBe(
      '201 outlines, more than the 200 bodies a part may have',
    )
  })
})
