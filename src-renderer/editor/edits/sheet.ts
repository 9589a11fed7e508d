/** Choices about a setup's drawing, kept in the job. What is set back to its own choosing leaves no trace. */
import type { Job, SheetChoices, TitleBlockFields } from '../../../src-core/job/schema.ts'
import { editJob, editSetup } from './edit.ts'

type Choice = NonNullable<SheetChoices['dimensions']>[string]

/** Sets or, with undefined, takes back one choice. */
export const chooseSheet = <K extends 'size' | 'scale' | 'projection'>(
  job: Job,
  setupId: string,
  name: K,
  value: SheetChoices[K],
): Job => editChoices(job, setupId, (sheet) => withEntry(sheet, name, value))

/** Where a dimension's line stands, sheet mm from its first point; undefined: where the program puts it. */
export const moveDimension = (job: Job, setupId: string, id: string, offset: number | undefined): Job =>
  editDimension(job, setupId, id, (choice) => withEntry(choice, 'offset', offset))

/** Where text or balloon of a dimension without a line stands, sheet mm from the middle of what it measures. */
export const placeDimension = (job: Job, setupId: string, id: string, place: Choice['place']): Job =>
  editDimension(job, setupId, id, (choice) => withEntry(choice, 'place', place))

export const hideDimension = (job: Job, setupId: string, id: string, hidden: boolean): Job =>
  editDimension(job, setupId, id, (choice) => withEntry(choice, 'hidden', hidden || undefined))

/** All dimensions shown, each where the program puts it. */
export const freeDimensions = (job: Job, setupId: string): Job =>
  editChoices(job, setupId, (sheet) => withEntry(sheet, 'dimensions', undefined))

export const setTitleField = (job: Job, name: keyof TitleBlockFields, value: string): Job =>
  editJob(job, (draft) => {
    const fields = withEntry(job.titleBlock ?? {}, name, value === '' ? undefined : value)
    if (isEmpty(fields)) delete draft.titleBlock
    else draft.titleBlock = { ...fields }
  })

function editDimension(job: Job, setupId: string, id: string, change: (choice: Choice) => Choice): Job {
  return editChoices(job, setupId, (sheet) => {
    const before = sheet.dimensions ?? {}
    const choice = change(Object.hasOwn(before, id) ? before[id]! : {})
    const dimensions = withEntry(before, id, isEmpty(choice) ? undefined : choice)
    return withEntry(sheet, 'dimensions', isEmpty(dimensions) ? undefined : dimensions)
  })
}

function editChoices(job: Job, setupId: string, change: (sheet: SheetChoices) => SheetChoices): Job {
  return editSetup(job, setupId, (setup) => {
    const sheet = change(job.setups.find((s) => s.id === setupId)?.sheet ?? {})
    if (isEmpty(sheet)) delete setup.sheet
    else setup.sheet = structuredClone(sheet) as typeof setup.sheet
  })
}

const isEmpty = (record: object): boolean => Object.keys(record).length === 0

/** A copy with one entry set, or left out where the value is undefined. */
function withEntry<T extends object, K extends keyof T>(record: T, key: K, value: T[K] | undefined): T {
  const others = Object.entries(record).filter(([k]) => k !== key)
  return Object.fromEntries(value === undefined ? others : [...others, [key, value]]) as T
}
