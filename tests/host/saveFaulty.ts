/**
 * Saves, reads and lists earlier versions on a drive that fails and is slow: below the services every file operation
 * may fail with an error of the system's, cut off in the middle where it writes, or take its time. Arguments: the
 * job's path, a seed, how many saves.
 */
import { readFileSync } from 'node:fs'
import { open } from 'node:fs/promises'
import { createRequire, syncBuiltinESMExports } from 'node:module'
import { createRandom } from './savingRandom.ts'
import { isWhole, versionText } from './savingVersions.ts'

const [path, seed, times] = process.argv.slice(2) as [string, string, string]
const random = createRandom(Number(seed))
const CODES = [
  'EIO',
  'ENOSPC',
  'EACCES',
  'EPERM',
  'EROFS',
  'EBUSY',
  'ESTALE',
  'EMFILE',
  'EDQUOT',
  'ETIMEDOUT',
  'EAGAIN',
]
/** Shares of operations that fail, and that are slow. */
let [failing, slow] = [0, 0]
let injected = 0

type Work = (...args: unknown[]) => Promise<unknown>

const fault = (syscall: string) => {
  injected++
  const code = random.of(CODES)
  return Object.assign(new Error(`${code}: made by the test, ${syscall}`), { code, syscall, path })
}

function unsure(name: string, work: Work): Work {
  return async function (this: unknown, ...args) {
    if (random.next() < slow) await new Promise((done) => setTimeout(done, random.next() * 8))
    if (random.next() < failing) {
      const [data] = args
      // The disk fills up in the middle.
      if (name === 'write' && typeof data === 'string')
        await work.call(this, data.slice(0, data.length / 2), ...args.slice(1))
      if (name === 'writeFile' && data instanceof Uint8Array)
        await work.call(this, data.subarray(0, data.length / 2))
      throw fault(name)
    }
    return work.apply(this, args)
  }
}

async function layFaults(): Promise<void> {
  const files = createRequire(import.meta.url)('node:fs/promises') as Record<string, Work>
  const handle = await open(path, 'r')
  const ofHandles = Object.getPrototypeOf(handle) as Record<string, Work>
  await handle.close()
  const names = [
    'open',
    'rename',
    'link',
    'rm',
    'rmdir',
    'mkdir',
    'chmod',
    'stat',
    'lstat',
    'readdir',
    'realpath',
    'readFile',
    'utimes',
  ]
  for (const name of names) files[name] = unsure(name, files[name]!)
  for (const name of ['write', 'writeFile', 'sync', 'datasync', 'read', 'stat', 'chmod'])
    ofHandles[name] = unsure(name, ofHandles[name]!)
  syncBuiltinESMExports()
}

await layFaults()
const { HostError } = await import('../../src-main/services/hostError.ts')
const { listRevisions, readJobFile, readRevision, writeJobFile } =
  await import('../../src-main/services/jobStore.ts')
const atOnce = { silence: 0, patience: 20, pause: async () => undefined }
const count = { saved: 0, refused: 0, savedYetRefused: 0, read: 0 }
const wrong: string[] = []

/** Work that may end well or with a fault in words, and in no other way. */
async function tried<T>(work: Promise<T>): Promise<{ value: T } | null> {
  try {
    return { value: await work }
  } catch (error) {
    if (!(error instanceof HostError) || error.message === '') wrong.push(`thrown: ${String(error)}`)
    return null
  }
}

let held = versionText(0)
for (let n = 1; n <= Number(times); n++) {
  failing = random.next() * 0.06
  slow = random.next() < 0.2 ? 0.2 : 0
  const text = versionText(n)
  const saved = await tried(writeJobFile(path, text, null, atOnce))
  const read = await tried(readJobFile(path))
  const [newest] = (await tried(listRevisions(path)))?.value ?? []
  if (newest) {
    const revision = await tried(readRevision(path, newest.id))
    if (revision && !isWhole(revision.value)) wrong.push(`save ${n}: a torn earlier version`)
  }
  failing = slow = 0
  const found = readFileSync(path, 'utf8')
  if (found !== text && (saved || found !== held))
    wrong.push(`save ${n}: neither what was nor what was saved`)
  if (read && read.value.text !== found) wrong.push(`save ${n}: another text was read`)
  if (saved) count.saved++
  else count.refused++
  if (!saved && found === text) count.savedYetRefused++
  if (read) count.read++
  held = found
}
await writeJobFile(path, versionText(0), null, { silence: 0 })
process.stdout.write(JSON.stringify({ ...count, injected, wrong: wrong.slice(0, 10) }))
