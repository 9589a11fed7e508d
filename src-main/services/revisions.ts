/** The last good versions of a job, kept in a hidden folder beside it. */
import { mkdir, readdir, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { replaceFile } from './atomicWrite.ts'
import { stampOf } from './readPlainFile.ts'

/** How many earlier versions of a job are kept. */
const REVISIONS_KEPT = 10

/** Keeps `bytes` (what is about to be replaced) as a revision; the same content is not kept twice in a row. */
export async function keepRevision(folder: string, bytes: Uint8Array, now: Date): Promise<void> {
  if (!isJobText(bytes)) return
  await mkdir(folder, { recursive: true })
  const stamp = stampOf(bytes)
    .replace(/[^A-Za-z0-9]/g, '')
    .slice(0, 12)
  const kept = await revisionsIn(folder)
  if (!kept.at(-1)?.endsWith(`-${stamp}.json`)) {
    const name = `${now.toISOString().replace(/[:.]/g, '-')}-${stamp}.json`
    await replaceFile(join(folder, name), bytes, join(folder, `${name}.tmp`))
    kept.push(name)
  }
  for (const name of kept.sort().slice(0, -REVISIONS_KEPT)) await rm(join(folder, name), { force: true })
}

/** Names of a job's revisions, oldest first. */
async function revisionsIn(folder: string): Promise<string[]> {
  const names = await readdir(folder)
  return names.filter((n) => n.endsWith('.json')).sort()
}

/** Whether bytes are a job's text at all; a damaged file is not a good version. */
export function isJobText(bytes: Uint8Array): boolean {
  try {
    const value: unknown = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes))
    return (
      typeof value === 'object' &&
      value !== null &&
      (value as { format?: unknown }).format === 'evenswing-job'
    )
  } catch {
    return false
  }
}
