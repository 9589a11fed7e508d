/** A job as text: the schema's key order, two-space indentation, short lists of numbers and points on one line. */
import { jobSchema, type Job } from './schema.ts'

const LINE = 100

/** Stable: the same job gives the same bytes; `parseJob` of the text gives the same job. Ends in a line feed. */
export function serialiseJob(job: Job): string {
  // Parsing rebuilds every object in the schema's key order.
  return writeDocument(jobSchema.parse(job))
}

/** Any plain document in that layout, keys in the order they have. */
export const writeDocument = (document: object): string => `${write(document, '')}\n`

function write(value: unknown, indent: string): string {
  if (value === null || typeof value !== 'object') return Object.is(value, -0) ? '0' : JSON.stringify(value)
  const inner = `${indent}  `
  const flat = flatText(value)
  if (flat !== null && indent.length + flat.length <= LINE) return flat
  if (Array.isArray(value)) {
    if (value.length > 24 && value.every((v) => typeof v === 'number'))
      return `[\n${wrapNumbers(value, inner)}\n${indent}]`
    return `[\n${value.map((v) => inner + write(v, inner)).join(',\n')}\n${indent}]`
  }
  const entries = Object.entries(value).filter(([, v]) => v !== undefined)
  return `{\n${entries.map(([k, v]) => `${inner}${JSON.stringify(k)}: ${write(v, inner)}`).join(',\n')}\n${indent}}`
}

/** One-line text of something without objects deeper than two levels, else null. */
function flatText(value: object, depth = 0): string | null {
  if (depth > 2) return null
  const item = (v: unknown): string | null => {
    if (v === null || typeof v !== 'object') return Object.is(v, -0) ? '0' : JSON.stringify(v)
    return flatText(v, depth + 1)
  }
  if (Array.isArray(value)) {
    if (value.length > 24) return null
    if (depth === 0 && value.some((v) => typeof v === 'object' && v !== null)) return null
    const items = value.map(item)
    return items.includes(null) ? null : `[${items.join(', ')}]`
  }
  const entries = Object.entries(value).filter(([, v]) => v !== undefined)
  if (entries.length === 0) return '{}'
  const items = entries.map(([k, v]) => {
    const t = item(v)
    return t === null ? null : `${JSON.stringify(k)}: ${t}`
  })
  return items.includes(null) ? null : `{ ${items.join(', ')} }`
}

function wrapNumbers(numbers: readonly number[], indent: string): string {
  const lines: string[] = []
  for (let i = 0; i < numbers.length; i += 12)
    lines.push(
      indent +
        numbers
          .slice(i, i + 12)
          .map((n) => (Object.is(n, -0) ? '0' : JSON.stringify(n)))
          .join(', '),
    )
  return lines.join(',\n')
}
