/** The host's own folder of jobs, for shells without the system's file dialogs. */
import { readdir, stat } from 'node:fs/promises'
import { homedir } from 'node:os'
import { join } from 'node:path'
import type { FolderEntry } from '../../src-core/bridge/contract.ts'
import { JOB_SUFFIX, jobName } from './fileNames.ts'
import { fileError, systemCode } from './hostError.ts'

/** `EVENSWING_JOBS`, or "Evenswing" in the user's home. */
export function defaultJobFolder(env: NodeJS.ProcessEnv): string {
  return env['EVENSWING_JOBS'] || join(homedir(), 'Evenswing')
}

/** Job files in a folder, newest first; a folder that is not there yet is empty. */
export async function listJobs(folder: string): Promise<FolderEntry[]> {
  let names: string[]
  try {
    names = await readdir(folder)
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return []
    throw fileError(error, folder)
  }
  const found = await Promise.all(
    names
      .filter((name) => name.endsWith(JOB_SUFFIX) && !name.startsWith('.'))
      .map(async (name) => {
        try {
          const state = await stat(join(folder, name))
          return state.isFile() ? { name, time: state.mtimeMs } : null
        } catch {
          return null
        }
      }),
  )
  return found
    .filter((entry) => entry !== null)
    .sort((a, b) => b.time - a.time || a.name.localeCompare(b.name))
    .map(({ name, time }) => ({ name, modified: new Date(time).toISOString() }))
}

/** Path of a plain job name in the folder; throws `name.refused` for anything that is not one. */
export const pathInFolder = (folder: string, name: string): string => join(folder, jobName(name))
