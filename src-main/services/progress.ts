/**
 * How far somebody standing at the machine has come with a setup: one small file each in the user's own folder, so that a
 * window that was closed or a program that fell over goes on at the same step.
 */
import { readdir, rm, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { z } from 'zod'
import { fileError, HostError } from './hostError.ts'
import { readKept, writeKept } from './keptJson.ts'

/** Characters of one. A photograph goes into the job, not in here. */
export const PROGRESS_LIMIT = 200_000
/** ms after which what was left half-way is forgotten. */
const OLD = 365 * 24 * 3600 * 1000

const schema = z.strictObject({ text: z.string().max(PROGRESS_LIMIT) })
const KEY = /^[0-9a-f]{8,64}$/

export interface Progress {
  /** Null where nothing is kept, or what was kept is damaged. */
  read(key: string): Promise<string | null>
  keep(key: string, text: string): Promise<void>
  drop(key: string): Promise<void>
}

export function createProgress(userData: string): Progress {
  const folder = join(userData, 'progress')
  let isCleared = false
  const fileOf = (key: string): string => {
    if (!KEY.test(key)) throw new HostError('request.refused', 'That is no place of progress')
    return join(folder, `${key}.json`)
  }
  return {
    read: async (key) => (await readKept(fileOf(key), schema, PROGRESS_LIMIT * 4)).value?.text ?? null,
    async keep(key, text) {
      await writeKept(fileOf(key), { text } satisfies z.infer<typeof schema>)
      if (!isCleared) await clearAway(folder)
      isCleared = true
    },
    async drop(key) {
      try {
        await rm(fileOf(key), { force: true })
      } catch (error) {
        throw fileError(error, 'The progress')
      }
    },
  }
}

/** Never throws: another window clears away too. */
async function clearAway(folder: string): Promise<void> {
  try {
    for (const name of await readdir(folder)) {
      const path = join(folder, name)
      if (Date.now() - (await stat(path)).mtimeMs > OLD) await rm(path, { force: true })
    }
  } catch {
    // What is left is cleared another time.
  }
}
