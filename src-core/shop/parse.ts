/** The only door for a library file: text in, a library or all its faults out. */
import type { JobFault } from '../job/fault.ts'
import { liftPiece } from '../job/fromVersion1.ts'
import { issueFaults, readJson } from '../job/issueWords.ts'
import { writeDocument } from '../job/serialise.ts'
import { librarySchema, SECTIONS, type Library } from './schema.ts'

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
  const lifted = version === 1 ? fromVersion1(raw as Record<string, unknown>) : raw
  const parsed = librarySchema.safeParse(lifted)
  if (!parsed.success) return { ok: false, faults: issueFaults(parsed.error, lifted) }
  const faults = SECTIONS.flatMap((section) => twice(parsed.data, section))
  return faults.length > 0 ? { ok: false, faults } : { ok: true, library: parsed.data }
}

/** Stable text of a library; `parseLibrary` of it gives the same library. */
export const serialiseLibrary = (library: Library): string => writeDocument(librarySchema.parse(library))

export const LIBRARY_VERSION = 2

/** A clamp was a box then: it becomes a press, as in jobs. */
function fromVersion1(raw: Record<string, unknown>): Record<string, unknown> {
  const { hardware } = raw
  if (!Array.isArray(hardware)) return { ...raw, version: 2 }
  const lift = (entry: unknown): unknown => {
    const item = entry as { value?: unknown } | null
    const value = item?.value
    if (typeof value !== 'object' || value === null) return entry
    return { ...item, value: liftPiece(value as Record<string, unknown>) }
  }
  return { ...raw, version: 2, hardware: hardware.map(lift) }
}

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
