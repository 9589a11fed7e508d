/** Keys that stand twice in one object of a JSON text: the language's reader takes the last and says nothing. */

export interface RepeatedKey {
  /** From the document's root: names and places in arrays. */
  readonly path: readonly (string | number)[]
  /** Line of the second one, from 1. */
  readonly line: number
}

interface Level {
  /** Null in an array. */
  readonly keys: Set<string> | null
  at: string | number
  /** Before a key or its value. */
  wantsKey: boolean
}

const QUOTE = 34
const COMMA = 44
const OPEN_ARRAY = 91
const BACKSLASH = 92
const CLOSE_ARRAY = 93
const OPEN_OBJECT = 123
const CLOSE_OBJECT = 125

/** The first repeated key of a text that is JSON, or null. Any other text gives something or null, never a throw. */
export function repeatedKey(text: string): RepeatedKey | null {
  const levels: Level[] = []
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i)
    const level = levels[levels.length - 1]
    if (code === QUOTE) {
      const end = endOfString(text, i)
      if (level?.keys && level.wantsKey) {
        const key = keyOf(text.slice(i, end + 1))
        level.at = key
        if (level.keys.has(key)) return { path: levels.map((l) => l.at), line: lineAt(text, i) }
        level.keys.add(key)
        level.wantsKey = false
      }
      i = end
    } else if (code === OPEN_OBJECT) levels.push({ keys: new Set(), at: '', wantsKey: true })
    else if (code === OPEN_ARRAY) levels.push({ keys: null, at: 0, wantsKey: false })
    else if (code === CLOSE_OBJECT || code === CLOSE_ARRAY) levels.pop()
    else if (code === COMMA && level) {
      if (level.keys) level.wantsKey = true
      else if (typeof level.at === 'number') level.at++
    }
  }
  return null
}

/** Place of the quote that ends the string beginning at `start`. */
function endOfString(text: string, start: number): number {
  let end = text.indexOf('"', start + 1)
  while (end >= 0 && isEscaped(text, end)) end = text.indexOf('"', end + 1)
  return end < 0 ? text.length : end
}

function isEscaped(text: string, at: number): boolean {
  let strokes = 0
  while (text.charCodeAt(at - 1 - strokes) === BACKSLASH) strokes++
  return strokes % 2 === 1
}

/** Two spellings of one key are the same key. */
function keyOf(quoted: string): string {
  if (!quoted.includes('\\')) return quoted.slice(1, -1)
  try {
    return JSON.parse(quoted) as string
  } catch {
    return quoted
  }
}

function lineAt(text: string, at: number): number {
  let line = 1
  for (let i = text.indexOf('\n'); i >= 0 && i < at; i = text.indexOf('\n', i + 1)) line++
  return line
}
