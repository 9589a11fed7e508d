/** The frame of a PNG: signature, chunks one after another, size (W3C Portable Network Graphics, third edition). */
import { exifOrientation } from './exif.ts'
import { refusePicture, type PictureReading } from './types.ts'

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]
/** Bit depths that each colour type may have. */
const DEPTHS: Readonly<Record<number, readonly number[]>> = {
  0: [1, 2, 4, 8, 16],
  2: [8, 16],
  3: [1, 2, 4, 8],
  4: [8, 16],
  6: [8, 16],
}
/** Length, name and check sum of a chunk. */
const CHUNK = 12

export const isPng = (bytes: Uint8Array): boolean => SIGNATURE.every((b, i) => bytes[i] === b)

/** Reads a PNG's chunks to its end; nothing is unpacked. */
export function readPng(bytes: Uint8Array): PictureReading {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  let size: { width: number; height: number } | null = null
  let orientation = 1
  let hasData = false
  let at = SIGNATURE.length
  while (at + CHUNK <= bytes.length) {
    const length = view.getUint32(at)
    const name = String.fromCharCode(...bytes.subarray(at + 4, at + 8))
    const body = at + 8
    if (!/^[A-Za-z]{4}$/.test(name)) return refusePicture(at, 'a chunk of the PNG has no proper name')
    if (length > bytes.length - at - CHUNK)
      return refusePicture(at, `the chunk ${name} is said to be longer than the file`)
    if (size === null) {
      if (name !== 'IHDR' || length !== 13) return refusePicture(at, 'the PNG does not begin with its size')
      size = { width: view.getUint32(body), height: view.getUint32(body + 4) }
      if (!DEPTHS[bytes[body + 9]!]?.includes(bytes[body + 8]!))
        return refusePicture(body + 8, 'the PNG has a colour type and depth that do not go together')
    } else if (name === 'IDAT') hasData ||= length > 0
    else if (name === 'eXIf') orientation = exifOrientation(bytes.subarray(body, body + length))
    else if (name === 'acTL') return refusePicture(at, 'the PNG is animated')
    else if (name === 'IEND') {
      if (!hasData) return refusePicture(at, 'the PNG holds no picture')
      return { ok: true, type: 'image/png', ...size, orientation }
    }
    at = body + length + 4
  }
  return refusePicture(bytes.length, 'the PNG ends too early')
}
