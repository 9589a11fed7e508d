/** Folders that this program makes beside the user's files. */
import { lstat } from 'node:fs/promises'
import { basename, dirname } from 'node:path'
import { HostError, systemCode } from './hostError.ts'
import { makeLikeItsFolder, takeFolderMode } from './likeFolder.ts'

const VERSIONS = 'earlier versions'

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
