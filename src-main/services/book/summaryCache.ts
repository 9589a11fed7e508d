/** Summaries of a folder's jobs by name, size and time, so that a large book need not be read again. */
import { createHash } from 'node:crypto'
import { join } from 'node:path'
import { z } from 'zod'
import { CURRENT_VERSION } from '../../../src-core/job/parse.ts'
import { readKept, writeKept } from '../keptJson.ts'
import type { Known } from './readSummary.ts'

const LIMIT = 200 * 1024 * 1024
/** The first part is raised whenever summaries hold something new; what is a fault hangs on the version of jobs. */
const FORM = 300 + CURRENT_VERSION

const text = z.string().max(20_000)
const summary = z.strictObject({
  title: text,
  partNumber: text,
  partName: text,
  material: text,
  machine: text,
  plate: text,
  notes: text,
  setups: z.array(z.strictObject({ id: text, title: text, checkSum: text })).max(1000),
  lastRun: z.strictObject({ date: text, setup: text, speed: z.number().nullable() }).nullable(),
  picture: z
    .array(z.strictObject({ role: z.enum(['plate', 'slot', 'part', 'piece', 'weight']), path: text }))
    .max(1000),
})
const entry = z.strictObject({
  size: z.number(),
  time: z.number(),
  known: z.union([
    z.strictObject({ summary, fault: z.null() }),
    z.strictObject({ summary: z.null(), fault: text }),
    z.null(),
  ]),
})
const schema = z.strictObject({
  form: z.int(),
  folder: text,
  disk: z.number(),
  entries: z.record(z.string().max(1000), entry),
})

export interface CachedFile {
  readonly size: number
  readonly time: number
  /** Null: no job. */
  readonly known: Known | null
}

export interface Cache {
  /** Number of the disk that the folder was on. */
  readonly disk: number
  readonly files: ReadonlyMap<string, CachedFile>
  /** Whether the folder held jobs, though what was read of them may be of another form. */
  readonly held: boolean
}

const fileOf = (userData: string, folder: string) =>
  join(userData, 'book', `${createHash('sha256').update(folder).digest('hex').slice(0, 24)}.json`)

/** Null where there is none or where it is damaged; without files where they are of another form of summary. */
export async function readCache(userData: string, folder: string): Promise<Cache | null> {
  try {
    const { value } = await readKept(fileOf(userData, folder), schema, LIMIT)
    if (value?.folder !== folder) return null
    const files = Object.entries(value.entries)
    return { disk: value.disk, files: new Map(value.form === FORM ? files : []), held: files.length > 0 }
  } catch {
    // A cache that cannot be read only costs time.
  }
  return null
}

export async function writeCache(
  userData: string,
  folder: string,
  { disk, files }: Omit<Cache, 'held'>,
): Promise<void> {
  await writeKept(fileOf(userData, folder), { form: FORM, folder, disk, entries: Object.fromEntries(files) })
}
