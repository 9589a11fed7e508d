import { readFileSync } from 'node:fs'
import { parseJob } from '../../src-core/job/parse.ts'
import { isBox, type Box, type Hardware, type Job } from '../../src-core/job/schema.ts'

type Name = 'flat-link' | 'bearing-bracket'

/** As the first version had it: its clamps are presses. */
export const exampleJob = (name: Name = 'flat-link'): Job =>
  jobOf(`tests/data/jobs/v2/${name}.evenswing.json`)

/** As it comes with the program. */
export const shippedJob = (name: Name = 'flat-link'): Job => jobOf(`examples/${name}.evenswing`)

function jobOf(path: string): Job {
  const read = parseJob(readFileSync(path, 'utf8'))
  if (!read.ok) throw new Error(read.faults.map((f) => `${f.path} ${f.message}`).join('; '))
  return read.job
}

/** A piece that must be a box. */
export function boxOf<P extends Pick<Hardware, 'kind'>>(piece: P | null | undefined): P & Omit<Box, 'id'> {
  if (!piece || !isBox(piece as unknown as Hardware)) throw new Error('no box')
  return piece as P & Omit<Box, 'id'>
}
