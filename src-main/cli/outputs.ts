/** Files that a command makes. */
import { mkdir } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import type { Job } from '../../src-core/job/schema.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import { exportTo } from '../services/exports.ts'
import { fileError, HostError, systemCode } from '../services/hostError.ts'
import { writeJobFile } from '../services/jobStore.ts'
import type { CliIo } from './command.ts'
import { Failure } from './failure.ts'

/** Writes a job file whole, keeping what was there as a revision; throws `Failure`. */
export async function writeJob(io: CliIo, file: string, job: Job): Promise<void> {
  if (file === '') throw new Failure('--out: the file name is empty')
  await wording(
    file,
    async () => void (await writeJobFile(resolve(io.cwd, file), serialiseJob(job), null, { name: file })),
  )
}

/** Makes a folder with those above it; throws `Failure`. */
export async function makeFolder(io: CliIo, folder: string): Promise<string> {
  if (folder === '') throw new Failure('--out: the folder name is empty')
  const path = resolve(io.cwd, folder)
  await wording(folder, async () => {
    try {
      await mkdir(path, { recursive: true })
    } catch (error) {
      if (systemCode(error) === 'EEXIST')
        throw new HostError('file.notPlain', `${folder}: is a file, not a folder`)
      throw error
    }
  })
  return path
}

/** Writes bytes into a folder made before. */
export async function writeInto(folder: string, name: string, bytes: Uint8Array): Promise<string> {
  const path = join(folder, name)
  await wording(path, () => exportTo(path, bytes))
  return path
}

async function wording(file: string, work: () => Promise<void>): Promise<void> {
  try {
    await work()
  } catch (error) {
    throw new Failure(fileError(error, file).message)
  }
}
