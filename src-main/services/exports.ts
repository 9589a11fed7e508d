/** Sheets and other exports: bytes to a path the user chose, or to a new name in a folder. */
import { basename, join, parse } from 'node:path'
import { createFile, writeWhole } from './atomicWrite.ts'
import { fileError, HostError } from './hostError.ts'
import { ownFolder } from './ownFolder.ts'

/** Writes bytes whole, replacing what a dialog let the user agree to replace. */
export async function exportTo(path: string, bytes: Uint8Array): Promise<void> {
  try {
    await writeWhole(path, bytes)
  } catch (error) {
    throw fileError(error, basename(path))
  }
}

/** Puts bytes into a folder, made where only it is missing, under a name that is still free (`name`, `name-2` …) and gives the path. */
export async function exportBeside(folder: string, name: string, bytes: Uint8Array): Promise<string> {
  const { name: stem, ext } = parse(name)
  try {
    await ownFolder(folder, 'sheets')
    for (let n = 1; n <= 10_000; n++) {
      const path = join(folder, n === 1 ? name : `${stem}-${n}${ext}`)
      if (await createFile(path, bytes)) return path
    }
  } catch (error) {
    throw fileError(error, name)
  }
  throw new HostError('file.failed', `${name}: the folder ${folder} is full of files of this name`)
}
