/** Bytes as text and back: base64 with padding, RFC 4648 section 4. */

const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/'
const VALUES = new Int8Array(128).fill(-1)
for (let i = 0; i < 64; i++) VALUES[ALPHABET.charCodeAt(i)] = i

/** Bytes of a base64 text; null where it is not one. */
export function bytesOfBase64(text: string): Uint8Array<ArrayBuffer> | null {
  if (text.length % 4 !== 0) return null
  const padding = text.endsWith('==') ? 2 : text.endsWith('=') ? 1 : 0
  const digits = text.length - padding
  const bytes = new Uint8Array((text.length / 4) * 3 - padding)
  let held = 0
  let bits = 0
  let at = 0
  for (let i = 0; i < digits; i++) {
    const code = text.charCodeAt(i)
    const value = code < 128 ? VALUES[code]! : -1
    if (value < 0) return null
    held = ((held << 6) | value) & 0xffff
    bits += 6
    if (bits < 8) continue
    bits -= 8
    bytes[at++] = (held >> bits) & 0xff
  }
  return bytes
}

/** The base64 text of bytes. */
export function base64OfBytes(bytes: Uint8Array): string {
  const pieces: string[] = []
  // In runs, so that a picture's megabytes are not joined letter by letter.
  for (let start = 0; start < bytes.length; start += 6144)
    pieces.push(run(bytes.subarray(start, start + 6144)))
  return pieces.join('')
}

function run(bytes: Uint8Array): string {
  let text = ''
  for (let i = 0; i < bytes.length; i += 3) {
    const left = bytes.length - i
    const three = (bytes[i]! << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0)
    text += ALPHABET[three >> 18]! + ALPHABET[(three >> 12) & 63]!
    text += (left > 1 ? ALPHABET[(three >> 6) & 63]! : '=') + (left > 2 ? ALPHABET[three & 63]! : '=')
  }
  return text
}
