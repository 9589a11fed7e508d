import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parseJob } from '../../src-core/job/parse.ts'
import { LIMITS } from '../../src-core/job/schema.ts'
import { bytesOfBase64 } from '../../src-core/picture/base64.ts'
import { readPictureHeader } from '../../src-core/picture/header.ts'
import { planMap, type Ties } from '../../src-core/picture/planMap.ts'
import { sheetFor } from '../../src-core/picture/warp.ts'
import { exampleText } from '../helpers/jobs.ts'
import { exifBlock, makeJpeg, makePng } from '../helpers/pictures.ts'

/** How many spoilt files each fuzz tries; set EVENSWING_FUZZ higher for a long run. */
const RUNS = Number(process.env['EVENSWING_FUZZ'] ?? 300)

const PICTURES = [
  makePng(9, 7, (x, y) => [x * 20, y * 30, 90]),
  makePng(3, 40, undefined, [{ name: 'eXIf', body: exifBlock(8) }]),
  makeJpeg(33, 17),
  makeJpeg(16, 16, 3),
]

/** Whatever the bytes, an answer: a size within the limits, or a reason at a byte of the file. */
function expectAnswer(bytes: Uint8Array): void {
  const read = readPictureHeader(bytes)
  if (read.ok) {
    for (const n of [read.width, read.height]) {
      expect(Number.isInteger(n)).toBe(true)
      expect(n).toBeGreaterThan(0)
      expect(n).toBeLessThanOrEqual(LIMITS.picturePixels)
    }
    expect(read.orientation).toBeGreaterThanOrEqual(1)
    expect(read.orientation).toBeLessThanOrEqual(8)
    return
  }
  expect(read.reason).not.toMatch(/undefined|NaN|\n|^$/)
  expect(read.at).toBeGreaterThanOrEqual(0)
  expect(read.at).toBeLessThanOrEqual(bytes.length)
}

describe('spoilt pictures', () => {
  it('with bytes changed, cut out, put in and cut off get an answer', () => {
    const edit = fc.record({
      at: fc.nat(),
      cut: fc.nat(6),
      put: fc.oneof(fc.uint8Array({ maxLength: 6 }), fc.constant(new Uint8Array([255, 255, 255, 255]))),
    })
    fc.assert(
      fc.property(
        fc.nat(PICTURES.length - 1),
        fc.array(edit, { minLength: 1, maxLength: 4 }),
        fc.nat(5),
        (which, edits, end) => {
          let bytes = PICTURES[which]!
          for (const { at, cut, put } of edits) {
            const i = at % bytes.length
            bytes = Buffer.concat([bytes.subarray(0, i), put, bytes.subarray(i + cut)])
          }
          expectAnswer(end === 0 ? bytes.subarray(0, Math.floor(bytes.length / 2)) : bytes)
        },
      ),
      { numRuns: RUNS },
    )
  })

  it('with one byte at a time set to any extreme get an answer', () => {
    for (const whole of PICTURES)
      for (let i = 0; i < whole.length; i++)
        for (const value of [0, 1, 0x7f, 0x80, 0xc0, 0xd9, 0xda, 0xff]) {
          const bytes = Buffer.from(whole)
          bytes[i] = value
          expectAnswer(bytes)
        }
  })

  it('of endless tiny segments and chunks are walked once', () => {
    const chunks = Buffer.alloc(12 * 300_000)
    for (let i = 0; i < chunks.length; i += 12) chunks.write('teXt', i + 4, 'latin1')
    const png = PICTURES[0]!
    expectAnswer(Buffer.concat([png.subarray(0, 33), chunks]))
    const markers = Buffer.alloc(4_000_000, 0xff)
    expectAnswer(Buffer.concat([PICTURES[2]!.subarray(0, 2), markers]))
    const segments = Buffer.alloc(4_000_000)
    for (let i = 0; i < segments.length; i += 4) segments.set([0xff, 0xfe, 0, 2], i)
    expectAnswer(Buffer.concat([PICTURES[2]!.subarray(0, 2), segments]))
  })
})

describe('a job with a spoilt picture', () => {
  it('is read or refused with a place', () => {
    const whole = JSON.parse(exampleText('flat-link')) as { part: Record<string, unknown> }
    const good = PICTURES[0]!.toString('base64')
    fc.assert(
      fc.property(fc.nat(good.length - 1), fc.string({ maxLength: 5 }), fc.nat(5), (at, put, cut) => {
        const data = good.slice(0, at) + put + good.slice(at + cut)
        whole.part['photograph'] = {
          picture: { name: '', type: 'image/png', width: 9, height: 7, data },
          ties: [{ u: 0, v: 0, x: 0, y: 0 }, { u: 5, v: 5, x: 9, y: 9 }],
          opacity: 1,
          locked: false,
        } // prettier-ignore
        const read = parseJob(JSON.stringify(whole))
        if (read.ok) expect(bytesOfBase64(data)).not.toBeNull()
        else for (const f of read.faults) expect(f.path).toMatch(/^part\.photograph\.picture\./)
      }),
      { numRuns: RUNS },
    )
  })
})

describe('wild ties', () => {
  it('place a picture within bounds or are refused', () => {
    const n = fc.oneof(
      fc.double({ min: -1e5, max: 1e5, noNaN: true }),
      fc.integer({ min: 0, max: 50 }),
      fc.constantFrom(0, 1e-9, 1e5, -1e5),
    )
    const tie = fc.record({ u: n, v: n, x: n, y: n })
    fc.assert(
      fc.property(fc.oneof(fc.tuple(tie, tie), fc.tuple(tie, tie, tie, tie)), (ties) => {
        const made = planMap(ties as Ties)
        if (!made.ok) {
          expect(made.reason).not.toMatch(/NaN|undefined/)
          return
        }
        expect([...made.map.toPlan, ...made.map.toPixel].every(Number.isFinite)).toBe(true)
        const sheet = sheetFor(made.map, 4000, 3000, 2048)
        if (!sheet) return
        expect(sheet.width).toBeGreaterThan(0)
        expect(sheet.width * sheet.height).toBeLessThanOrEqual(2048 * 2048)
        expect(Number.isFinite(sheet.pxPerMm) && sheet.pxPerMm > 0).toBe(true)
      }),
      { numRuns: RUNS },
    )
  })
})
