/** Pixels as a PNG file (ISO/IEC 15948): true colour, eight bits, with its resolution. */
import { crc32, deflateSync } from 'node:zlib'

const SIGNATURE = Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])

export interface Pixels {
  readonly width: number
  readonly height: number
  /** Three bytes a pixel, rows from the top. */
  readonly pixels: Uint8Array
}

export function encodePng({ width, height, pixels }: Pixels, pixelsPerMetre: number): Uint8Array {
  const header = new DataView(new ArrayBuffer(13))
  header.setUint32(0, width)
  header.setUint32(4, height)
  header.setUint8(8, 8)
  header.setUint8(9, 2)
  const size = new DataView(new ArrayBuffer(9))
  size.setUint32(0, pixelsPerMetre)
  size.setUint32(4, pixelsPerMetre)
  size.setUint8(8, 1)
  return Buffer.concat([
    SIGNATURE,
    chunk('IHDR', new Uint8Array(header.buffer)),
    chunk('pHYs', new Uint8Array(size.buffer)),
    chunk('IDAT', deflateSync(filtered(width, height, pixels))),
    chunk('IEND', new Uint8Array()),
  ])
}

/** Each row with its filter's number before it: 0, none. Sheets are mostly white, so none packs as well as any. */
function filtered(width: number, height: number, pixels: Uint8Array): Uint8Array {
  const rows = new Uint8Array(height * (1 + 3 * width))
  for (let y = 0; y < height; y++)
    rows.set(pixels.subarray(3 * width * y, 3 * width * (y + 1)), y * (1 + 3 * width) + 1)
  return rows
}

function chunk(type: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data])
  const out = Buffer.alloc(8 + body.length)
  out.writeUInt32BE(data.length, 0)
  body.copy(out, 4)
  out.writeUInt32BE(crc32(body), 4 + body.length)
  return out
}
