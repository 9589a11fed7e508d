/** The frame of a JPEG: its markers up to the scan, and its end (ITU-T T.81, annex B). */
import { exifOrientation } from './exif.ts'
import { refusePicture, type PictureReading } from './types.ts'

/** Start of frame: baseline, extended, progressive. What else there is, no browser shows. */
const FRAMES = new Set([0xc0, 0xc1, 0xc2])
const OTHER_FRAMES = new Set([0xc3, 0xc5, 0xc6, 0xc7, 0xc9, 0xca, 0xcb, 0xcd, 0xce, 0xcf])
const SCAN = 0xda
const END = 0xd9
const APP1 = 0xe1
/** Markers that stand alone, without a length. */
const isAlone = (marker: number) => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7)

export const isJpeg = (bytes: Uint8Array): boolean =>
  bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff

/** Reads a JPEG's markers up to its first scan and looks for its end; nothing is unpacked. */
export function readJpeg(bytes: Uint8Array): PictureReading {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  let size: { width: number; height: number } | null = null
  let orientation = 1
  let at = 2
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) return refusePicture(at, 'a marker of the JPEG is missing')
    const marker = bytes[at + 1]!
    if (marker === 0xff) at += 1
    else if (isAlone(marker)) at += 2
    else if (marker === END) return refusePicture(at, 'the JPEG holds no picture')
    else {
      const length = view.getUint16(at + 2)
      if (length < 2) return refusePicture(at + 2, 'a segment of the JPEG has no proper length')
      if (length > bytes.length - at - 2)
        return refusePicture(at + 2, 'a segment of the JPEG is said to be longer than the file')
      const body = bytes.subarray(at + 4, at + 2 + length)
      if (OTHER_FRAMES.has(marker)) return refusePicture(at, 'the JPEG is of a kind that is not shown')
      if (FRAMES.has(marker)) {
        if (size) return refusePicture(at, 'the JPEG gives its size twice')
        if (body.length < 6) return refusePicture(at, 'the JPEG does not give its size')
        size = { height: view.getUint16(at + 5), width: view.getUint16(at + 7) }
      }
      if (marker === APP1 && startsWith(body, 'Exif\0\0')) orientation = exifOrientation(body.subarray(6))
      if (marker === SCAN) {
        if (!size) return refusePicture(at, 'the JPEG does not give its size')
        if (!endsAfter(bytes, at + 2 + length)) return refusePicture(bytes.length, 'the JPEG ends too early')
        return { ok: true, type: 'image/jpeg', ...size, orientation }
      }
      at += 2 + length
    }
  }
  return refusePicture(bytes.length, 'the JPEG ends too early')
}

const startsWith = (bytes: Uint8Array, text: string): boolean =>
  [...text].every((c, i) => bytes[i] === c.charCodeAt(0))

/** Whether the end marker comes after the scan's start; some cameras append more behind it. */
function endsAfter(bytes: Uint8Array, start: number): boolean {
  for (let i = bytes.length - 2; i >= start; i--) if (bytes[i] === 0xff && bytes[i + 1] === END) return true
  return false
}
