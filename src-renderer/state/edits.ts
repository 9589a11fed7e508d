/** Labelled one-step edits for the panels. */
import {
  editJob,
  editPiece,
  editSetup,
  type HardwareDraft,
  type JobDraft,
  type SetupDraft,
} from '../editor/edits/edit.ts'
import type { App } from './app.svelte.ts'

export interface Edits {
  job(label: string, recipe: (job: JobDraft) => void): void
  /** The setup on show. */
  setup(label: string, recipe: (setup: SetupDraft) => void): void
  piece(label: string, id: string, recipe: (piece: HardwareDraft) => void): void
}

export function createEdits({ jobs, results }: App): Edits {
  return {
    job: (label, recipe) => jobs.edit(label, (job) => editJob(job, recipe)),
    setup: (label, recipe) => jobs.edit(label, (job) => editSetup(job, results.setup.id, recipe)),
    piece: (label, id, recipe) => jobs.edit(label, (job) => editPiece(job, results.setup.id, id, recipe)),
  }
}
