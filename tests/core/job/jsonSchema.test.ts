import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { jobJsonSchema } from '../../../src-core/job/jsonSchema.ts'

test('the published JSON Schema is the one in code (npm run schema writes it)', () => {
  const published = readFileSync(new URL('../../../docs/job.schema.json', import.meta.url), 'utf8')
  expect(JSON.parse(published)).toEqual(JSON.parse(JSON.stringify(jobJsonSchema())))
  expect(Object.keys(jobJsonSchema())).toContain('properties')
})
