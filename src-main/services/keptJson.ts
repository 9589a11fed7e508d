/** Small JSON files of the program's own: checked when read, set aside when damaged, written whole. */
import { mkdir, rename } from 'node:fs/promises'
import { basename, dirname } from 'node:path'
import type { z } from 'zod'
import { writeWhole } from './atomicWrite.ts'
import { fileError, HostError } from './hostError.ts'
import { decodeText, readPlainFile } from './readPlainFile.ts'

export interface Kept<T> {
  readonly value: T | null
  /** Where a damaged file was moved to; null where there was none. */
  readonly setAside: string | null
}

/** A file that is not there gives null; one that does not fit `schema` is renamed, dated, and gives null. */
export async function readKept<T>(path: string, schema: z.ZodType<T>, limit: number): Promise<Kept<T>> {
  const name = basename(path)
  let text: string
  try {
    text = decodeText(await readPlainFile(path, name, limit), name)
  } catch (error) {
    const fault = fileError(error, name)
    if (fault.code === 'file.gone') return { value: null, setAside: null }
    if (fault.code !== 'file.notText' && fault.code !== 'file.tooLarge') throw fault
    return setAside(path)
  }
  try {
    const read = schema.safeParse(JSON.parse(text))
    if (read.success) return { value: read.data, setAside: null }
  } catch {
    // Not JSON: set aside like any other damage.
  }
  return setAside(path)
}

async function setAside(path: string): Promise<Kept<never>> {
  const aside = `${path}.damaged-${new Date().toISOString().replace(/[:.]/g, '-')}`
  try {
    await rename(path, aside)
  } catch (error) {
    throw fileError(error, basename(path))
  }
  return { value: null, setAside: aside }
}

/** For this user's eyes alone: what is kept here may hold whole jobs. */
export const OWN_FILE = 0o600
export const OWN_FOLDER = 0o700

/** Writes a value as JSON that only this user may read, its folder made where it is missing. */
export async function writeKept(path: string, value: unknown): Promise<void> {
  try {
    await mkdir(dirname(path), { recursive: true, mode: OWN_FOLDER })
    await writeWhole(path, new TextEncoder().encode(`${JSON.stringify(value)}\n`), OWN_FILE)
  } catch (error) {
    throw error instanceof HostError ? error : fileError(error, basename(path))
  }
}
