import { z } from 'zod'
import { CURRENT_VERSION } from './parse.ts'
import { jobSchema } from './schema.ts'

/** JSON Schema (draft 2020-12) of the job document, from the one schema in code. */
export function jobJsonSchema(): Record<string, unknown> {
  const title = `Evenswing job, version ${CURRENT_VERSION}`
  return { title, ...(z.toJSONSchema(jobSchema) as Record<string, unknown>) }
}
