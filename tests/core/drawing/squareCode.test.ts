/** The square code on the sheets, read back by a reader that knows nothing of its maker. */
import jsQR from 'jsqr'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { jobSheets } from '../../../src-core/drawing/sheet/jobSheets.ts'
import { squareCode } from '../../../src-core/drawing/sheet/squareCode.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import { subPaths } from '../../../src-core/drawing/model/subPaths.ts'
import type { PathPrimitive } from '../../../src-core/drawing/model/model.ts'
import { writePdf } from '../../../src-core/drawing/writers/writePdf.ts'
import { checkSum, readCheckSum } from '../../../src-core/job/checkSum.ts'
import { shippedJob } from '../../helpers/jobs.ts'
import { rasterPage } from '../../helpers/readback.ts'

/** Painted by the even-odd rule, `dots` a millimetre, on white. */
function painted({ steps }: PathPrimitive, side: number, dots: number): jsQRImage {
  const size = Math.round(side * dots)
  const data = new Uint8ClampedArray(4 * size * size).fill(255)
  const loops = subPaths(steps).map((run) => run.vertices)
  for (let row = 0; row < size; row++)
    for (let column = 0; column < size; column++) {
      const [x, y] = [(column + 0.5) / dots, side - (row + 0.5) / dots]
      let isInside = false
      for (const loop of loops)
        loop.forEach((a, i) => {
          const b = loop[(i + 1) % loop.length]!
          if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) isInside = !isInside
        })
      if (isInside) data.fill(0, 4 * (row * size + column), 4 * (row * size + column) + 3)
    }
  return { data, width: size, height: size }
}
interface jsQRImage {
  readonly data: Uint8ClampedArray
  readonly width: number
  readonly height: number
}
const read = ({ data, width, height }: jsQRImage): string | undefined => jsQR(data, width, height)?.data

describe('a square code', () => {
  it('says its text', () => {
    const letters = fc.string({
      unit: fc.constantFrom(...'0123456789ABCDEFGHJKMNPQRSTVWXYZ-'),
      minLength: 1,
      maxLength: 40,
    })
    fc.assert(
      fc.property(letters, (words) => {
        expect(read(painted(squareCode(words, { x: 0, y: 0 }, 20), 20, 10))).toBe(words)
      }),
      { numRuns: 25 },
    )
  })

  it('is read with a corner of it soiled, and has its clear border', () => {
    const code = squareCode('V8MRW-R2PX0', { x: 0, y: 0 }, 29)
    const image = painted(code, 29, 10)
    const at = (column: number, row: number) => image.data[4 * (row * image.width + column)]!
    // A module is a millimetre: four of them clear all round.
    for (let i = 0; i < 290; i++)
      for (const k of [5, 39, 250, 285]) expect([at(i, k), at(k, i)], `${i} ${k}`).toEqual([255, 255])
    for (let row = 190; row < 230; row++)
      image.data.fill(0, 4 * (row * image.width + 190), 4 * (row * image.width + 230))
    expect(read(image)).toBe('V8MRW-R2PX0')
  })
})

const font = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)))
const fonts = { regular: font('DejaVuSans'), bold: font('DejaVuSans-Bold') }

describe('a printed sheet', () => {
  it.each([
    ['A4', 0],
    ['A4', 1],
    ['ANSI-B', 0],
    ['ANSI-B', 1],
  ] as const)('of %s carries the check sum of its setup (sheet %i)', async (sheet, page) => {
    const job = shippedJob('bearing-bracket')
    const drawings = setupSheet(job, 'op10', analyse(job, 'op10'), { sheet })
    const { pixels, width, height } = rasterPage(await writePdf(drawings, fonts), page + 1, 200)
    const data = new Uint8ClampedArray(4 * width * height)
    for (let i = 0; i < width * height; i++) data.fill(pixels[i]!, 4 * i, 4 * i + 4)
    expect(readCheckSum(read({ data, width, height })!)).toBe(checkSum(job, job.setups[0]!))
  })

  it('says it in letters too, each setup its own', () => {
    const job = shippedJob('flat-link')
    const texts = jobSheets(job).map((d) => d.primitives.flatMap((p) => (p.kind === 'text' ? [p.text] : [])))
    const [op10, op20] = job.setups.map((s) => checkSum(job, s))
    expect(texts.filter((t) => t.includes(op10!)).length).toBeGreaterThan(0)
    expect(texts.filter((t) => t.includes(op20!)).length).toBeGreaterThan(0)
    expect(texts.every((t) => t.includes(op10!) !== t.includes(op20!))).toBe(true)
  })
})
