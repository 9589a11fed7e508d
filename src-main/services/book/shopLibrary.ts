/** The shop library's file, kept in the book's folder so that everyone who shares the book shares it. */
import { join } from 'node:path'
import { HostError } from '../hostError.ts'
import { readJobFile, writeJobFile } from '../jobStore.ts'

const NAME = 'shop.evenswing-library.json'
const FORMAT = 'evenswing-library'

export interface StoredLibrary {
  readonly text: string | null
  readonly stamp: string | null
}

/** Nulls where the book has none yet. */
export async function readLibraryFile(folder: string): Promise<StoredLibrary> {
  try {
    return await readJobFile(join(folder, NAME))
  } catch (error) {
    if (error instanceof HostError && error.code === 'file.gone') return { text: null, stamp: null }
    throw error
  }
}

/** As jobs are saved: whole, with earlier versions kept, a stranger's change noticed. Null: there is none yet. */
export async function writeLibraryFile(
  folder: string,
  text: string,
  expectedStamp: string | null,
): Promise<string> {
  return writeJobFile(join(folder, NAME), text, expectedStamp ?? '', { format: FORMAT })
}
