/**
 * The side folder's name of before. What lies there is moved where it is kept now, by steps of which each leaves every
 * version in one place or the other, so that several hosts may do it at once and any may be cut off.
 */
import { lstat, readdir, rename, rmdir } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { OLD_SIDE_FOLDER } from './fileNames.ts'
import { systemCode } from './hostError.ts'
import { refuseForeign } from './ownFolder.ts'
import { sweepTemporaries } from './temporaries.ts'

export const oldSideOf = (side: string): string => join(dirname(side), OLD_SIDE_FOLDER)

/**
 * Moves the old side folder to `side`, or what it holds where that one is there already. Where the system does not
 * allow it, it stays and is read where it is. A link in its place is refused; a plain file there is not ours.
 */
export async function takeOverOldSide(side: string): Promise<void> {
  const old = oldSideOf(side)
  if (!(await isOwnFolder(old))) return
  await move(old, side, () => mergeSides(old, side))
}

/** False for nothing and for a file; throws a `HostError` for a link. */
async function isOwnFolder(old: string): Promise<boolean> {
  const kind = await kindOf(old)
  if (kind === 'link') await refuseForeign(old)
  return kind === 'folder'
}

/** The folder of a job's earlier versions in the old side folder; null where there is none that may be read. */
export async function oldVersionsOf(side: string, key: string): Promise<string | null> {
  const old = oldSideOf(side)
  if (!(await isOwnFolder(old))) return null
  const folder = join(old, key)
  return (await kindOf(folder)) === 'folder' ? folder : null
}

async function mergeSides(old: string, side: string): Promise<void> {
  for (const key of await namesIn(old))
    if ((await kindOf(join(old, key))) === 'folder')
      await move(join(old, key), join(side, key), () => mergeVersions(join(old, key), join(side, key)))
  await sweepTemporaries(old, side, /(?:\.tmp|\.lock(?:\.[\w-]{8})?)$/)
  await rmdir(old).catch(() => undefined)
}

/** A version's name says its time and its content: one of the same name is the same. */
async function mergeVersions(old: string, versions: string): Promise<void> {
  for (const name of await namesIn(old))
    if (name.endsWith('.json') && (await kindOf(join(old, name))) === 'file')
      await move(join(old, name), join(versions, name), async () => undefined)
  await sweepTemporaries(old, versions, /\.tmp$/)
  await rmdir(old).catch(() => undefined)
}

/** Renames; `merge` where something of that name is there. What may not be moved stays. */
async function move(from: string, to: string, merge: () => Promise<void>): Promise<void> {
  try {
    // A folder's rename takes the place of an empty folder alone; that of a link or a file is left for `merge` to see.
    if ((await kindOf(to)) === 'link') return
    await rename(from, to)
  } catch (error) {
    const code = systemCode(error)
    if (IS_THERE.has(code) || (code === 'EPERM' && (await kindOf(to)) === 'folder')) return merge()
    if (!STAYS.has(code)) throw error
  }
}

const IS_THERE: ReadonlySet<string> = new Set(['ENOTEMPTY', 'EEXIST'])
/** Another host moved it, or the system does not let this one. */
const STAYS: ReadonlySet<string> = new Set([
  'ENOENT',
  'EACCES',
  'EPERM',
  'EROFS',
  'EBUSY',
  'ENOTDIR',
  'EISDIR',
])

async function kindOf(path: string): Promise<'folder' | 'link' | 'file' | null> {
  try {
    const state = await lstat(path)
    return state.isDirectory() ? 'folder' : state.isSymbolicLink() ? 'link' : 'file'
  } catch (error) {
    if (['ENOENT', 'EACCES', 'ENOTDIR'].includes(systemCode(error))) return null
    throw error
  }
}

async function namesIn(folder: string): Promise<string[]> {
  try {
    return await readdir(folder)
  } catch {
    // Moved meanwhile, or nobody may look into it.
    return []
  }
}
