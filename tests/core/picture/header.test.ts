import { describe, expect, it } from 'vitest'
import { readPictureHeader, uprightSize } from '../../../src-core/picture/header.ts'
import { exifBlock, makeJpeg, makePng } from '../../helpers/pictures.ts'

const without = (bytes: Buffer, from: number, count: number) =>
  Buffer.concat([bytes.subarray(0, from), bytes.subarray(from + count)])

describe('the header of a picture', () => {
  it('of a PNG and of a JPEG', () => {
    expect(readPictureHeader(makePng(7, 5))).toEqual({
      ok: true,
      type: 'image/png',
      width: 7,
      height: 5,
      orientation: 1,
    })
    expect(readPictureHeader(makeJpeg(40, 24))).toEqual({
      ok: true,
      type: 'image/jpeg',
      width: 40,
      height: 24,
      orientation: 1,
    })
  })

  it('names the way up, in either byte order, and so its size as shown', () => {
    for (const n of [1, 3, 6, 8]) {
      const read = readPictureHeader(makeJpeg(40, 24, n))
      expect(read).toMatchObject({ ok: true, width: 40, height: 24, orientation: n })
      if (read.ok)
        expect(uprightSize(read)).toEqual(n >= 5 ? { width: 24, height: 40 } : { width: 40, height: 24 })
    }
    const png = makePng(4, 3, undefined, [{ name: 'eXIf', body: exifBlock(6, false) }])
    expect(readPictureHeader(png)).toMatchObject({ ok: true, orientation: 6 })
    // What is not among 1 to 8 says nothing.
    expect(readPictureHeader(makeJpeg(8, 8, 9))).toMatchObject({ ok: true, orientation: 1 })
  })

  it('is found behind fill bytes and before what a camera appended', () => {
    const jpeg = makeJpeg(16, 16)
    const filled = Buffer.concat([
      jpeg.subarray(0, 2),
      Buffer.from([0xff, 0xff]),
      jpeg.subarray(2),
      Buffer.alloc(99),
    ])
    expect(readPictureHeader(filled)).toMatchObject({ ok: true, width: 16 })
  })

  it('refuses every file that is cut off, saying where', () => {
    for (const whole of [makePng(6, 6), makeJpeg(16, 8, 6)])
      for (let n = 0; n < whole.length; n++) {
        const read = readPictureHeader(whole.subarray(0, n))
        expect(read.ok, `${n} of ${whole.length} bytes`).toBe(false)
        if (!read.ok) expect(read.at).toBeLessThanOrEqual(n)
      }
  })

  it('refuses lengths that lie, sizes of nothing and sizes beyond all sense', () => {
    const reason = (bytes: Uint8Array) => {
      const read = readPictureHeader(bytes)
      return read.ok ? 'read' : `${read.at}: ${read.reason}`
    }
    const png = makePng(6, 6)
    const long = Buffer.from(png)
    long.writeUInt32BE(0xffffffff, 33)
    expect(reason(long)).toBe('33: the chunk IDAT is said to be longer than the file')
    const none = Buffer.from(png)
    none.writeUInt32BE(0, 16)
    expect(reason(none)).toMatch(/0 × 6 pixels is none/)
    const vast = Buffer.from(png)
    vast.writeUInt32BE(0xffffffff, 20)
    expect(reason(vast)).toMatch(/at most 12000 either way/)
    expect(reason(without(png, 8, 25))).toMatch(/^8: .*begin with its size/)
    const depth = Buffer.from(png)
    depth[24] = 3
    expect(reason(depth)).toMatch(/do not go together/)
    const jpeg = makeJpeg(8, 8)
    const short = Buffer.from(jpeg)
    short.writeUInt16BE(1, 4)
    expect(reason(short)).toMatch(/^4: .*no proper length/)
    const wide = Buffer.from(jpeg)
    wide.writeUInt16BE(0xfff0, 4)
    expect(reason(wide)).toMatch(/^4: .*longer than the file/)
    const lossless = Buffer.from(jpeg)
    lossless[jpeg.indexOf(Buffer.from([0xff, 0xc0])) + 1] = 0xc3
    expect(reason(lossless)).toMatch(/not shown/)
    expect(reason(Buffer.from('GIF89a'))).toBe('0: it is neither a PNG nor a JPEG')
    expect(reason(Buffer.alloc(0))).toMatch(/neither/)
  })
})
