/**
 * Reads STL, binary or text, as hostile input. Binary: 80 bytes of header, a 32-bit count, then 50 bytes a triangle
 * (normal, three corners, attribute), little-endian. The header may say "solid" too, so the length decides first.
 */
import { COORDINATE_LIMIT } from '../geometry/limits.ts'
import { MESH_LIMITS } from './limits.ts'
import { badCoordinate, refuse, tooMany, type StlResult } from './stlFault.ts'
import { readStlText } from './stlText.ts'

const HEADER = 84
const RECORD = 50
/** A text triangle takes about 250 bytes; this leaves room for long numbers. */
const MOST_BYTES = MESH_LIMITS.triangles * 600

/** Refuses with a place and a reason; never throws on any bytes. Normals and attributes are not used. */
export function readStl(bytes: Uint8Array): StlResult {
  if (bytes.length === 0) return refuse('byte 0', 'the file is empty')
  if (bytes.length > MOST_BYTES)
    return refuse('the whole file', `${bytes.length} bytes, more than the ${MOST_BYTES} allowed`)
  const count = bytes.length >= HEADER ? view(bytes).getUint32(80, true) : null
  if (count !== null && HEADER + RECORD * count === bytes.length) return readBinary(bytes, count)
  if (looksLikeText(bytes)) return readStlText(bytes)
  if (count === null)
    return refuse(
      'byte 0',
      `neither text STL ("solid …") nor long enough for a binary header of ${HEADER} bytes`,
    )
  const whole = Math.floor((bytes.length - HEADER) / RECORD)
  if (HEADER + RECORD * count > bytes.length) {
    return refuse(
      `triangle ${whole + 1}`,
      `cut short: the header announces ${count} triangles, the file holds ${whole}`,
    )
  }
  const extra = bytes.length - HEADER - RECORD * count
  return refuse(
    `byte ${HEADER + RECORD * count}`,
    `${extra} bytes after the ${count} triangles that the header announces`,
  )
}

function readBinary(bytes: Uint8Array, count: number): StlResult {
  if (count === 0) return refuse('byte 80', 'no triangles')
  if (count > MESH_LIMITS.triangles) return refuse('byte 80', tooMany(count))
  const data = view(bytes)
  const triangles = new Float64Array(9 * count)
  for (let i = 0, at = HEADER + 12; i < count; i++, at += RECORD) {
    for (let k = 0; k < 9; k++) {
      const value = data.getFloat32(at + 4 * k, true)
      if (!(Math.abs(value) <= COORDINATE_LIMIT)) return refuse(`triangle ${i + 1}`, badCoordinate(value))
      triangles[9 * i + k] = value
    }
  }
  return { ok: true, kind: 'binary', triangles }
}

/** Text begins with "solid" and has no zero byte near its beginning. */
function looksLikeText(bytes: Uint8Array): boolean {
  const start = bytes.subarray(0, 512)
  if (start.includes(0)) return false
  return /^(\u00ef\u00bb\u00bf)?\s*solid\b/i.test(String.fromCharCode(...start))
}

const view = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
