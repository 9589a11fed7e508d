/** The only door for a library file: text in, a library or all its faults out. */
import type { JobFault } from '../job/fault.ts'
import { liftPiece } from '../job/fromVersion1.ts'
import { liftLathe } from '../job/fromVersion2.ts'
import { issueFaults, readJson } from '../job/issueWords.ts'
import { writeDocument } from '../job/serialise.ts'
import { librarySchema, SECTIONS, type Library } from './schema.ts'

type Raw = Record<string, unknown>

export type LibraryResult =
  | { readonly ok: true; readonly library: Library }
  | { readonly ok: false; readonly faults: readonly JobFault[] }

export function parseLibrary(text: string): LibraryResult {
  const read = readJson(text)
  if ('reason' in read) return refuse(read.path, read.reason)
  const raw = read.raw
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw))
    return refuse('', 'is not a library: an object is wanted')
  const { format, version } = raw as { format?: unknown; version?: unknown }
  if (format !== 'evenswing-library') return refuse('format', 'is not "evenswing-library"')
  if (typeof version === 'number' && Number.isInteger(version) && version > LIBRARY_VERSION)
    return refuse(
      'version',
      `${version} is newer than this program knows (${LIBRARY_VERSION}); the file was left untouched`,
    )
  const steps = typeof version === 'number' && version >= 1 ? STEPS.slice(version - 1) : []
  const lifted = steps.reduce((document, step) => step(document), raw as Record<string, unknown>)
  const parsed = librarySchema.safeParse(lifted)
  if (!parsed.success) return { ok: false, faults: issueFaults(parsed.error, lifted) }
  const faults = SECTIONS.flatMap((section) => twice(parsed.data, section))
  return faults.length > 0 ? { ok: false, faults } : { ok: true, library: parsed.data }
}

/** Stable text of a library; `parseLibrary` of it gives the same library. */
export const serialiseLibrary = (library: Library): string => writeDocument(librarySchema.parse(library))

export const LIBRARY_VERSION = 3

/** A clamp was a box then: it becomes a press, as in jobs. */
function fromVersion1(raw: Raw): Raw {
  const { hardware } = raw
  if (!Array.isArray(hardware)) return { ...raw, version: 2 }
  return { ...raw, version: 2, hardware: hardware.map((entry) => liftValue(entry, liftPiece)) }
}

/** A lathe had a list of spindle speeds then. */
function fromVersion2(raw: Raw): Raw {
  const { lathes } = raw
  if (!Array.isArray(lathes)) return { ...raw, version: 3 }
  return { ...raw, version: 3, lathes: lathes.map((entry) => liftValue(entry, liftLathe)) }
}

function liftValue(entry: unknown, lift: (value: Raw) => Raw): unknown {
  const item = entry as { value?: unknown } | null
  const value = item?.value
  return typeof value === 'object' && value !== null ? { ...item, value: lift(value as Raw) } : entry
}

/** `STEPS[n]` lifts a library from version n + 1 to n + 2. */
const STEPS: readonly ((raw: Raw) => Raw)[] = [fromVersion1, fromVersion2]

const refuse = (path: string, message: string): LibraryResult => ({ ok: false, faults: [{ path, message }] })

function twice(library: Library, section: (typeof SECTIONS)[number]): JobFault[] {
  const seen = new Set<string>()
  return library[section].flatMap(({ id }, i) => {
    if (!seen.has(id)) {
      seen.add(id)
      return []
    }
    return [{ path: `${section}[${i}].id`, message: `"${id}" is used already` }]
  })
}
