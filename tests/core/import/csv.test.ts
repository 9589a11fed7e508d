import { describe, expect, it } from 'vitest'
import { importCsv } from '../../../src-core/import/csv.ts'
import { areasOf, droppedOf, read, refusal } from '../../helpers/drawings.ts'

describe('importCsv', () => {
  it.each([
    ['commas', '0,0\n10,0\n10,5.5\n0,5.5\n'],
    ['semicolons and decimal commas', '0;0\r\n10;0\r\n10;5,5\r\n0;5,5\r\n'],
    ['semicolons and decimal points', '0;0\n10;0\n10;5.5\n0;5.5'],
    ['tabs and decimal commas', '0\t0\n1,0e1\t0\n10\t5,5\n0\t5,5\n\n\n'],
    [
      'a heading, remarks, a mark, quotes and empty cells',
      '\ufeffx;y;degrees\n# outline\n"0";0;;\n10;0;\n10;"5,5"\n0;5,5;0\n',
    ],
    ['the first point again at the end', '0,0\n10,0\n10,5.5\n0,5.5\n0,0\n'],
  ])('reads %s', (_, text) => {
    const preview = read(importCsv(text))
    expect(preview).toMatchObject({ kind: 'csv', units: null, faults: [], dropped: [] })
    expect(areasOf(preview)).toEqual([55])
  })

  it('reads degrees swept and several outlines, a hole among them', () => {
    const preview = read(
      importCsv('x,y,degrees swept\n-10,0,180\n10,0,180\n\n-5,0,180\n5,0,180\n\n20,0\n30,0\n30,10\n'),
    )
    expect(preview.outlines.map((o) => o.holes.length)).toEqual([1, 0])
    expect(areasOf(preview)[0]).toBeCloseTo(75 * Math.PI, 10)
    expect(preview.counts).toEqual({ point: 7 })
  })

  it('takes the unit from the heading or from the options', () => {
    const square = '0,0\n1,0\n1,1\n0,1\n'
    expect(read(importCsv(`x [mm],y [mm]\n${square}`)).units).toBe('mm')
    expect(areasOf(read(importCsv(`x (in),y (in)\n${square}`)))[0]).toBeCloseTo(645.16, 9)
    expect(areasOf(read(importCsv(`x,y\n${square}`, { units: 'cm' })))).toEqual([100])
    expect(read(importCsv(`max,min\n${square}`)).units).toBeNull()
  })

  it.each([
    ['', 'line 1: no points'],
    ['x,y\n\n', 'line 3: no points'],
    ['1,2\n3\n', 'line 2: "3" is not two values x and y'],
    ['1,2\n3,x\n', 'line 2: "x" is not a number'],
    ['1,2\n3,NaN\n', 'line 2: "NaN" is not a number'],
    ['1,2\n3,1e999\n', 'line 2: "1e999" is not a number'],
    [
      '1,5,2,5\n',
      'line 1: 4 values where x, y and perhaps degrees swept are expected; a decimal comma needs semicolons or tabs between the values',
    ],
    ['1;2;3;4\n', 'line 1: 4 values where x, y and perhaps degrees swept are expected'],
    ['1;2\n1.000,5;2\n', 'line 2: "1.000,5" is not a number'],
    ['x,y,degrees\n0,0,360\n1,1\n', 'line 2: an arc cannot sweep 360°'],
    [
      '0,0,1\n1,1\n',
      'line 1: what the third value, 1, means is not said: name the columns in a first line, as "x, y, degrees swept"',
    ],
    [
      'x,y,radius\n0,0,\n1,0,5\n',
      'line 3: the third column is headed "radius": an arc is read from the degrees that it sweeps, under the heading "degrees swept"',
    ],
    ['=SUM(A1)\n', 'line 1: "=SUM(A1)" is not two values x and y'],
  ])('refuses %j', (text, words) => {
    expect(refusal(importCsv(text))).toBe(words)
  })

  it('reads values with blanks between them, as a text file has them', () => {
    const plain = read(importCsv('x y\n0 0\n4  0\n4 1.5\n0 1.5\n'))
    expect(plain.outlines).toEqual(read(importCsv('x,y\n0,0\n4,0\n4,1.5\n0,1.5\n')).outlines)
    expect(refusal(importCsv('0 0\n1 2 3 4\n'))).toMatch(/4 values where x, y/)
  })

  it('refuses too many points and drops outlines without area', () => {
    expect(refusal(importCsv('1,2\n'.repeat(100_001)))).toBe('line 100001: more than 100000 vertices')
    expect(droppedOf(read(importCsv('0,0\n1,1\n2,2\n')))).toEqual(['outline ×1: encloses no area'])
    expect(droppedOf(read(importCsv('0,0\n\n0,0\n1,0\n1,1\n')))).toEqual(['outline ×1: has a single vertex'])
  })
})
