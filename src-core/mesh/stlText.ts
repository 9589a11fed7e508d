/** Reads text STL: solid, then `facet normal … outer loop vertex ×3 endloop endfacet`, endsolid; solids may repeat. */
import { LIMITS } from '../job/schema.ts'
import { badCoordinate, refuse, tooMany, type StlResult } from './stl.ts'

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i
const NEWLINE = 10
const LONGEST_TOKEN = 80

/** Words of the file one after the other, with the line each stands on. */
class Words {
  line = 1
  private at = 0
  private readonly bytes: Uint8Array

  constructor(bytes: Uint8Array) {
    this.bytes = bytes
  }

  /** The next word, in lower case, or '' at the end of the file. */
  next(): string {
    const { bytes } = this
    while (this.at < bytes.length && bytes[this.at]! <= 32) {
      if (bytes[this.at] === NEWLINE) this.line++
      this.at++
    }
    const start = this.at
    while (this.at < bytes.length && bytes[this.at]! > 32) this.at++
    let word = ''
    const end = Math.min(this.at, start + LONGEST_TOKEN)
    for (let i = start; i < end; i++) {
      const c = bytes[i]!
      word += String.fromCharCode(c >= 65 && c <= 90 ? c + 32 : c)
    }
    return word
  }

  /** Drops the rest of the line: the name of a solid may be anything. */
  skipLine(): void {
    while (this.at < this.bytes.length && this.bytes[this.at] !== NEWLINE) this.at++
  }
}

class Refusal extends Error {}

export function readStlText(bytes: Uint8Array): StlResult {
  const start = bytes[0] === 0xef ? 3 : 0
  const words = new Words(bytes.subarray(start))
  const corners: number[] = []
  try {
    let word = words.next()
    while (word === 'solid') {
      words.skipLine()
      word = readFacets(words, corners)
      expectWord(word, 'endsolid')
      words.skipLine()
      word = words.next()
    }
    if (word !== '') throw new Refusal(`expected "solid" or the end, found "${shown(word)}"`)
  } catch (error) {
    if (error instanceof Refusal) return refuse(`line ${words.line}`, error.message)
    throw error
  }
  if (corners.length === 0) return refuse(`line ${words.line}`, 'no triangles')
  return { ok: true, kind: 'text', triangles: Float64Array.from(corners) }
}

/** Facets up to the first word that begins none, which is returned. */
function readFacets(words: Words, corners: number[]): string {
  for (;;) {
    const word = words.next()
    if (word !== 'facet') return word
    if (corners.length / 9 >= LIMITS.meshTriangles) throw new Refusal(tooMany(corners.length / 9 + 1))
    expectWord(words.next(), 'normal')
    for (let k = 0; k < 3; k++) if (words.next() === '') throw new Refusal('cut short within a facet')
    expectWord(words.next(), 'outer')
    expectWord(words.next(), 'loop')
    for (let k = 0; k < 3; k++) {
      expectWord(words.next(), 'vertex')
      for (let c = 0; c < 3; c++) corners.push(coordinate(words.next()))
    }
    expectWord(words.next(), 'endloop')
    expectWord(words.next(), 'endfacet')
  }
}

function coordinate(word: string): number {
  if (word === '') throw new Refusal('cut short within a vertex')
  if (!NUMBER.test(word)) throw new Refusal(`"${shown(word)}" is not a number`)
  const value = Number(word)
  if (!(Math.abs(value) <= LIMITS.coordinate)) throw new Refusal(badCoordinate(value))
  return value
}

function expectWord(found: string, wanted: string): void {
  if (found === wanted) return
  if (found === '') throw new Refusal(`cut short: "${wanted}" is missing`)
  throw new Refusal(`expected "${wanted}", found "${shown(found)}"`)
}

const shown = (word: string) => (word.length > 24 ? `${word.slice(0, 24)}…` : word)
