/** The picture writer: real size, ink where it was drawn, and the same sheet as the PDF shows. */
import { execFileSync } from 'node:child_process'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { inflateSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import type { Drawing, Primitive } from '../../src-core/drawing/model/model.ts'
import { setupSheet } from '../../src-core/drawing/sheet/setupSheet.ts'
import { writePdf } from '../../src-core/drawing/writers/writePdf.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import { PIXELS_PER_MM, writePng } from '../../src-main/png/writePng.ts'
import { loadFonts } from '../../src-main/services/fonts.ts'
import { EXAMPLE } from './cli.ts'
import { scratchFolder } from './helpers.ts'

interface Picture {
  readonly width: number
  readonly height: number
  /** 0 white to 1 black. */
  ink(x: number, y: number): number
}

/** Reads eight-bit RGBA, the filters of RFC 2083 undone. */
function readPng(bytes: Uint8Array): Picture {
  const file = Buffer.from(bytes)
  expect(file.subarray(0, 8)).toEqual(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]))
  const data: Buffer[] = []
  let header = Buffer.alloc(0)
  for (let at = 8; at < file.length;) {
    const length = file.readUInt32BE(at)
    const kind = file.toString('latin1', at + 4, at + 8)
    const body = file.subarray(at + 8, at + 8 + length)
    if (kind === 'IHDR') header = Buffer.from(body)
    if (kind === 'IDAT') data.push(body)
    at += 12 + length
  }
  const width = header.readUInt32BE(0)
  const height = header.readUInt32BE(4)
  expect([header[8], header[9]]).toEqual([8, 6])
  const raw = inflateSync(Buffer.concat(data))
  const stride = width * 4
  const out = Buffer.alloc(stride * height)
  for (let y = 0; y < height; y++) {
    const filter = raw[y * (stride + 1)]!
    for (let i = 0; i < stride; i++) {
      const left = i >= 4 ? out[y * stride + i - 4]! : 0
      const up = y > 0 ? out[(y - 1) * stride + i]! : 0
      const corner = y > 0 && i >= 4 ? out[(y - 1) * stride + i - 4]! : 0
      const p = left + up - corner
      const [a, b, c] = [Math.abs(p - left), Math.abs(p - up), Math.abs(p - corner)]
      const paeth = a <= b && a <= c ? left : b <= c ? up : corner
      const predicted = [0, left, up, (left + up) >> 1, paeth][filter]!
      out[y * stride + i] = raw[y * (stride + 1) + 1 + i]! + predicted
    }
  }
  return { width, height, ink: (x, y) => inkOf(out, (y * width + x) * 4) }
}

const inkOf = (bytes: Buffer, at: number) => 1 - (bytes[at]! + bytes[at + 1]! + bytes[at + 2]!) / 765

function readPpm(file: Buffer): Picture {
  const head = /^P6\s+(\d+)\s+(\d+)\s+255\s/.exec(file.toString('latin1', 0, 60))!
  const [width, height] = [Number(head[1]), Number(head[2])]
  return { width, height, ink: (x, y) => inkOf(file, head[0].length + 3 * (y * width + x)) }
}

/** Mean ink of a square of `size` pixels. */
function blockInk(picture: Picture, x0: number, y0: number, size: number): number {
  let sum = 0
  for (let y = y0; y < y0 + size; y++) for (let x = x0; x < x0 + size; x++) sum += picture.ink(x, y)
  return sum / size ** 2
}

const sheet = (...primitives: Primitive[]): Drawing => ({ title: 't', width: 40, height: 20, primitives })

test('an empty sheet is white and of real size', () => {
  const picture = readPng(writePng(sheet()))
  expect([picture.width, picture.height]).toEqual([40 * PIXELS_PER_MM, 20 * PIXELS_PER_MM])
  expect(blockInk(picture, 0, 0, 160)).toBe(0)
})

test('a solid square lies where it was drawn, y up', () => {
  const steps = [
    { to: 'move', x: 10, y: 15 },
    { to: 'line', x: 13, y: 15 },
    { to: 'line', x: 13, y: 18 },
    { to: 'line', x: 10, y: 18 },
    { to: 'close' },
  ] as const
  const picture = readPng(writePng(sheet({ kind: 'path', layer: 'mark', steps, fill: 'solid' })))
  expect(blockInk(picture, 82, 18, 20)).toBeGreaterThan(0.9)
  expect(blockInk(picture, 82, 80, 20)).toBe(0)
})

test('the example sheet shows what its PDF shows, block by block', async () => {
  const parsed = parseJob(readFileSync(EXAMPLE, 'utf8'))
  if (!parsed.ok) throw new Error('the example does not parse')
  const [drawing] = setupSheet(parsed.job, 'op10', analyse(parsed.job, 'op10'), { date: '2026-01-01' })
  const folder = scratchFolder()
  const pdf = join(folder, 'sheet.pdf')
  writeFileSync(pdf, await writePdf([drawing!], await loadFonts()))
  execFileSync('pdftoppm', ['-r', String(PIXELS_PER_MM * 25.4), '-singlefile', pdf, join(folder, 'sheet')])
  const printed = readPpm(readFileSync(join(folder, 'sheet.ppm')))
  const picture = readPng(writePng(drawing!))
  expect(Math.abs(picture.width - printed.width)).toBeLessThanOrEqual(1)
  const size = PIXELS_PER_MM * 4
  let inked = 0
  let differ = 0
  for (let y = 0; y + size < picture.height; y += size) {
    for (let x = 0; x + size < picture.width; x += size) {
      const [a, b] = [blockInk(picture, x, y, size), blockInk(printed, x, y, size)]
      if (a < 0.01 && b < 0.01) continue
      inked++
      if (Math.abs(a - b) > 0.08) differ++
    }
  }
  expect(inked).toBeGreaterThan(1000)
  expect(differ / inked).toBeLessThan(0.02)
})

test('a sheet without a size is refused', () => {
  expect(() => writePng({ ...sheet(), width: 0 })).toThrow(RangeError)
})

test('a picture says its resolution, so that it prints in its real size', () => {
  const drawing: Drawing = { title: 'Empty', width: 40, height: 30, primitives: [] }
  const file = Buffer.from(writePng(drawing, 8))
  const at = file.indexOf('pHYs')
  // Right after the header, so before any picture data; pixels a metre each way, and the unit's code for it.
  expect(at).toBe(8 + 25 + 4)
  expect([file.readUInt32BE(at + 4), file.readUInt32BE(at + 8), file[at + 12]]).toEqual([8000, 8000, 1])
  expect(readPng(file)).toMatchObject({ width: 320, height: 240 })
})
