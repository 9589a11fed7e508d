/** The one Exif field that matters here: which way up the picture is to be shown (CIPA DC-008, tag 0x0112). */

const ORIENTATION = 0x0112
const SHORT = 3
const ENTRY = 12

/** Orientation named by the TIFF block in `bytes`, 1 to 8; 1 where it names none or cannot be followed. */
export function exifOrientation(bytes: Uint8Array): number {
  if (bytes.length < 14) return 1
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const order = view.getUint16(0)
  if (order !== 0x4949 && order !== 0x4d4d) return 1
  const little = order === 0x4949
  if (view.getUint16(2, little) !== 42) return 1
  const start = view.getUint32(4, little)
  if (start + 2 > bytes.length) return 1
  // A count is 16 bits, and no more entries are looked at than there are bytes for.
  const count = Math.min(view.getUint16(start, little), Math.floor((bytes.length - start - 2) / ENTRY))
  for (let i = 0; i < count; i++) {
    const at = start + 2 + i * ENTRY
    if (view.getUint16(at, little) !== ORIENTATION || view.getUint16(at + 2, little) !== SHORT) continue
    const value = view.getUint16(at + 8, little)
    return value >= 1 && value <= 8 ? value : 1
  }
  return 1
}
