import { z } from 'zod'
import { jobSchema } from './schema.ts'

/** JSON Schema (draft 2020-12) of the job document, from the one schema in code. */
export function jobJsonSchema(): Record<string, unknown> {
  return { title: 'Evenswing job, version 1', ...(z.toJSONSchema(jobSchema) as Record<string, unknown>) }
}
