/**
 * One writer at a time, over all processes of this program: a lock file that names its owner. The owner writes a beat
 * into it while it works. A lock whose beat stands still is taken over; no clock is read for it but the
 * waiter's own, so that a machine that crashed, or one whose clock is wrong, holds nobody up.
 */
import { randomBytes } from 'node:crypto'
import { link, open, readFile, rename, rm, type FileHandle } from 'node:fs/promises'
import { dirname } from 'node:path'
import { HostError, systemCode } from './hostError.ts'
import { isAlive, machine } from './processes.ts'

export interface LockOptions {
  /** Give up after this long, ms. */
  readonly patience?: number
  /** A beat that stands still for this long, ms, and for `LOOKS` looks, is a dead owner's. */
  readonly silence?: number
  /** How to wait between two looks at another's lock. */
  readonly pause?: (ms: number) => Promise<void>
}

const ignore = () => undefined
const sleep = (ms: number) => new Promise<void>((done) => setTimeout(done, ms))

const PATIENCE = 20_000
const SILENCE = 6_000
const BEAT = 700
/** A machine that slept sees a long silence at its first look; so many looks want a living owner's beat. */
const LOOKS = 20

/** Throws `file.busy` where the lock was lost meanwhile. */
export type StillMine = () => Promise<void>

/**
 * Runs `work` while holding `lockPath`; throws `file.busy` when another writer keeps it too long. `makeFolder` makes
 * the folder the lock lies in, which the writer before may have taken away.
 */
export async function withLock<T>(
  lockPath: string,
  name: string,
  makeFolder: (folder: string) => Promise<unknown>,
  work: (stillMine: StillMine) => Promise<T>,
  options: LockOptions = {},
): Promise<T> {
  const held = await take(lockPath, name, () => makeFolder(dirname(lockPath)), options)
  try {
    return await work(async () => {
      if (!(await held.isMine())) throw lost(name)
    })
  } finally {
    await held.release()
  }
}

const lost = (name: string) =>
  new HostError('file.busy', `${name}: saving took so long that another window went on; save again`)

interface Held {
  isMine(): Promise<boolean>
  release(): Promise<void>
}

async function take(
  lockPath: string,
  name: string,
  makeFolder: () => Promise<unknown>,
  { patience = PATIENCE, silence = SILENCE, pause = sleep }: LockOptions,
): Promise<Held> {
  const begun = performance.now()
  let seen = { content: '', since: begun, looks: 0 }
  for (;;) {
    const held = await tryTake(lockPath, makeFolder)
    if (held) return held
    const content = await contentOf(lockPath)
    if (content === null) continue
    const now = performance.now()
    if (seen.looks === 0 || content !== seen.content) seen = { content, since: now, looks: 0 }
    seen.looks++
    const isSilent = seen.looks > LOOKS && now - seen.since >= silence
    if (isSilent || isDead(content)) {
      await removeStale(lockPath, content)
      seen.looks = 0
    } else if (now - begun > patience)
      throw new HostError('file.busy', `${name}: another window is saving it; try again in a moment`)
    else await pause(Math.min(250, 5 * seen.looks) * (0.5 + Math.random()))
  }
}

/** Makes the lock; null where there is one. */
async function tryTake(lockPath: string, makeFolder: () => Promise<unknown>): Promise<Held | null> {
  if ((await contentOf(lockPath)) !== null) return null
  const mine = `${process.pid} ${machine()} ${randomBytes(9).toString('base64url')}`
  const text = (n: number) => `${mine} ${String(n).padStart(9, '0')}`
  let handle: FileHandle | null
  try {
    handle = await makeWhole(lockPath, text(0))
  } catch (error) {
    if (systemCode(error) !== 'ENOENT') throw error
    await makeFolder()
    return null
  }
  if (!handle) return null
  const held = handle
  let count = 0
  let last: Promise<unknown> = Promise.resolve()
  // Through the handle: a lock that was taken over meanwhile is never written into.
  const beat = () =>
    (last = last
      .then(async () => {
        await held.write(text(++count), 0)
        await held.datasync()
      })
      .catch(() => undefined))
  const timer = setInterval(beat, BEAT)
  timer.unref()
  const isMine = async () => ((await contentOf(lockPath)) ?? '').startsWith(`${mine} `)
  return {
    isMine,
    async release() {
      clearInterval(timer)
      await last
      // What is left of a lock gives way by itself; it must not make a save that is done fail.
      await held.close().catch(ignore)
      if (await isMine().catch(() => false)) await rm(lockPath, { force: true }).catch(ignore)
    },
  }
}

/**
 * Makes the lock with its owner's name in it, in one step where the disk knows second names for a file: a lock
 * without a name says nothing about its owner. Null where there is a lock.
 */
async function makeWhole(lockPath: string, text: string): Promise<FileHandle | null> {
  const aside = besideLock(lockPath)
  const handle = await open(aside, 'wx')
  try {
    await handle.write(text, 0)
    await link(aside, lockPath)
    return handle
  } catch (error) {
    await handle.close()
    if (systemCode(error) === 'EEXIST') return null
    if (!['EPERM', 'ENOTSUP', 'ENOSYS', 'EINVAL'].includes(systemCode(error))) throw error
  } finally {
    // What stays is swept away later; the lock is taken all the same.
    await rm(aside, { force: true }).catch(ignore)
  }
  return makePlainly(lockPath, text)
}

async function makePlainly(lockPath: string, text: string): Promise<FileHandle | null> {
  let handle
  try {
    handle = await open(lockPath, 'wx')
    await handle.write(text, 0)
    return handle
  } catch (error) {
    await handle?.close()
    // Windows says EPERM while the one before is being removed.
    if (systemCode(error) === 'EEXIST' || (process.platform === 'win32' && systemCode(error) === 'EPERM'))
      return null
    throw error
  }
}

const besideLock = (lockPath: string) => `${lockPath}.${randomBytes(6).toString('base64url')}`

async function contentOf(path: string): Promise<string | null> {
  try {
    return await readFile(path, 'utf8')
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return null
    throw error
  }
}

/** Whether the owner is known to be gone: a process of this machine that is not there any more. */
function isDead(content: string): boolean {
  const [pid, owner] = content.split(' ')
  return owner === machine() && !isAlive(Number(pid))
}

/** Moves a dead owner's lock out of the way; if a living one slipped in meanwhile, it is put back. */
async function removeStale(lockPath: string, content: string): Promise<void> {
  const aside = besideLock(lockPath)
  try {
    await rename(lockPath, aside)
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return
    throw error
  }
  // As a second name, so that it never takes the place of a third one's; who lost his lock notices before he writes.
  if ((await contentOf(aside)) !== content) await link(aside, lockPath).catch(() => undefined)
  await rm(aside, { force: true })
}
