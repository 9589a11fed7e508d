/**
 * Writing a file so that it is always one whole version: new content goes to a temporary file on the same disk,
 * is brought to the platter, and then takes the old name in one step.
 */
import { randomBytes } from 'node:crypto'
import { chmod, link, mkdir, open, realpath, rename, rm, stat } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { HostError, systemCode } from './hostError.ts'

/** Hidden sub-folder beside a file for its temporary files, lock and earlier revisions. */
export const SIDE_FOLDER = '.evenswing'

/** Where a path really leads: links are followed so that writing keeps them. */
export async function realTarget(path: string): Promise<string> {
  try {
    return await realpath(path)
  } catch (error) {
    if (systemCode(error) !== 'ENOENT') throw error
    return join(await realpath(dirname(path)), basename(path))
  }
}

/** Replaces `path` (already real) with `bytes`, or makes it. `temporary` is a path on the same disk. */
export async function replaceFile(path: string, bytes: Uint8Array, temporary: string): Promise<void> {
  const before = await stateOf(path)
  if (before && !before.isFile())
    throw new HostError('file.notPlain', `${basename(path)}: is not a plain file`)
  try {
    await writeDurably(temporary, bytes)
    if (before) await chmod(temporary, before.mode & 0o7777)
    await rename(temporary, path)
  } catch (error) {
    await rm(temporary, { force: true })
    throw error
  }
  await syncFolder(dirname(path))
}

/** Makes `path` with `bytes`; false where something of that name is there already, which then stays as it is. */
export async function createFile(path: string, bytes: Uint8Array): Promise<boolean> {
  const temporary = join(dirname(path), `.${randomBytes(9).toString('base64url')}.tmp`)
  try {
    await writeDurably(temporary, bytes)
    try {
      await link(temporary, path)
    } catch (error) {
      if (systemCode(error) === 'EEXIST') return false
      // Some disks know no second names for a file.
      if (await stateOf(path)) return false
      await rename(temporary, path)
    }
    await syncFolder(dirname(path))
    return true
  } finally {
    await rm(temporary, { force: true })
  }
}

/** Writes a file beside its target with an own temporary name, for files without revisions. */
export async function writeWhole(path: string, bytes: Uint8Array): Promise<void> {
  const target = await realTarget(path)
  await replaceFile(target, bytes, join(dirname(target), `.${randomBytes(9).toString('base64url')}.tmp`))
}

async function writeDurably(path: string, bytes: Uint8Array): Promise<void> {
  const handle = await open(path, 'wx', 0o666)
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

/** Makes the hidden folder beside a file and gives its path. */
export async function sideFolder(path: string): Promise<string> {
  const folder = join(dirname(path), SIDE_FOLDER)
  await mkdir(folder, { recursive: true })
  return folder
}
