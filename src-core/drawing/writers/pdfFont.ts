/** Bytes of a table's entry in the font's directory, after a header of 12: tag, checksum, offset, length. */
const ENTRY = 16
const HEADER = 12
/** Substitution and positioning of glyphs (ligatures, kerning by class). */
const LAYOUT_TABLES = new Set(['GSUB', 'GPOS', 'GDEF'])

/**
 * A copy of a TrueType font whose layout tables go by names that no reader knows. Text is then set letter by letter:
 * as wide as the drawing reckoned it, without ligatures that a search would not find, and in less time.
 */
export function plainFont(font: Uint8Array): Uint8Array {
  const copy = font.slice()
  const view = new DataView(copy.buffer)
  const tables = copy.length >= HEADER ? view.getUint16(4) : 0
  for (let i = 0; i < tables; i++) {
    const at = HEADER + i * ENTRY
    if (at + 4 > copy.length) break
    if (LAYOUT_TABLES.has(String.fromCharCode(...copy.subarray(at, at + 4)))) copy[at] = 'z'.charCodeAt(0)
  }
  return copy
}
