/** Job files as input of a command: read, checked, and every refusal worded as one line. */
import { resolve } from 'node:path'
import { parseJob } from '../../src-core/job/parse.ts'
import type { JobFault } from '../../src-core/job/fault.ts'
import type { Job, Setup } from '../../src-core/job/schema.ts'
import { HostError } from '../services/hostError.ts'
import { decodeText, readPlainFile } from '../services/readPlainFile.ts'
import type { CliIo } from './command.ts'
import { Failure } from './failure.ts'

/** Bytes of a file the user named; throws `Failure`. */
export async function readBytes(io: CliIo, file: string): Promise<Buffer> {
  if (file === '') throw new Failure('a file name is empty')
  try {
    return await readPlainFile(resolve(io.cwd, file), file)
  } catch (error) {
    throw error instanceof HostError ? new Failure(error.message) : error
  }
}

/** Text of a file the user named; throws `Failure` naming line and byte of what is not UTF-8. */
export async function readText(io: CliIo, file: string): Promise<string> {
  const bytes = await readBytes(io, file)
  try {
    return decodeText(bytes, file)
  } catch (error) {
    throw error instanceof HostError ? new Failure(error.message) : error
  }
}

export const faultLine = (file: string, fault: JobFault): string =>
  `${file}: ${fault.path === '' ? fault.message : `${fault.path}: ${fault.message}`}`

/** A job file that can be analysed; throws `Failure` with its first fault and how many more there are. */
export async function readJob(io: CliIo, file: string): Promise<Job> {
  const result = parseJob(await readText(io, file))
  if (result.ok) return result.job
  throw new Failure(faultsLine(file, result.faults))
}

/** The first fault, and how many more there are. */
export function faultsLine(file: string, [first, ...more]: readonly JobFault[]): string {
  const rest = more.length === 0 ? '' : ` (and ${more.length} more ${more.length === 1 ? 'fault' : 'faults'})`
  return `${first ? faultLine(file, first) : `${file}: is not a job`}${rest}`
}

/** The setup with that id, or the first; throws `Failure` naming those there are. */
export function setupOf(job: Job, file: string, id: string | undefined): Setup {
  if (id === undefined) return job.setups[0]!
  const found = job.setups.find((s) => s.id === id)
  if (found) return found
  throw new Failure(
    `${file}: setups: there is no setup "${id}"; there are ${job.setups.map((s) => s.id).join(', ')}`,
  )
}
