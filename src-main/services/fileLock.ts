/** One writer at a time, over all processes of this program: a lock file that names its owner. */
import { randomBytes } from 'node:crypto'
import { mkdir, open, readFile, rename, rm, stat } from 'node:fs/promises'
import { hostname } from 'node:os'
import { dirname } from 'node:path'
import { HostError, systemCode } from './hostError.ts'

/** ms: no save holds its lock this long, so such a lock is taken over whoever its owner seems to be. */
const HELD_STALE = 60_000
/** ms: a lock whose owner has not even written its name in this time was killed between the two. */
const NAMELESS_STALE = 2_000

export interface LockOptions {
  /** Give up after this long, ms. */
  readonly patience?: number
}

/** Runs `work` while holding `lockPath`; throws `file.busy` when another writer keeps it too long. */
export async function withLock<T>(
  lockPath: string,
  name: string,
  work: () => Promise<T>,
  options: LockOptions = {},
): Promise<T> {
  const mine = `${process.pid} ${hostname()} ${randomBytes(9).toString('base64url')}`
  await take(lockPath, mine, name, options.patience ?? 10_000)
  try {
    return await work()
  } finally {
    if ((await contentOf(lockPath)) === mine) await rm(lockPath, { force: true })
  }
}

async function take(lockPath: string, mine: string, name: string, patience: number): Promise<void> {
  const deadline = Date.now() + patience
  for (;;) {
    if (await tryTake(lockPath, mine)) return
    const owner = await contentOf(lockPath)
    if (owner !== null && (await isStale(lockPath, owner))) await removeStale(lockPath, owner)
    else if (Date.now() > deadline)
      throw new HostError('file.busy', `${name}: another window is saving it; try again in a moment`)
    else await new Promise((done) => setTimeout(done, 5 + Math.random() * 20))
  }
}

async function tryTake(lockPath: string, mine: string): Promise<boolean> {
  try {
    const handle = await open(lockPath, 'wx')
    try {
      await handle.writeFile(mine)
    } finally {
      await handle.close()
    }
    return true
  } catch (error) {
    if (systemCode(error) === 'EEXIST') return false
    if (systemCode(error) !== 'ENOENT') throw error
    // The writer before removed the empty folder.
    await mkdir(dirname(lockPath), { recursive: true })
    return false
  }
}

async function contentOf(path: string): Promise<string | null> {
  try {
    return await readFile(path, 'utf8')
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return null
    throw error
  }
}

/**
 * True where the owner died: its process is gone, it was killed before it could write its name, or it has kept the
 * lock longer than any save takes (its number may have gone to another process since).
 */
async function isStale(lockPath: string, owner: string): Promise<boolean> {
  const [pid, host] = owner.split(' ')
  if (host === hostname() && !isAlive(Number(pid))) return true
  try {
    const age = Date.now() - (await stat(lockPath)).mtimeMs
    return age > (owner === '' ? NAMELESS_STALE : HELD_STALE)
  } catch {
    return false
  }
}

function isAlive(pid: number): boolean {
  if (!Number.isInteger(pid) || pid <= 0) return false
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return systemCode(error) === 'EPERM'
  }
}

/** Moves a dead owner's lock out of the way; if a living one slipped in meanwhile, it is put back. */
async function removeStale(lockPath: string, owner: string): Promise<void> {
  const aside = `${lockPath}.${randomBytes(6).toString('base64url')}`
  try {
    await rename(lockPath, aside)
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return
    throw error
  }
  if ((await contentOf(aside)) === owner) await rm(aside, { force: true })
  else await rename(aside, lockPath)
}
