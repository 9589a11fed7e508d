import { readFileSync } from 'node:fs'
import { parseJob } from '../../src-core/job/parse.ts'
import type { Job } from '../../src-core/job/schema.ts'

export function exampleJob(name: 'flat-link' | 'bearing-bracket' = 'flat-link'): Job {
  const read = parseJob(readFileSync(`examples/${name}.evenswing.json`, 'utf8'))
  if (!read.ok) throw new Error(read.faults.map((f) => `${f.path} ${f.message}`).join('; '))
  return read.job
}
