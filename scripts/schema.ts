// Writes docs/job.schema.json from the schema in code.
import { mkdirSync, writeFileSync } from 'node:fs'
import { jobJsonSchema } from '../src-core/job/jsonSchema.ts'

mkdirSync('docs', { recursive: true })
writeFileSync('docs/job.schema.json', `${JSON.stringify(jobJsonSchema(), null, 2)}\n`)
