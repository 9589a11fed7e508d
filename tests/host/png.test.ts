/** The picture writer: pixels where they belong, and the same sheet as the PDF shows. */
import { execFileSync } from 'node:child_process'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { inflateSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import type { Drawing, Primitive } from '../../src-core/drawing/model.ts'
import { setupSheet } from '../../src-core/drawing/setupSheet.ts'
import { writePdf } from '../../src-core/drawing/writePdf.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import { createCanvas } from '../../src-main/png/canvas.ts'
import { openFont } from '../../src-main/png/trueType.ts'
import { writePng } from '../../src-main/png/writePng.ts'
import { loadFonts } from '../../src-main/services/fonts.ts'
import { EXAMPLE } from './cli.ts'
import { scratchFolder } from './helpers.ts'

interface Picture {
  readonly width: number
  readonly height: number
  /** 0 white to 1 black. */
  ink(x: number, y: number): number
}

const luminance = (bytes: Uint8Array, at: number) => 1 - (bytes[at]! + bytes[at + 1]! + bytes[at + 2]!) / 765

/** Reads what `writePng` may write: true colour, eight bits, no row filter. */
function readPng(bytes: Uint8Array): Picture & { readonly perMetre: number } {
  const file = Buffer.from(bytes)
  expect(file.subarray(0, 8)).toEqual(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]))
  const chunks = new Map<string, Buffer>()
  for (let at = 8; at < file.length;) {
    const length = file.readUInt32BE(at)
    chunks.set(file.toString('latin1', at + 4, at + 8), file.subarray(at + 8, at + 8 + length))
    at += 12 + length
  }
  expect([...chunks.keys()]).toEqual(['IHDR', 'pHYs', 'IDAT', 'IEND'])
  const header = chunks.get('IHDR')!
  const width = header.readUInt32BE(0)
  const height = header.readUInt32BE(4)
  expect([...header.subarray(8)]).toEqual([8, 2, 0, 0, 0])
  const rows = inflateSync(chunks.get('IDAT')!)
  const stride = 1 + 3 * width
  expect(rows.length).toBe(stride * height)
  for (let y = 0; y < height; y++) expect(rows[y * stride]).toBe(0)
  const ink = (x: number, y: number) => luminance(rows, y * stride + 1 + 3 * x)
  return { width, height, ink, perMetre: chunks.get('pHYs')!.readUInt32BE(0) }
}

function readPpm(file: Buffer): Picture {
  const head = /^P6\s+(\d+)\s+(\d+)\s+255\s/.exec(file.toString('latin1', 0, 60))!
  const [width, height] = [Number(head[1]), Number(head[2])]
  return { width, height, ink: (x, y) => luminance(file, head[0].length + 3 * (y * width + x)) }
}

function total(picture: Picture): number {
  let sum = 0
  for (let y = 0; y < picture.height; y++) for (let x = 0; x < picture.width; x++) sum += picture.ink(x, y)
  return sum
}

const sheet = (...primitives: Primitive[]): Drawing => ({ title: 't', width: 40, height: 20, primitives })
const paint = async (...primitives: Primitive[]) => readPng(writePng(sheet(...primitives), await loadFonts()))
/** Pixels a square mm. */
const AREA = 64

