/** Tiny real pictures made byte by byte, to be read and to be spoilt. */
import { crc32, deflateSync } from 'node:zlib'

export type Colour = readonly [red: number, green: number, blue: number]

function chunk(name: string, body: Uint8Array): Buffer {
  const named = Buffer.concat([Buffer.from(name, 'latin1'), body])
  const out = Buffer.alloc(named.length + 8)
  out.writeUInt32BE(body.length, 0)
  named.copy(out, 4)
  out.writeUInt32BE(crc32(named), named.length + 4)
  return out
}

/** An 8-bit RGB PNG of the colour at each pixel; `extra` chunks go before the picture. */
export function makePng(
  width: number,
  height: number,
  colour: (x: number, y: number) => Colour = () => [200, 200, 200],
  extra: readonly { readonly name: string; readonly body: Uint8Array }[] = [],
): Buffer {
  const size = Buffer.alloc(13)
  size.writeUInt32BE(width, 0)
  size.writeUInt32BE(height, 4)
  size[8] = 8
  size[9] = 2
  const rows = Buffer.alloc(height * (3 * width + 1))
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) rows.set(colour(x, y), y * (3 * width + 1) + 1 + 3 * x)
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', size),
    ...extra.map((e) => chunk(e.name, e.body)),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

/** A TIFF block that says which way up the picture is. */
export function exifBlock(orientation: number, little = true): Buffer {
  const b = Buffer.alloc(26)
  const u16 = (v: number, at: number) => (little ? b.writeUInt16LE(v, at) : b.writeUInt16BE(v, at))
  const u32 = (v: number, at: number) => (little ? b.writeUInt32LE(v, at) : b.writeUInt32BE(v, at))
  b.write(little ? 'II' : 'MM', 0, 'latin1')
  u16(42, 2)
  u32(8, 4)
  u16(1, 8)
  u16(0x0112, 10)
  u16(3, 12)
  u32(1, 14)
  u16(orientation, 18)
  return b
}

function segment(marker: number, body: Uint8Array): Buffer {
  const out = Buffer.alloc(body.length + 4)
  out[0] = 0xff
  out[1] = marker
  out.writeUInt16BE(body.length + 2, 2)
  Buffer.from(body).copy(out, 4)
  return out
}

/** The two Huffman tables hold one code each: no change of brightness, and end of block. */
const HUFFMAN = [0x00, 0x10].map((id) => segment(0xc4, Buffer.from([id, 1, ...Array<number>(15).fill(0), 0])))

/** A baseline JPEG in one even grey; width and height in multiples of whatever: blocks are counted. */
export function makeJpeg(width: number, height: number, orientation?: number): Buffer {
  const blocks = Math.ceil(width / 8) * Math.ceil(height / 8)
  // Two bits a block, both codes being 0; the rest of the last byte is ones.
  const scan = Buffer.alloc(Math.ceil((2 * blocks) / 8))
  const spare = scan.length * 8 - 2 * blocks
  scan[scan.length - 1]! |= (1 << spare) - 1
  const frame = Buffer.from([8, height >> 8, height & 255, width >> 8, width & 255, 1, 1, 0x11, 0])
  return Buffer.concat([
    Buffer.from([0xff, 0xd8]),
    ...(orientation === undefined
      ? []
      : [segment(0xe1, Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), exifBlock(orientation)]))]),
    segment(0xdb, Buffer.from([0, ...Array<number>(64).fill(1)])),
    segment(0xc0, frame),
    ...HUFFMAN,
    segment(0xda, Buffer.from([1, 1, 0, 0, 63, 0])),
    scan,
    Buffer.from([0xff, 0xd9]),
  ])
}
