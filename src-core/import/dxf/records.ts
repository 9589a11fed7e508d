/** A DXF file as records: a group 0 and the groups that belong to it. Every group is a line of code, a line of value. */
import { Refusal, plainNumber, shown } from '../refusal.ts'

export class DxfRecord {
  readonly codes: number[] = []
  readonly values: string[] = []
  readonly type: string
  /** Line of its group 0, from 1. */
  readonly line: number

  constructor(type: string, line: number) {
    this.type = type
    this.line = line
  }

  get place(): string {
    return `line ${this.line}`
  }

  text(code: number): string | undefined {
    const i = this.codes.indexOf(code)
    return i < 0 ? undefined : this.values[i]
  }

  has(code: number): boolean {
    return this.codes.includes(code)
  }

  /** The number of the first such group; refuses the file where it is not a number, or missing without a default. */
  number(code: number, otherwise?: number): number {
    const i = this.codes.indexOf(code)
    if (i >= 0) return this.numberAt(i)
    if (otherwise === undefined) throw new Refusal(this.place, `${this.type} lacks its group ${code}`)
    return otherwise
  }

  /** All numbers of such groups, in order. */
  numbers(code: number): number[] {
    return this.codes.flatMap((c, i) => (c === code ? [this.numberAt(i)] : []))
  }

  numberAt(i: number): number {
    const value = plainNumber(this.values[i]!)
    if (value !== null) return value
    const line = this.line + 2 * (i + 1) + 1
    throw new Refusal(
      `line ${line}`,
      `group ${this.codes[i]} of ${this.type}: "${shown(this.values[i]!)}" is not a usable number`,
    )
  }
}

/** Calls `visit` with each record up to EOF, which must be there. */
export function readRecords(text: string, visit: (record: DxfRecord) => void): void {
  let at = text.startsWith('\ufeff') ? 1 : 0
  let line = 0
  let record: DxfRecord | null = null
  const nextLine = (): string | null => {
    if (at >= text.length) return null
    let end = text.indexOf('\n', at)
    if (end < 0) end = text.length
    const found = text.slice(at, text[end - 1] === '\r' ? end - 1 : end)
    at = end + 1
    line++
    return found
  }
  for (;;) {
    const codeLine = nextLine()
    const value = nextLine()
    if (codeLine === null || value === null)
      throw new Refusal(`line ${line}`, 'cut short: the end mark EOF is missing')
    if (!/^\s*-?\d{1,4}\s*$/.test(codeLine)) {
      throw new Refusal(
        `line ${line - 1}`,
        `"${shown(codeLine.trim())}" is not a group code: not a DXF file, or a damaged one`,
      )
    }
    const code = Number(codeLine)
    if (code !== 0) {
      record?.codes.push(code)
      record?.values.push(value)
      continue
    }
    if (record) visit(record)
    record = new DxfRecord(value.trim().toUpperCase(), line - 1)
    if (record.type === 'EOF') return
  }
}
