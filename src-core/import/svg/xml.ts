/**
 * A small XML reader for drawings: elements and attributes, strict about tags and quotes. Entities of a document type
 * are not expanded, so no text can grow; a value that uses one is refused where it is asked for.
 */
import { type Budget, CAPS, Refusal, shown } from '../refusal.ts'

export interface XmlElement {
  /** Without the prefix svg:, with any other. */
  readonly name: string
  readonly line: number
  readonly children: XmlElement[]
  /** Characters of its attributes. */
  readonly size: number
  /** The attribute's value, its entities read. */
  attribute(name: string): string | undefined
}

const NAME = /[A-Za-z_][\w.:-]*/y
const SPACE = /\s*/y
const LONGEST_NAME = 200
const MOST_ATTRIBUTES = 500

/** The root element. Refuses what is not well formed with its line. */
export function readXml(text: string, budget: Budget): XmlElement {
  return new XmlReader(text, budget).read()
}

class XmlReader {
  private at = 0
  private line = 1
  private counted = 0
  /** Whether a document type was met. */
  private typed = false
  private readonly text: string
  private readonly budget: Budget

  constructor(text: string, budget: Budget) {
    this.text = text
    this.budget = budget
  }

  read(): XmlElement {
    const open: XmlElement[] = []
    let root: XmlElement | null = null
    for (;;) {
      const next = this.text.indexOf('<', this.at)
      const between = this.text.slice(this.at, next < 0 ? undefined : next)
      if (open.length === 0 && between.replace(/^\ufeff/, '').trim() !== '') {
        this.fail(`"${shown(between.trim())}" stands outside the drawing: not an SVG file`)
      }
      if (next < 0) break
      this.at = next
      if (this.skipMarkup()) continue
      if (this.text.startsWith('</', this.at)) {
        this.closeTag(open)
        continue
      }
      if (open.length === 0 && root) this.fail('a second root element')
      const { element, empty } = this.openTag()
      root ??= element
      open.at(-1)?.children.push(element)
      if (empty) continue
      open.push(element)
      if (open.length > 8 * CAPS.depth) this.fail(`elements within elements, deeper than ${8 * CAPS.depth}`)
    }
    if (open.length > 0) {
      const { name, line } = open.at(-1)!
      this.at = this.text.length
      this.fail(`cut short: <${name}> of line ${line} is not closed`)
    }
    if (!root) this.fail('no element: not an SVG file')
    return root
  }

  /** Comments, processing instructions, CDATA and the document type. */
  private skipMarkup(): boolean {
    const { text, at } = this
    if (text.startsWith('<!--', at)) return this.skipTo('-->', 'a comment')
    if (text.startsWith('<?', at)) return this.skipTo('?>', 'an instruction')
    if (text.startsWith('<![CDATA[', at)) return this.skipTo(']]>', 'character data')
    if (!text.startsWith('<!', at)) return false
    if (!/^<!DOCTYPE\s/i.test(text.slice(at, at + 10)) || this.typed)
      this.fail('markup that has no place in a drawing')
    this.typed = true
    const end = text.indexOf('>', at)
    if (text.slice(at, end < 0 ? undefined : end).includes('[')) this.skipTo(']', 'a document type')
    return this.skipTo('>', 'a document type')
  }

  private skipTo(mark: string, what: string): true {
    const end = this.text.indexOf(mark, this.at)
    if (end < 0) this.fail(`cut short within ${what}`)
    this.at = end + mark.length
    return true
  }

  private closeTag(open: XmlElement[]): void {
    this.at += 2
    const name = this.name()
    this.match(SPACE)
    if (this.text[this.at] !== '>') this.fail(`</${shown(name)} is not closed by >`)
    this.at++
    const last = open.pop()
    if (!last || last.name !== plainName(name)) {
      this.fail(
        last ? `</${shown(name)}> where </${last.name}> is expected` : `</${shown(name)}> closes nothing`,
      )
    }
  }

  private openTag(): { element: XmlElement; empty: boolean } {
    const line = this.lineNow()
    this.budget.element(`line ${line}`)
    this.at++
    const name = plainName(this.name())
    const attributes = new Map<string, string>()
    for (;;) {
      this.match(SPACE)
      const c = this.text[this.at]
      if (c === '>' || c === '/') {
        const empty = c === '/'
        this.at += empty ? 2 : 1
        if (empty && this.text[this.at - 1] !== '>') this.fail(`<${name}: a / that does not end it`)
        return { element: element(name, line, attributes), empty }
      }
      if (c === undefined) this.fail(`cut short within <${name}>`)
      const key = this.name()
      this.match(SPACE)
      if (this.text[this.at] !== '=') this.fail(`attribute ${shown(key)} of <${name}> without a value`)
      this.at++
      this.match(SPACE)
      const quote = this.text[this.at]
      if (quote !== '"' && quote !== "'") this.fail(`attribute ${shown(key)} of <${name}> without quotes`)
      const end = this.text.indexOf(quote, this.at + 1)
      if (end < 0) this.fail(`cut short within attribute ${shown(key)} of <${name}>`)
      if (attributes.size >= MOST_ATTRIBUTES)
        this.fail(`<${name}> has more than ${MOST_ATTRIBUTES} attributes`)
      if (attributes.has(key)) this.fail(`attribute ${shown(key)} of <${name}> stands twice`)
      attributes.set(key, this.text.slice(this.at + 1, end))
      this.at = end + 1
    }
  }

  private name(): string {
    const found = this.match(NAME)
    if (found === '' || found.length > LONGEST_NAME)
      this.fail(`"${shown(this.text.slice(this.at, this.at + 12))}" is no name`)
    return found
  }

  private match(pattern: RegExp): string {
    pattern.lastIndex = this.at
    const found = pattern.exec(this.text)?.[0] ?? ''
    this.at += found.length
    return found
  }

  private lineNow(): number {
    for (; this.counted < this.at; this.counted++) if (this.text[this.counted] === '\n') this.line++
    return this.line
  }

  private fail(reason: string): never {
    throw new Refusal(`line ${this.lineNow()}`, reason)
  }
}

const plainName = (name: string) => (name.startsWith('svg:') ? name.slice(4) : name)

function element(name: string, line: number, attributes: ReadonlyMap<string, string>): XmlElement {
  let size = 0
  for (const value of attributes.values()) size += value.length
  return {
    name,
    line,
    children: [],
    size,
    attribute(key) {
      const raw = attributes.get(key)
      return raw?.includes('&') ? readEntities(raw, line) : raw
    },
  }
}

const NAMED: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" }

function readEntities(raw: string, line: number): string {
  return raw.replace(/&(#x[0-9a-f]{1,6}|#\d{1,7}|[^;&\s]{0,40});?/gi, (whole, body: string) => {
    const code = /^#x/i.test(body)
      ? parseInt(body.slice(2), 16)
      : body.startsWith('#')
        ? Number(body.slice(1))
        : NaN
    if (code > 0 && code <= 0x10ffff) return String.fromCodePoint(code)
    const named = Object.hasOwn(NAMED, body) && whole.endsWith(';') ? NAMED[body] : undefined
    if (named === undefined) throw new Refusal(`line ${line}`, `the entity "${shown(whole)}" is not taken`)
    return named
  })
}
