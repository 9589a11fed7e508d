/** What lies in a folder that several people share must be theirs too: it takes that folder's mode and group. */
import { chmod, chown, mkdir, stat } from 'node:fs/promises'
import { dirname } from 'node:path'
import { systemCode } from './hostError.ts'

const BITS = 0o7777
const FILE_BITS = 0o666

/**
 * Gives something newly made, or something of this user's own, the mode and group of the folder it lies in, files
 * without the right to be run. Somebody else's things stay as they are.
 */
export async function takeFolderMode(path: string): Promise<void> {
  if (process.platform === 'win32') return
  const mine = await stat(path).catch((error: unknown) => {
    // An empty side folder may go at any moment: another writer takes it away.
    if (systemCode(error) === 'ENOENT') return null
    throw error
  })
  if (!mine) return
  const folder = await stat(dirname(path))
  if (mine.uid !== process.geteuid?.()) return
  const mode = folder.mode & (mine.isDirectory() ? BITS : FILE_BITS)
  if (mine.gid !== folder.gid) await giveGroup(path, folder.gid)
  if ((mine.mode & BITS) !== mode) await tolerate(chmod(path, mode))
}

/** Gives a new version what the version before had. */
export async function takeModeOf(
  path: string,
  before: { readonly mode: number; readonly gid: number },
): Promise<void> {
  if (process.platform !== 'win32' && (await stat(path)).gid !== before.gid) await giveGroup(path, before.gid)
  await tolerate(chmod(path, before.mode & BITS))
}

/** Makes a folder as one of the folder it lies in, which must be there; one that is there already stays. */
export async function makeLikeItsFolder(path: string): Promise<void> {
  try {
    await mkdir(path)
  } catch (error) {
    if (systemCode(error) !== 'EEXIST') throw error
    return
  }
  await takeFolderMode(path)
}

/** Only members of a group may give things to it; where this user is none, the mode alone has to do. */
const giveGroup = (path: string, gid: number) => tolerate(chown(path, -1, gid))

/** Disks without modes and groups refuse to change them: what is written there is still whole. */
async function tolerate(change: Promise<void>): Promise<void> {
  try {
    await change
  } catch (error) {
    if (!['ENOENT', 'EPERM', 'ENOTSUP', 'ENOSYS', 'EINVAL'].includes(systemCode(error))) throw error
  }
}
