/** The only door for a library file: text in, a library or all its faults out. */
import { checkDocument, refused, type Refused } from '../job/document.ts'
import type { JobFault } from '../job/fault.ts'
import { liftPiece } from '../job/fromVersion1.ts'
import { liftLathe } from '../job/fromVersion2.ts'
import { fromVersion3 } from '../job/fromVersion3.ts'
import { readJson } from '../job/issueWords.ts'
import { writeDocument } from '../job/serialise.ts'
import type { Raw, Step } from '../job/versions.ts'
import { librarySchema, SECTIONS, type Library } from './schema.ts'

export type LibraryResult = { readonly ok: true; readonly library: Library } | Refused

/** Of any version up to this one; faults with their paths. */
export function parseLibrary(text: string): LibraryResult {
  const read = readJson(text)
  if ('reason' in read) return refused(read.path, read.reason)
  const checked = checkDocument(read.raw, 'library', STEPS, librarySchema)
  if (!checked.ok) return checked
  const library = checked.data
  const faults = SECTIONS.flatMap((section) => twice(library, section))
  return faults.length > 0 ? { ok: false, faults } : { ok: true, library }
}

/** Stable text of a library; `parseLibrary` of it gives the same library. */
export const serialiseLibrary = (library: Library): string => writeDocument(librarySchema.parse(library))

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
const STEPS: readonly Step[] = [fromVersion1, fromVersion2, fromVersion3]

export const LIBRARY_VERSION = STEPS.length + 1

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
