/** A job or a library as a document: of its format, lifted to the newest version, fitting its schema. */
import type { z } from 'zod'
import type { JobFault } from './fault.ts'
import { issueFaults } from './issueWords.ts'
import { isRecord, liftToNewest, type Step } from './versions.ts'

export interface Refused {
  readonly ok: false
  readonly faults: readonly JobFault[]
}

export const refused = (path: string, message: string): Refused => ({
  ok: false,
  faults: [{ path, message }],
})

/** Checks what was read of a file. Older versions are lifted in memory, newer ones refused. */
export function checkDocument<T>(
  raw: unknown,
  kind: 'job' | 'library',
  steps: readonly Step[],
  schema: z.ZodType<T>,
): { readonly ok: true; readonly data: T } | Refused {
  if (!isRecord(raw)) return refused('', `is not a ${kind}: an object is wanted`)
  if (raw['format'] !== `evenswing-${kind}`) return refused('format', `is not "evenswing-${kind}"`)
  const lifted = liftToNewest(raw, steps)
  if (!lifted.ok) return { ok: false, faults: [lifted.fault] }
  const parsed = schema.safeParse(lifted.document)
  return parsed.success
    ? { ok: true, data: parsed.data }
    : { ok: false, faults: issueFaults(parsed.error, lifted.document) }
}
