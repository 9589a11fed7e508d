import { describe, expect, it } from 'vitest'
import { readStl } from '../../../src-core/mesh/stl.ts'
import { Solid, binaryStl, cornersOf, meshOf, textStl } from '../../helpers/solids.ts'

const corners = cornersOf(meshOf(Solid.cube([10, 20, 30])))
const utf8 = (text: string) => new TextEncoder().encode(text)

function refused(bytes: Uint8Array) {
  const result = readStl(bytes)
  if (result.ok) throw new Error('was read')
  return `${result.place}: ${result.reason}`
}

describe('readStl', () => {
  it('reads binary', () => {
    expect(readStl(binaryStl(corners))).toEqual({ ok: true, kind: 'binary', triangles: corners })
  })

  it('reads binary whose header begins with "solid"', () => {
    const result = readStl(binaryStl(corners, 'solid but binary'))
    expect(result).toEqual({ ok: true, kind: 'binary', triangles: corners })
  })

  it('reads bytes that lie at an odd place in a larger buffer', () => {
    const whole = new Uint8Array(1000)
    whole.set(binaryStl(corners), 3)
    expect(readStl(whole.subarray(3, 3 + 84 + 12 * 50))).toMatchObject({ ok: true, triangles: corners })
  })

  it.each(['\n', '\r\n'])('reads text with line ends %j', (newline) => {
    expect(readStl(utf8(textStl(corners, newline)))).toEqual({ ok: true, kind: 'text', triangles: corners })
  })

  it('reads several solids in one text file, capitals, a byte order mark and exponents', () => {
    const text = `\ufeffSOLID a b c\nFACET NORMAL nan 0 0 OUTER LOOP VERTEX 0 0 0 vertex 1.5e1 -.5 0 vertex 0 +1E-1 2. endloop endfacet endsolid a
solid\nfacet normal 0 0 1 outer loop vertex 0 0 0 vertex 1 0 0 vertex 0 1 0 endloop endfacet\nendsolid`
    expect(readStl(utf8(text))).toEqual({
      ok: true,
      kind: 'text',
      triangles: Float64Array.of(0, 0, 0, 15, -0.5, 0, 0, 0.1, 2, 0, 0, 0, 1, 0, 0, 0, 1, 0),
    })
  })

  it('refuses what is cut short, with the place', () => {
    const binary = binaryStl(corners)
    expect(refused(binary.subarray(0, binary.length - 20))).toBe(
      'triangle 12: cut short: the header announces 12 triangles, the file holds 11',
    )
    expect(refused(binary.subarray(0, 40))).toMatch(/^byte 0: neither text STL/)
    const text = textStl(corners)
    expect(refused(utf8(text.slice(0, text.indexOf('endsolid'))))).toMatch(
      /^line \d+: cut short: "endsolid" is missing/,
    )
    expect(refused(utf8(text.slice(0, 60)))).toMatch(/^line \d: cut short/)
  })

  it('refuses every shortened binary and text file without throwing', () => {
    const binary = binaryStl(corners)
    for (let n = 0; n < binary.length; n += 7) expect(readStl(binary.subarray(0, n)).ok).toBe(false)
    const text = utf8(textStl(corners).trimEnd())
    const last = text.length - 'endsolid made for a test'.length
    for (let n = 0; n < last; n += 3) expect(readStl(text.subarray(0, n)).ok).toBe(false)
  })

  it('refuses counts that do not fit the length, and none at all', () => {
    const more = new Uint8Array([...binaryStl(corners), 1, 2, 3])
    expect(refused(more)).toBe('byte 684: 3 bytes after the 12 triangles that the header announces')
    expect(refused(binaryStl([]))).toBe('byte 80: no triangles')
    expect(refused(utf8('solid x\nendsolid x\n'))).toMatch(/no triangles/)
    expect(refused(new Uint8Array())).toBe('byte 0: the file is empty')
    const hugeCount = binaryStl(corners)
    new DataView(hugeCount.buffer).setUint32(80, 0xffffffff, true)
    expect(refused(hugeCount)).toMatch(/announces 4294967295 triangles, the file holds 12/)
  })

  it('refuses more triangles than allowed', () => {
    expect(refused(binaryStl(new Float64Array(9 * 250_001)))).toMatch(
      /250001 triangles, more than the 250000 allowed/,
    )
  })

  it.each([NaN, Infinity, -Infinity, 1e7])(
    'refuses the coordinate %d in binary, with the triangle',
    (value) => {
      const bad = Float64Array.from(corners)
      bad[9 * 4 + 5] = value
      expect(refused(binaryStl(bad))).toMatch(
        /^triangle 5: (a coordinate is not a finite number|coordinate 10000000 is beyond)/,
      )
    },
  )

  it.each(['nan', '1e999', '0x10', '1_0', '--1', '1,5', '-200000', ''])(
    'refuses the text coordinate %j, with the line',
    (word) => {
      const text = `solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 ${word} 0\nvertex 0 1 0\nendloop\nendfacet\nendsolid a`
      expect(refused(utf8(text))).toMatch(/^line [56]: /)
    },
  )

  it('refuses other text and other binaries', () => {
    expect(refused(utf8('solid a\nhello\n'))).toBe('line 2: expected "endsolid", found "hello"')
    expect(refused(utf8('0\nSECTION\n2\nHEADER\n'.repeat(20)))).toMatch(/cut short/)
    expect(refused(utf8(`${textStl(corners)}rubbish`))).toMatch(
      /expected "solid" or the end, found "rubbish"/,
    )
  })
})
