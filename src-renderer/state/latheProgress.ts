/** What is kept of standing at the machine: nothing of the job, only how far one has come and what was read. */
import { z } from 'zod'
import type { Job, Setup } from '../../src-core/job/schema.ts'
import { trimEntry, type TrimEntry } from '../../src-core/trim/entry.ts'

const size = z.strictObject({
  cut: z.string().max(200),
  pass: z.int().min(1),
  size: z.number().positive(),
  /** Of the pass that left it, and whether it was the first of the last two. */
  depth: z.number().min(0),
  finishing: z.boolean(),
})

/** What older versions kept besides is dropped. */
const progress = z.object({
  step: z.string().max(300),
  done: z.array(z.string().max(300)).max(1000),
  /** Mark of the setup as it was then. */
  of: z.string().max(100),
  entry: trimEntry,
  taken: z.array(z.string().max(20_000)).max(50),
  sizes: z.array(size).max(500),
  /** g·mm that the correction put on last was to leave, toward where, and its 95 % bound. */
  expected: z.strictObject({ amount: z.number(), angle: z.number(), upper: z.number() }).nullable(),
  by: z.string().max(200),
  remarks: z.string().max(20_000),
})
export type LatheProgress = z.infer<typeof progress>

export const newProgress = (setup: Setup, by: string, entry: TrimEntry): LatheProgress => ({
  step: 'fetch',
  done: [],
  of: markOf(setup),
  entry,
  taken: [],
  sizes: [],
  expected: null,
  by,
  remarks: '',
})

/** Null for a text that is none. */
export function parseProgress(text: string | null): LatheProgress | null {
  if (text === null) return null
  try {
    return progress.safeParse(JSON.parse(text)).data ?? null
  } catch {
    return null
  }
}

/** Where a setup's progress is kept: by its file, or by what the job is called while it has none. */
export const progressKey = (job: Job, setup: Setup, file: { folder: string; name: string } | null): string =>
  digest(JSON.stringify(file ? [file.folder, file.name, setup.id] : [job.title, job.part.name, setup.id]))

/** Another one whenever what stands on the plate, or what is cut, is another. */
export const markOf = (setup: Setup): string =>
  digest(JSON.stringify({ ...setup, sheet: null, cuts: setup.cuts?.map((c) => ({ ...c, dial: null })) }))

/** 16 hexadecimal digits of a text (FNV-1a, twice over): to tell texts apart, not to hide them. */
function digest(text: string): string {
  const half = (seed: number) => {
    let hash = seed
    for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193)
    return (hash >>> 0).toString(16).padStart(8, '0')
  }
  return half(0x811c9dc5) + half(0x050c5d1f)
}
