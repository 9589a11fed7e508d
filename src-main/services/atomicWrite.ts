/**
 * Writing a file so that it is always one whole version: new content goes to a temporary file on the same disk,
 * is brought to the platter, and then takes the old name in one step.
 */
import { link, lstat, open, realpath, rename, rm, stat } from 'node:fs/promises'
import { basename, dirname, join, relative, isAbsolute, sep } from 'node:path'
import { HostError, systemCode } from './hostError.ts'
import { takeFolderMode, takeModeOf } from './likeFolder.ts'
import { sweepTemporaries, temporaryIn } from './temporaries.ts'

/**
 * Where a path really leads. A link to another file of the same folder, or below it, is followed so that writing
 * keeps it; one that leads elsewhere, or to nothing, is refused: what is there was not chosen.
 */
export async function realTarget(path: string): Promise<string> {
  const name = basename(path)
  const folder = await realpath(dirname(path))
  let target: string
  try {
    target = await realpath(path)
  } catch (error) {
    if (systemCode(error) !== 'ENOENT') throw error
    if (await isLink(path))
      throw new HostError(
        'file.denied',
        `${name} is a link to a file that is not there; save under another name`,
      )
    return join(folder, name)
  }
  const way = relative(folder, target)
  if (way === '..' || way.startsWith(`..${sep}`) || isAbsolute(way))
    throw new HostError(
      'file.denied',
      `${name} is a link to ${target}, outside its folder, and was left as it is; save under another name, or open the file itself`,
    )
  return target
}

export interface Replacing {
  /** A path on the same disk. */
  readonly temporary: string
  /** Asked right before the new version takes the name; where it throws, everything stays as it was. */
  readonly mayStill?: () => Promise<void>
  /** The file's mode where it is not to be that of the version before, or of its folder. */
  readonly mode?: number
}

/** Replaces `path` (already real) with `bytes`, or makes it. */
export async function replaceFile(path: string, bytes: Uint8Array, how: Replacing): Promise<void> {
  const before = await stateOf(path)
  if (before && !before.isFile())
    throw new HostError('file.notPlain', `${basename(path)}: is not a plain file`)
  const { temporary, mode } = how
  try {
    await writeDurably(temporary, bytes, mode)
    if (mode === undefined) await (before ? takeModeOf(temporary, before) : takeFolderMode(temporary))
    await how.mayStill?.()
    await rename(temporary, path)
  } catch (error) {
    // What failed is said; what stays is swept away later.
    await rm(temporary, { force: true }).catch(() => undefined)
    throw error
  }
  await syncFolder(dirname(path))
}

/** Makes `path` with `bytes`; false where something of that name is there already, which then stays as it is. */
export async function createFile(path: string, bytes: Uint8Array): Promise<boolean> {
  const folder = dirname(path)
  const temporary = temporaryIn(folder)
  try {
    await writeDurably(temporary, bytes)
    await takeFolderMode(temporary)
    try {
      await link(temporary, path)
    } catch (error) {
      if (systemCode(error) === 'EEXIST') return false
      // Some disks know no second names for a file.
      if (await stateOf(path)) return false
      await rename(temporary, path)
    }
    await syncFolder(folder)
    await sweepTemporaries(folder, path)
    return true
  } finally {
    await rm(temporary, { force: true }).catch(() => undefined)
  }
}

/** Writes a file beside its target with an own temporary name, for files without revisions. */
export async function writeWhole(path: string, bytes: Uint8Array, mode?: number): Promise<void> {
  const target = await realTarget(path)
  const folder = dirname(target)
  await replaceFile(target, bytes, { temporary: temporaryIn(folder), ...(mode !== undefined && { mode }) })
  await sweepTemporaries(folder, target)
}

/** Nothing that is there is ever written into: a temporary file is always a new one. */
async function writeDurably(path: string, bytes: Uint8Array, mode = 0o666): Promise<void> {
  const handle = await open(path, 'wx', mode)
  try {
    await handle.writeFile(bytes)
    await handle.sync()
  } finally {
    await handle.close()
  }
}

/** Brings the new name itself to the disk; where folders cannot be synced the rename still is one step. */
async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return
  try {
    const handle = await open(folder, 'r')
    try {
      await handle.sync()
    } finally {
      await handle.close()
    }
  } catch (error) {
    if (!['EINVAL', 'EPERM', 'EACCES', 'EISDIR', 'ENOTSUP'].includes(systemCode(error))) throw error
  }
}

async function stateOf(path: string) {
  try {
    return await stat(path)
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return null
    throw error
  }
}

async function isLink(path: string): Promise<boolean> {
  try {
    return (await lstat(path)).isSymbolicLink()
  } catch {
    return false
  }
}
