/** Labelled one-step edits for the panels. */
import {
  editJob,
  editPiece,
  editSetup,
  type HardwareDraft,
  type JobDraft,
  type SetupDraft,
} from '../editor/edits/edit.ts'
import type { Draft } from 'mutative'
import type { Box } from '../../src-core/job/schema.ts'
import type { App } from './app.svelte.ts'

/** A box's kind says nothing of its fields: `box` edits it. */
type KindName = Exclude<HardwareDraft, Draft<Box>>['kind']

export interface Edits {
  job(label: string, recipe: (job: JobDraft) => void): void
  /** The one of a list of the job that has this id; nothing where there is none. */
  one<T extends { id: string }>(
    label: string,
    list: (job: JobDraft) => T[],
    id: string,
    recipe: (item: T) => void,
  ): void
  /** The setup on show. */
  setup(label: string, recipe: (setup: SetupDraft) => void): void
  piece(label: string, id: string, recipe: (piece: HardwareDraft) => void): void
  /** A piece of this kind; nothing where it is of another. */
  kind<K extends KindName>(
    kind: K,
    label: string,
    id: string,
    recipe: (piece: Extract<HardwareDraft, { kind: K }>) => void,
  ): void
  box(label: string, id: string, recipe: (piece: Draft<Box>) => void): void
}

export function createEdits({ jobs, results }: App): Edits {
  const piece: Edits['piece'] = (label, id, recipe) =>
    jobs.edit(label, (job) => editPiece(job, results.setup.id, id, recipe))
  const whole: Edits['job'] = (label, recipe) => jobs.edit(label, (job) => editJob(job, recipe))
  return {
    job: whole,
    one: (label, list, id, recipe) =>
      whole(label, (job) => {
        const item = list(job).find((i) => i.id === id)
        if (item) recipe(item)
      }),
    setup: (label, recipe) => jobs.edit(label, (job) => editSetup(job, results.setup.id, recipe)),
    piece,
    kind: (kind, label, id, recipe) =>
      piece(label, id, (p) => {
        if (p.kind === kind) recipe(p as Extract<HardwareDraft, { kind: typeof kind }>)
      }),
    box: (label, id, recipe) =>
      piece(label, id, (p) => {
        if ('base' in p) recipe(p)
      }),
  }
}
