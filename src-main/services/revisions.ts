/** The last good versions of a job, kept in a hidden folder beside it. */
import { readdir, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { replaceFile } from './atomicWrite.ts'
import { fileError, HostError, systemCode } from './hostError.ts'
import { decodeText, readPlainFile, stampOf } from './readPlainFile.ts'
import { ownFolder, refuseForeign } from './ownFolder.ts'

/** How many earlier versions of a job are kept. */
const REVISIONS_KEPT = 10

/**
 * Keeps `bytes` (what is about to be replaced) as a revision; the same content is not kept twice in a row. Only called
 * under the job's lock, so no temporary file there is in use.
 */
export async function keepRevision(
  folder: string,
  bytes: Uint8Array,
  now: Date,
  format: string,
): Promise<void> {
  if (!isTextOf(format, bytes)) return
  await ownFolder(folder)
  const stamp = stampOf(bytes)
    .replace(/[^A-Za-z0-9]/g, '')
    .slice(0, 12)
  const kept = await namesIn(folder)
  if (!kept.at(-1)?.endsWith(`-${stamp}.json`)) {
    const name = `${now.toISOString().replace(/[:.]/g, '-')}-${stamp}.json`
    await replaceFile(join(folder, name), bytes, { temporary: join(folder, `${name}.tmp`) })
    kept.push(name)
  }
  const cutOff = (await readdir(folder)).filter((name) => name.endsWith('.tmp'))
  for (const name of [...cutOff, ...kept.sort().slice(0, -REVISIONS_KEPT)])
    await rm(join(folder, name), { force: true })
}

export interface StoredRevision {
  readonly id: string
  /** ISO date and time at which it was replaced. */
  readonly saved: string
}

/** Revisions of one job, newest first; none where the folder is not there. */
export async function revisionsIn(folder: string): Promise<StoredRevision[]> {
  let names: string[]
  try {
    await refuseForeign(folder)
    names = await namesIn(folder)
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return []
    throw fileError(error, folder)
  }
  return names
    .flatMap((name) => {
      const parts = NAME.exec(name)
      return parts
        ? [{ id: parts[1]!, saved: `${parts[2]}T${parts[3]}:${parts[4]}:${parts[5]}.${parts[6]}Z` }]
        : []
    })
    .reverse()
}

/** Text of one revision; an id that is not one is refused. `job` is how the user knows the job. */
export async function readRevisionIn(folder: string, id: string, job: string): Promise<string> {
  if (!NAME.test(`${id}.json`))
    throw new HostError('request.refused', `${job}: that is not an earlier version`)
  const name = `${job}, earlier version`
  return decodeText(await readPlainFile(join(folder, `${id}.json`), name), name)
}

const NAME = /^((\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)-(\d{3})Z-[A-Za-z0-9]{1,12})\.json$/

/** Names of a job's revisions, oldest first. */
async function namesIn(folder: string): Promise<string[]> {
  const names = await readdir(folder)
  return names.filter((n) => n.endsWith('.json')).sort()
}

/** Whether bytes are a document of that format at all; a damaged file is not a good version. */
export function isTextOf(format: string, bytes: Uint8Array): boolean {
  try {
    const value: unknown = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes))
    return typeof value === 'object' && value !== null && (value as { format?: unknown }).format === format
  } catch {
    return false
  }
}
