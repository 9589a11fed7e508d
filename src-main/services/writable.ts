import { constants } from 'node:fs'
import { access, lstat } from 'node:fs/promises'

/** Whether there is anything of that name, a broken link included. */
export const exists = (path: string): Promise<boolean> => succeeds(lstat(path))

export const isWritable = (path: string): Promise<boolean> => succeeds(access(path, constants.W_OK))

async function succeeds(work: Promise<unknown>): Promise<boolean> {
  try {
    await work
    return true
  } catch {
    return false
  }
}
