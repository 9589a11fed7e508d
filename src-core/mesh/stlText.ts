/** Reads text STL: solid, then `facet normal … outer loop vertex ×3 endloop endfacet`, endsolid; solids may repeat. */
import { COORDINATE_LIMIT } from '../geometry/limits.ts'
import { MESH_LIMITS } from './limits.ts'
import { badCoordinate, refuse, tooMany, type StlResult } from './stlFault.ts'

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i
const SPACE = 32
const LONGEST_WORD = 80

/** Words of the file one after the other. */
class Words {
  private at = 0
  private readonly text: string

  constructor(text: string) {
    this.text = text
  }

  /** The next word, or '' at the end of the file. */
  next(): string {
    const { text } = this
    let { at } = this
    while (at < text.length && text.charCodeAt(at) <= SPACE) at++
    const start = at
    while (at < text.length && text.charCodeAt(at) > SPACE) at++
    this.at = at
    return text.slice(start, Math.min(at, start + LONGEST_WORD))
  }

  /** Drops the rest of the line: the name of a solid may be anything. */
  skipLine(): void {
    const end = this.text.indexOf('\n', this.at)
    this.at = end < 0 ? this.text.length : end
  }

  /** Line of the word read last, from 1. */
  line(): number {
    let line = 1
    for (let i = this.text.indexOf('\n'); i >= 0 && i < this.at; i = this.text.indexOf('\n', i + 1)) line++
    return line
  }
}

class Refusal extends Error {}

export function readStlText(bytes: Uint8Array): StlResult {
  // Only the names of solids may hold anything but ASCII.
  const words = new Words(new TextDecoder('windows-1252').decode(bytes.subarray(bytes[0] === 0xef ? 3 : 0)))
  const corners: number[] = []
  try {
    let word = words.next()
    while (is(word, 'solid')) {
      words.skipLine()
      expectWord(readFacets(words, corners), 'endsolid')
      words.skipLine()
      word = words.next()
    }
    if (word !== '') throw new Refusal(`expected "solid" or the end, found "${shown(word)}"`)
    if (corners.length === 0) throw new Refusal('no triangles')
  } catch (error) {
    if (error instanceof Refusal) return refuse(`line ${words.line()}`, error.message)
    throw error
  }
  return { ok: true, kind: 'text', triangles: Float64Array.from(corners) }
}

/** Facets up to the first word that begins none, which is returned. */
function readFacets(words: Words, corners: number[]): string {
  for (;;) {
    const word = words.next()
    if (!is(word, 'facet')) return word
    if (corners.length / 9 >= MESH_LIMITS.triangles) throw new Refusal(tooMany(corners.length / 9 + 1))
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
  if (!(Math.abs(value) <= COORDINATE_LIMIT)) throw new Refusal(badCoordinate(value))
  return value
}

/** Keywords may be in capitals. */
const is = (found: string, wanted: string) => found === wanted || found.toLowerCase() === wanted

function expectWord(found: string, wanted: string): void {
  if (is(found, wanted)) return
  if (found === '') throw new Refusal(`cut short: "${wanted}" is missing`)
  throw new Refusal(`expected "${wanted}", found "${shown(found)}"`)
}

const shown = (word: string) => (word.length > 24 ? `${word.slice(0, 24)}…` : word)
