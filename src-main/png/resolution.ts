/** The resolution of a picture, for programs that print it in its real size (PNG, ISO/IEC 15948: the chunk pHYs). */
import { crc32 } from 'node:zlib'

/** Signature, then the chunk IHDR of 25 bytes, which is always the first. */
const AFTER_HEADER = 8 + 25
const METRE = 1

/** A copy that says how many pixels it has to a mm. */
export function withResolution(png: Uint8Array, pixelsPerMm: number): Uint8Array {
  const chunk = Buffer.alloc(4 + 4 + 9 + 4)
  chunk.writeUInt32BE(9, 0)
  chunk.write('pHYs', 4, 'latin1')
  const perMetre = Math.round(pixelsPerMm * 1000)
  chunk.writeUInt32BE(perMetre, 8)
  chunk.writeUInt32BE(perMetre, 12)
  chunk.writeUInt8(METRE, 16)
  chunk.writeUInt32BE(crc32(chunk.subarray(4, 17)), 17)
  return new Uint8Array(Buffer.concat([png.subarray(0, AFTER_HEADER), chunk, png.subarray(AFTER_HEADER)]))
}
