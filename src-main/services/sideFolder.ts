/** The hidden folder beside jobs: locks, temporary files, earlier versions. */
import { readdir, rm, rmdir } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { SIDE_FOLDER } from './fileNames.ts'
import { takeOverOldSide } from './oldSideFolder.ts'
import { ownFolder } from './ownFolder.ts'
import { sweepTemporaries } from './temporaries.ts'

/** Where the side folder of a file is, there or not. */
export const sidePath = (file: string): string => join(dirname(file), SIDE_FOLDER)

/** Makes the side folder beside a file, with the mode of the folder it lies in and all that the old one holds, and gives its path. */
export async function sideFolder(file: string): Promise<string> {
  const side = sidePath(file)
  await takeOverOldSide(side)
  await ownFolder(side)
  return side
}

/** Removes the side folder where it is empty: a first save leaves nothing but the job. */
export async function dropEmptySide(side: string): Promise<void> {
  await rmdir(side).catch(() => undefined)
}

/** A job's own temporary files in the side folder, and those of its earlier versions; only called under its lock. */
export async function removeLeftovers(side: string, key: string): Promise<void> {
  for (const name of await readdir(side))
    if (name.startsWith(`${key}.`) && TEMPORARY.test(name.slice(key.length)))
      await rm(join(side, name), { force: true })
}

/** What other saves of this folder left long ago. `fresh` was written there just now. */
export const sweepSide = (side: string, fresh: string): Promise<void> =>
  sweepTemporaries(side, fresh, /(?:\.[\w-]{12}\.tmp|\.lock\.[\w-]{8})$/)

const TEMPORARY = /^\.[\w-]{12}\.tmp$/
