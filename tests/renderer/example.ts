import { readFileSync } from 'node:fs'
import { parseJob } from '../../src-core/job/parse.ts'
import { isBox, type Box, type Hardware, type Job } from '../../src-core/job/schema.ts'

export function exampleJob(name: 'flat-link' | 'bearing-bracket' = 'flat-link'): Job {
  const read = parseJob(readFileSync(`tests/data/jobs/v2/${name}.evenswing.json`, 'utf8'))
  if (!read.ok) throw new Error(read.faults.map((f) => `${f.path} ${f.message}`).join('; '))
  return read.job
}

/** A piece that must be a box. */
export function boxOf<P extends Pick<Hardware, 'kind'>>(piece: P | null | undefined): P & Omit<Box, 'id'> {
  if (!piece || !isBox(piece as unknown as Hardware)) throw new Error('no box')
  return piece as P & Omit<Box, 'id'>
}
