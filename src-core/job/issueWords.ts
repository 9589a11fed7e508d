/** What is wrong with a document, in plain words: of its JSON and of what its schema found. */
import type { z } from 'zod'
import type { JobFault } from './fault.ts'
import { repeatedKey } from './repeatedKeys.ts'
import { holdsTooMuch, MOST_VALUES } from './tooMuch.ts'

/** The value that a text of JSON holds, or why and where it holds none; a byte order mark is dropped. */
export function readJson(
  text: string,
): { readonly raw: unknown } | { readonly reason: string; readonly path: string } {
  if (holdsTooMuch(text)) return { path: '', reason: `holds more than ${MOST_VALUES / 1e6} million values` }
  let raw: unknown
  try {
    raw = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text)
  } catch (error) {
    return { path: '', reason: `is not JSON: ${jsonReason(text, (error as Error).message)}` }
  }
  const repeated = repeatedKey(text)
  if (!repeated) return { raw }
  return { path: pathText(repeated.path), reason: `stands twice, again in line ${repeated.line}; remove one` }
}

function pathText(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (text, key) =>
      typeof key === 'number' ? `${text}[${key}]` : text ? `${text}.${keyText(key)}` : keyText(key),
    '',
  )
}

/** A file's own key may be anything: one that is no plain word is quoted, so that a place stays on its line. */
function keyText(key: PropertyKey): string {
  const name = String(key)
  if (/^[\w-]+$/.test(name)) return name
  return JSON.stringify(name.length > 40 ? `${name.slice(0, 40)}…` : name)
}

function valueAt(document: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((v, key) => (v as Record<PropertyKey, unknown> | undefined)?.[key], document)
}

type Issue = z.core.$ZodIssue

/** All faults that a schema found, each with its place in the document. */
export function issueFaults(error: z.ZodError, document: unknown): JobFault[] {
  return error.issues.flatMap((issue) => wordIssue(issue, document))
}

/** Says what is wrong in plain words; a union reports the branch that came nearest. */
function wordIssue(issue: Issue, document: unknown, base: readonly PropertyKey[] = []): JobFault[] {
  const full = [...base, ...issue.path]
  const path = pathText(full)
  if (issue.code === 'invalid_union') {
    const branches = issue.errors.filter((e) => e.length > 0)
    const score = (errors: readonly Issue[]) =>
      errors.reduce((s, e) => s + (e.code === 'unrecognized_keys' || e.path.length <= 1 ? 10 : 1), 0)
    const nearest = [...branches].sort((a, b) => score(a) - score(b))[0]
    if (nearest) return nearest.flatMap((e) => wordIssue(e, document, full))
    return [{ path, message: 'is not one of the forms it may take' }]
  }
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((key) => ({ path: pathText([...full, key]), message: 'is not a known field' }))
  const value = valueAt(document, full)
  if (value === undefined) return [{ path, message: 'is missing' }]
  return [{ path, message: `${issueWords(issue)}${shown(value)}` }]
}

function shown(value: unknown): string {
  if (typeof value === 'number') return `, but is ${value}`
  if (typeof value === 'string')
    return `, but is ${JSON.stringify(value.length > 40 ? `${value.slice(0, 40)}…` : value)}`
  return value === null ? ', but is null' : ''
}

function issueWords(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return `must be ${article(issue.expected)}`
    case 'too_small':
      if (issue.origin === 'array') return `needs at least ${issue.minimum} ${entries(issue.minimum)}`
      if (issue.origin === 'string') return 'must not be empty'
      return `must be ${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}`
    case 'too_big':
      if (issue.origin === 'array') return `may have at most ${issue.maximum} ${entries(issue.maximum)}`
      if (issue.origin === 'string') return `may have at most ${issue.maximum} characters`
      return `must be at most ${issue.maximum}`
    case 'invalid_value':
      return `must be ${issue.values.map((v) => JSON.stringify(v)).join(' or ')}`
    default:
      return issue.message
  }
}

const entries = (n: number | bigint) => (Number(n) === 1 ? 'entry' : 'entries')

function article(expected: string): string {
  if (expected === 'int') return 'a whole number'
  if (expected === 'object' || expected === 'array') return `an ${expected === 'array' ? 'array' : 'object'}`
  if (expected === 'string') return 'text'
  return expected === 'boolean' ? 'true or false' : `a ${expected}`
}

/** The engine's message with its offset turned into line and column where it has one. */
function jsonReason(text: string, message: string): string {
  const position = /position (\d+)/.exec(message)?.[1]
  if (position === undefined)
    return message.includes('end of JSON') ? 'it ends too early' : message.replace(/\s+/g, ' ').slice(0, 120)
  const before = text.slice(0, Number(position)).split('\n')
  const what = message.replace(/ in JSON at position.*$/s, '').replace(/\s+/g, ' ')
  return `${what}, line ${before.length} column ${before[before.length - 1]!.length + 1}`
}