describe('shapes', () => {
  test('an empty sheet is white, in real size', async () => {
    const picture = await paint()
    expect([picture.width, picture.height, picture.perMetre]).toEqual([320, 160, 8000])
    expect(total(picture)).toBe(0)
  })

  test('a solid square lies where it was drawn, y up', async () => {
    const steps = [
      { to: 'move', x: 10, y: 15 },
      { to: 'line', x: 13, y: 15 },
      { to: 'line', x: 13, y: 18 },
      { to: 'line', x: 10, y: 18 },
      { to: 'close' },
    ] as const
    const picture = await paint({ kind: 'path', layer: 'outline', fill: 'solid', steps })
    expect(total(picture)).toBeCloseTo(9 * AREA, 6)
    for (const [x, y, ink] of [
      [80, 16, 1],
      [103, 39, 1],
      [79, 16, 0],
      [104, 39, 0],
      [80, 15, 0],
      [103, 40, 0],
    ] as const)
      expect(picture.ink(x, y)).toBe(ink)
  })

  test('a disc covers π r², and a ring drawn even-odd what is between', async () => {
    const disc = await paint({
      kind: 'circle',
      layer: 'outline',
      fill: 'solid',
      centre: { x: 20.03, y: 10.07 },
      radius: 6,
    })
    expect(total(disc) / (Math.PI * 36 * AREA)).toBeCloseTo(1, 2)
    const half = (r: number) =>
      [
        { to: 'move', x: 20 - r, y: 10 },
        { to: 'arc', x: 20 + r, y: 10, bulge: 1 },
        { to: 'arc', x: 20 - r, y: 10, bulge: 1 },
        { to: 'close' },
      ] as const
    const ring = await paint({
      kind: 'path',
      layer: 'outline',
      fill: 'solid',
      steps: [...half(6), ...half(4)],
    })
    expect(total(ring) / (Math.PI * (36 - 16) * AREA)).toBeCloseTo(1, 2)
    expect(ring.ink(160, 80)).toBe(0)
  })

  test('a line is as wide as its layer says, its arc as long as it is, and no chord closes it', async () => {
    const straight = await paint({
      kind: 'path',
      layer: 'outline',
      steps: [
        { to: 'move', x: 5, y: 10 },
        { to: 'line', x: 35, y: 10 },
      ],
    })
    expect(total(straight) / (30 * 0.5 * AREA)).toBeCloseTo(1, 2)
    const arc = await paint({
      kind: 'path',
      layer: 'outline',
      steps: [
        { to: 'move', x: 12, y: 10 },
        { to: 'arc', x: 28, y: 10, bulge: 1 },
      ],
    })
    expect(total(arc) / (Math.PI * 8 * 0.5 * AREA)).toBeCloseTo(1, 1.5)
    expect(arc.ink(160, 80)).toBe(0)
  })

  test('a dashed line is drawn for the share of its dashes', async () => {
    const line = await paint({
      kind: 'path',
      layer: 'hidden',
      steps: [
        { to: 'move', x: 1, y: 10 },
        { to: 'line', x: 38.5, y: 10 },
      ],
    })
    expect(total(line) / (30 * 0.25 * AREA)).toBeCloseTo(1, 1.5)
  })

  test('paper hides what is below', async () => {
    const centre = { x: 20, y: 10 }
    const picture = await paint(
      { kind: 'circle', layer: 'outline', fill: 'solid', centre, radius: 8 },
      { kind: 'circle', layer: 'outline-thin', fill: 'paper', centre, radius: 5 },
    )
    expect(picture.ink(160, 80)).toBe(0)
    expect(picture.ink(160 + 8 * 6, 80)).toBe(1)
  })

  test('what lies outside the sheet is cut off', async () => {
    const picture = await paint({
      kind: 'circle',
      layer: 'outline',
      fill: 'solid',
      centre: { x: 0, y: 0 },
      radius: 8,
    })
    expect(total(picture) / ((Math.PI * 64 * AREA) / 4)).toBeCloseTo(1, 2)
  })

  test('overlapping polygons of one non-zero shape are painted once', () => {
    const canvas = createCanvas(10, 10)
    const square = [2, 2, 6, 2, 6, 6, 2, 6]
    canvas.fill([square, square], '#000000', 'non-zero')
    expect([...canvas.pixels.slice(3 * 33, 3 * 33 + 3)]).toEqual([0, 0, 0])
    canvas.fill([square, square], '#ffffff', 'even-odd')
    expect([...canvas.pixels.slice(3 * 33, 3 * 33 + 3)]).toEqual([0, 0, 0])
  })

  test('a sheet without a size, or of a thousand metres, is refused', async () => {
    const fonts = await loadFonts()
    for (const width of [0, -1, Number.NaN, 1e6])
      expect(() => writePng({ title: 't', width, height: 1000, primitives: [] }, fonts)).toThrow(RangeError)
  })
})

