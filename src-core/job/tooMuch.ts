/** Texts of JSON that would take far more memory, once read, than any job does. */

/** Ten times the largest job; a list of zeros of 60 MB has thirty million. */
export const MOST_VALUES = 3_000_000

const COMMA = 44
const OPEN_ARRAY = 91
const OPEN_OBJECT = 123

/** Counts the marks that stand before values, without reading them; those within strings count too. */
export function holdsTooMuch(text: string): boolean {
  if (text.length <= MOST_VALUES) return false
  let marks = 0
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i)
    if ((code === COMMA || code === OPEN_ARRAY || code === OPEN_OBJECT) && ++marks > MOST_VALUES) return true
  }
  return false
}
