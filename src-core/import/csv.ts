/**
 * Outlines from a table of points: x, y and, if the heading says so, the degrees swept by an arc to the next point
 * (positive counter-clockwise). Values stand between
 * tabs, semicolons, commas or else blanks; with any but commas a decimal comma is understood. A blank line begins another
 * outline, # a remark; a first line of words may name the columns and the unit. Outlines close by themselves.
 */
import { toRadians } from '../geometry/angles.ts'
import type { Vertex } from '../geometry/types.ts'
import { scaleOf, assemble } from './assemble.ts'
import type { Chain } from './chain.ts'
import { DropList } from './dropList.ts'
import { Budget, CAPS, Refusal, guarded, plainNumber, shown } from './refusal.ts'
import type { ImportOptions, ImportResult, ImportUnit } from './types.ts'

const UNIT_WORD = /(?:^|[^a-z])(mm|cm|in|inch|inches|m)(?:[^a-z]|$)/i
/** A heading that says what a third column is. */
const SWEPT_WORD = /deg|swept|sweep/i
/** Degrees: a full circle has no end to go to. */
const MOST_SWEPT = 360

/** Never throws on any text. Units are asked unless the heading names them. */
export function importCsv(text: string, options: ImportOptions = {}): ImportResult {
  return guarded(() => {
    if (text.length > CAPS.table) throw new Refusal('the whole file', `longer than ${CAPS.table} characters`)
    const { rings, units: stated, count } = readRings(text)
    let extent = 0
    for (const { vertices } of rings)
      for (const v of vertices) extent = Math.max(extent, Math.abs(v.x), Math.abs(v.y))
    const { units, factor, join } = scaleOf(stated, options, extent)
    const chains = rings.map((chain) => ({
      ...chain,
      vertices: chain.vertices.map((v) => ({ ...v, x: v.x * factor, y: v.y * factor })),
    }))
    return assemble({ kind: 'csv', units, chains, counts: { point: count }, drops: new DropList(), join })
  })
}

function readRings(text: string): { rings: Chain[]; units: ImportUnit | null; count: number } {
  const lines = text.replace(/^\ufeff/, '').split(/\r\n|\n|\r/)
  const budget = new Budget()
  const rings: Chain[] = []
  let ring: Vertex[] = []
  let begun = 0
  let separator: string | null = null
  let units: ImportUnit | null = null
  let count = 0
  let headed = false
  let swept = false
  let third = ''
  const close = () => {
    if (ring.length > 0) rings.push({ vertices: ring, closed: true, kind: 'outline', place: `line ${begun}` })
    ring = []
  }
  lines.forEach((raw, i) => {
    const place = `line ${i + 1}`
    const line = raw.trim()
    if (line === '') return close()
    if (line.startsWith('#')) return
    separator ??= ['\t', ';', ','].find((s) => line.includes(s)) ?? ' '
    if (!headed && count === 0 && /^["']?[a-z]/i.test(line)) {
      headed = true
      units = unitIn(line)
      swept = SWEPT_WORD.test(line)
      third = fieldsOf(line, separator)[2] ?? ''
      separator = null
      return
    }
    if (ring.length === 0) begun = i + 1
    budget.vertex(place)
    ring.push(point(line, separator, place, swept, third))
    count++
  })
  close()
  if (count === 0) throw new Refusal(`line ${lines.length}`, 'no points')
  return { rings, units, count }
}

const fieldsOf = (line: string, separator: string): string[] =>
  line.split(separator === ' ' ? /\s+/ : separator).map((field) => field.trim().replace(/^"(.*)"$/, '$1'))

/** @param third what the heading calls a third column. */
function point(line: string, separator: string, place: string, swept: boolean, third: string): Vertex {
  const fields = fieldsOf(line, separator)
  // Spreadsheets end every row alike, with empty cells.
  while (fields.length > 2 && fields.at(-1) === '') fields.pop()
  if (fields.length < 2) throw new Refusal(place, `"${shown(line)}" is not two values x and y`)
  if (fields.length > 3) {
    const hint = separator === ',' ? '; a decimal comma needs semicolons or tabs between the values' : ''
    throw new Refusal(
      place,
      `${fields.length} values where x, y and perhaps degrees swept are expected${hint}`,
    )
  }
  const values = fields.map((field) => {
    const value = plainNumber(separator === ',' ? field : field.replace(/^([^.,]*),([^.,]*)$/, '$1.$2'))
    if (value === null) throw new Refusal(place, `"${shown(field)}" is not a number`)
    return value
  })
  const [x, y, degrees] = values as [number, number, number?]
  if (!degrees) return { x, y }
  if (!swept)
    throw new Refusal(
      place,
      third === ''
        ? `what the third value, ${degrees}, means is not said: name the columns in a first line, as "x, y, degrees swept"`
        : `the third column is headed "${shown(third)}": an arc is read from the degrees that it sweeps, under the heading "degrees swept"`,
    )
  if (Math.abs(degrees) >= MOST_SWEPT) throw new Refusal(place, `an arc cannot sweep ${degrees}°`)
  return { x, y, bulge: Math.tan(toRadians(degrees) / 4) }
}

function unitIn(heading: string): ImportUnit | null {
  const word = UNIT_WORD.exec(heading)?.[1]?.toLowerCase()
  if (word === undefined) return null
  return word.startsWith('in') ? 'in' : (word as ImportUnit)
}