describe('text', () => {
  const text = (over: Partial<Extract<Primitive, { kind: 'text' }>>): Primitive => ({
    kind: 'text',
    layer: 'text',
    at: { x: 20, y: 8 },
    text: 'H',
    height: 4,
    anchor: 'start',
    angle: 0,
    ...over,
  })

  /** First and last column and row with ink. */
  function box(picture: Picture) {
    const xs: number[] = []
    const ys: number[] = []
    for (let y = 0; y < picture.height; y++)
      for (let x = 0; x < picture.width; x++)
        if (picture.ink(x, y) > 0.5) {
          xs.push(x)
          ys.push(y)
        }
    return {
      left: Math.min(...xs),
      right: Math.max(...xs) + 1,
      top: Math.min(...ys),
      bottom: Math.max(...ys) + 1,
    }
  }

  test('a capital is as high as asked and stands on its baseline', async () => {
    const { top, bottom } = box(await paint(text({})))
    expect(bottom).toBe(160 - 64)
    expect(Math.abs(bottom - top - 32)).toBeLessThanOrEqual(1)
  })

  test('anchors and turns move it as they should', async () => {
    const start = box(await paint(text({ text: 'HIH' })))
    const middle = box(await paint(text({ text: 'HIH', anchor: 'middle' })))
    const end = box(await paint(text({ text: 'HIH', anchor: 'end' })))
    expect(start.left).toBeGreaterThanOrEqual(160)
    expect(end.right).toBeLessThanOrEqual(160)
    expect(Math.abs((middle.left + middle.right) / 2 - 160)).toBeLessThanOrEqual(1)
    const up = box(await paint(text({ text: 'HIH', angle: 90 })))
    expect(up.right).toBe(160)
    expect(Math.abs(up.bottom - up.top - (start.right - start.left))).toBeLessThanOrEqual(2)
  })

  test('letters made of others, and signs, are there; what the font lacks is a box', async () => {
    const fonts = await loadFonts()
    const font = openFont(fonts.regular)
    const parts = (c: string) => font.glyph(c.codePointAt(0)!).contours.length
    expect(parts('é')).toBe(parts('e') + 1)
    expect(parts('ö')).toBe(parts('o') + 2)
    expect(parts('i')).toBe(2)
    expect(parts(' ')).toBe(0)
    const box = font.glyph(0x10ffff)
    expect(box.contours.length).toBeGreaterThan(0)
    for (const c of 'AZaz09Ø°²·×±µ○■…' + "'") {
      expect(font.glyph(c.codePointAt(0)!).contours.length, c).toBeGreaterThan(0)
      expect(font.glyph(c.codePointAt(0)!), c).not.toBe(box)
    }
    expect(openFont(fonts.bold).glyph(72).advance).toBeGreaterThan(font.glyph(72).advance)
  })

  test('bytes that are no font are refused', () => {
    for (const bytes of [new Uint8Array(12), new TextEncoder().encode('not a font at all, only words')])
      expect(() => openFont(bytes)).toThrow(RangeError)
  })
})

const PDFTOPPM = '/usr/bin/pdftoppm'

test.skipIf(!existsSync(PDFTOPPM))(
  'the example looks the same as its PDF, square millimetre by square millimetre',
  async () => {
    const parsed = parseJob(readFileSync(EXAMPLE, 'utf8'))
    if (!parsed.ok) throw new Error('the example is not a job')
    const [drawing] = setupSheet(parsed.job, 'op10', analyse(parsed.job, 'op10'), { date: '2020-01-01' })
    const fonts = await loadFonts()
    const mine = readPng(writePng(drawing!, fonts))
    const pdf = join(scratchFolder(), 'sheet.pdf')
    writeFileSync(pdf, await writePdf([drawing!], fonts))
    execFileSync(PDFTOPPM, ['-r', String(8 * 25.4), '-singlefile', pdf, pdf])
    const theirs = readPpm(readFileSync(`${pdf}.ppm`))
    const inkOf = (picture: Picture, bx: number, by: number) => {
      let sum = 0
      for (let y = 8 * by; y < 8 * by + 8; y++)
        for (let x = 8 * bx; x < 8 * bx + 8; x++) sum += picture.ink(x, y)
      return sum / 64
    }
    // Only kerning, which the PDF has and the picture has not, moves some letters by a fraction of a millimetre.
    let strayed = 0
    let sum = 0
    let inked = 0
    for (let by = 0; by < mine.height / 8 - 1; by++)
      for (let bx = 0; bx < mine.width / 8; bx++) {
        const [a, b] = [inkOf(mine, bx, by), inkOf(theirs, bx, by)]
        if (Math.abs(a - b) > 0.25) strayed++
        if (b <= 0.1) continue
        inked++
        sum += Math.abs(a - b)
      }
    expect(inked).toBeGreaterThan(3000)
    expect(strayed / inked).toBeLessThan(0.01)
    expect(sum / inked).toBeLessThan(0.03)
    expect(Math.abs(total(mine) / total(theirs) - 1)).toBeLessThan(0.05)
  },
)
