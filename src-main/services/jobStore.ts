/** Job files on disk by path: read with a stamp, written whole, earlier versions kept, strangers' changes noticed. */
import { createHash, randomBytes } from 'node:crypto'
import { basename, dirname, join } from 'node:path'
import { jobEndingOf } from '../../src-core/job/fileEnding.ts'
import { realTarget, replaceFile } from './atomicWrite.ts'
import { withLock, type LockOptions, type StillMine } from './fileLock.ts'
import { fileError, HostError, systemCode } from './hostError.ts'
import { refuseNewer } from './newerVersion.ts'
import { decodeText, FILE_LIMIT, readPlainFile, stampOf } from './readPlainFile.ts'
import { isTextOf, keepRevision, readRevisionIn, revisionsIn, type StoredRevision } from './revisions.ts'
import { oldVersionsOf } from './oldSideFolder.ts'
import { refuseForeign } from './ownFolder.ts'
import { dropEmptySide, removeLeftovers, sideFolder, sidePath, sweepSide } from './sideFolder.ts'
import { inTurn } from './turns.ts'

export interface StoredJob {
  readonly text: string
  readonly stamp: string
}

/** Reads a job file; throws a `HostError`. */
export async function readJobFile(path: string): Promise<StoredJob> {
  const name = basename(path)
  const bytes = await readPlainFile(path, name)
  return { text: decodeText(bytes, name), stamp: stampOf(bytes) }
}

/**
 * Writes a job file whole and gives its new stamp. `expectedStamp` is the stamp it was read or last saved with;
 * where the file holds neither that nor `text` by now, `file.changed` is thrown and nothing is written. An empty one wants
 * that there is no such file yet, else `file.exists`. Null overwrites knowingly, but never a document newer than this
 * program knows: `file.newer`. What was there before is kept as a revision. Saves of one file are put in turn.
 */
export function writeJobFile(
  path: string,
  text: string,
  expectedStamp: string | null,
  options: WriteOptions = {},
): Promise<string> {
  return inTurn(path, () => write(path, text, expectedStamp, options))
}

async function write(
  path: string,
  text: string,
  expectedStamp: string | null,
  options: WriteOptions,
): Promise<string> {
  const name = options.name ?? basename(path)
  const bytes = new TextEncoder().encode(text)
  if (bytes.length > FILE_LIMIT) throw new HostError('file.tooLarge', `${name}: the job is too large to save`)
  const format = options.format ?? 'evenswing-job'
  if (!isTextOf(format, bytes))
    throw new HostError('request.refused', `${name}: what is to be saved is not of the kind "${format}"`)
  try {
    const target = await targetOf(path, name)
    const side = await sideFolder(target)
    const key = sideKey(basename(target))
    const lock = join(side, `${key}.lock`)
    try {
      await withLock(
        lock,
        name,
        () => sideFolder(target),
        async (stillMine) => {
          await sweepSide(side, lock)
          await replace({ target, side, key, name, format, stillMine }, bytes, expectedStamp)
        },
        options,
      )
    } finally {
      await dropEmptySide(side)
    }
    return stampOf(bytes)
  } catch (error) {
    throw writingError(error, name)
  }
}

/** How long to wait for another writer, and how the user knows the file. */
export interface WriteOptions extends LockOptions {
  readonly name?: string
  /** What the document's `format` must be; a job's else. */
  readonly format?: string
}

/** Where nothing may be put into the folder, that is what to say. */
function writingError(error: unknown, name: string): HostError {
  const { syscall, path } = error as NodeJS.ErrnoException
  const isRefused = ['EACCES', 'EPERM', 'EROFS'].includes(systemCode(error))
  if (isRefused && path && ['mkdir', 'open', 'rename'].includes(syscall ?? ''))
    return new HostError('file.denied', `${name}: ${dirname(path)} may only be read; save it somewhere else`)
  return fileError(error, name)
}

async function targetOf(path: string, name: string): Promise<string> {
  try {
    return await realTarget(path)
  } catch (error) {
    if (systemCode(error) === 'ENOENT') throw new HostError('file.gone', `${name}: its folder does not exist`)
    throw error
  }
}

interface Place {
  readonly target: string
  readonly side: string
  readonly key: string
  readonly name: string
  readonly format: string
  readonly stillMine: StillMine
}

async function replace(
  { target, side, key, name, format, stillMine }: Place,
  bytes: Uint8Array,
  expectedStamp: string | null,
): Promise<void> {
  const current = await currentBytes(target, name)
  // A key pressed twice: nothing is lost, so nobody is accused.
  if (current && expectedStamp !== '' && stampOf(current) === stampOf(bytes)) return
  if (expectedStamp === '') {
    if (current)
      throw new HostError('file.exists', `${name}: there is a file of that name already; choose another`)
  } else if (expectedStamp !== null) {
    if (!current)
      throw new HostError('file.gone', `${name}: the file is gone; save it under a name to keep your work`)
    if (stampOf(current) !== expectedStamp)
      throw new HostError('file.changed', `${name}: another program changed the file since it was opened`)
  }
  if (current) refuseNewer(format, current, name)
  await removeLeftovers(side, key)
  if (current) await keepRevision(revisionFolder(side, key), current, new Date(), format)
  await replaceFile(target, bytes, {
    temporary: join(side, `${key}.${randomBytes(9).toString('base64url')}.tmp`),
    mayStill: stillMine,
  })
}

async function currentBytes(target: string, name: string): Promise<Buffer | null> {
  try {
    return await readPlainFile(target, name)
  } catch (error) {
    if (error instanceof HostError && error.code === 'file.gone') return null
    throw error
  }
}

/** Earlier versions of a job, newest first. */
export async function listRevisions(path: string): Promise<StoredRevision[]> {
  const kept = new Map<string, StoredRevision>()
  for (const folder of await revisionFoldersOf(path))
    for (const revision of await revisionsIn(folder)) kept.set(revision.id, revision)
  return [...kept.values()].sort((a, b) => b.id.localeCompare(a.id))
}

/** Text of an earlier version; throws `file.gone` where it was pushed out by newer ones. */
export async function readRevision(path: string, id: string): Promise<string> {
  const [folder, ...more] = await revisionFoldersOf(path)
  for (const old of more)
    if ((await revisionsIn(old)).some((r) => r.id === id)) return readRevisionIn(old, id, basename(path))
  return readRevisionIn(folder, id, basename(path))
}

/** Where its earlier versions are; second, if there is one, the folder of before that could not be moved. */
async function revisionFoldersOf(path: string): Promise<readonly [string, ...string[]]> {
  try {
    const target = await targetOf(path, basename(path))
    const side = sidePath(target)
    await refuseForeign(side)
    const key = sideKey(basename(target))
    const old = await oldVersionsOf(side, key)
    return [revisionFolder(side, key), ...(old === null ? [] : [old])]
  } catch (error) {
    throw fileError(error, basename(path))
  }
}

const revisionFolder = (side: string, key: string) => join(side, key)

/** Name of a job's things in the hidden folder: its own name, shortened where suffixes would not fit. */
function sideKey(name: string): string {
  if (Buffer.byteLength(name) <= 180) return name
  return `${createHash('sha256').update(name).digest('hex').slice(0, 32)}${jobEndingOf(name) ?? ''}`
}
