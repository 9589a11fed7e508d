/** The hidden folder beside jobs: locks, temporary files, earlier versions. */
import { lstat, readdir, rm, rmdir } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { SIDE_FOLDER } from './fileNames.ts'
import { HostError, systemCode } from './hostError.ts'
import { makeLikeItsFolder, takeFolderMode } from './likeFolder.ts'
import { sweepTemporaries } from './temporaries.ts'

const VERSIONS = 'earlier versions'

/** Where the side folder of a file is, there or not. */
export const sidePath = (file: string): string => join(dirname(file), SIDE_FOLDER)

/** Makes the side folder beside a file, with the mode of the folder it lies in, and gives its path. */
export async function sideFolder(file: string): Promise<string> {
  const side = sidePath(file)
  await ownFolder(side)
  return side
}

/**
 * Makes a folder of this program's own, or takes the one that is there. A link, which could lead anywhere, and a
 * file in its place are refused in words.
 */
export async function ownFolder(path: string, holds = VERSIONS): Promise<void> {
  await makeLikeItsFolder(path)
  await refuseForeign(path, holds)
  await takeFolderMode(path)
}

/** Throws where a link or a file stands in the place of a folder of this program's own; nothing there is well. */
export async function refuseForeign(path: string, holds = VERSIONS): Promise<void> {
  let state
  try {
    state = await lstat(path)
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return
    throw error
  }
  if (state.isDirectory()) return
  const what = state.isSymbolicLink() ? 'a link' : 'a file'
  throw new HostError(
    'file.notPlain',
    `${basename(path)} in ${dirname(path)} is ${what} where Evenswing keeps ${holds}. Move it away, then save again`,
  )
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
