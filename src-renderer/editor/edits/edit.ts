/** Every edit of a job is pure: a job in, another out, sharing what did not change. */
import { create, type Draft } from 'mutative'
import type { Hardware, Job, Setup } from '../../../src-core/job/schema.ts'

export type JobDraft = Draft<Job>
export type SetupDraft = Draft<Setup>
export type HardwareDraft = Draft<Hardware>
/** What is put on the plate, before it has an id. */
export type Piece<H extends Hardware = Hardware> = H extends Hardware ? Omit<H, 'id'> : never

/** The same without some of its fields. */
export const without = <T extends object, K extends keyof T>(whole: T, ...keys: readonly K[]): Omit<T, K> =>
  Object.fromEntries(Object.entries(whole).filter(([key]) => !keys.some((k) => k === key))) as Omit<T, K>

/** A group of figures of which each may be missing; null where all are. */
export const orNone = <T extends object>(figures: T): T | null =>
  Object.values(figures).every((v) => v === null || v === undefined) ? null : figures

export const editJob = (job: Job, recipe: (draft: JobDraft) => void): Job =>
  create(job, (draft) => {
    recipe(draft as JobDraft)
  })

/** Unchanged where there is no such setup. */
export const editSetup = (
  job: Job,
  setupId: string,
  recipe: (setup: SetupDraft, job: JobDraft) => void,
): Job =>
  editJob(job, (draft) => {
    const setup = draft.setups.find((s) => s.id === setupId)
    if (setup) recipe(setup, draft)
  })

/** Unchanged where there is no such piece. */
export const editPiece = (
  job: Job,
  setupId: string,
  id: string,
  recipe: (piece: HardwareDraft) => void,
): Job =>
  editSetup(job, setupId, (setup) => {
    const piece = setup.hardware.find((h) => h.id === id)
    if (piece) recipe(piece)
  })

/** The first of prefix1, prefix2 … that is not taken. */
export function freshId(prefix: string, taken: readonly { readonly id: string }[]): string {
  const ids = new Set(taken.map((t) => t.id))
  for (let n = 1; ; n++) if (!ids.has(`${prefix}${n}`)) return `${prefix}${n}`
}
