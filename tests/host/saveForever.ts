/**
 * Saves one version after the other until it is killed. Arguments: the job's path, a number of its own and, where it
 * is to die at a known step, before which file operation; "count" says how many a second save takes, and ends.
 */
import { open } from 'node:fs/promises'
import { createRequire, syncBuiltinESMExports } from 'node:module'
import { versionText } from './savingVersions.ts'

const [path, own, dieAt] = process.argv.slice(2) as [string, string, string | undefined]
let operations = 0

function counted<A extends unknown[], R>(work: (...args: A) => R): (...args: A) => R {
  return function (this: unknown, ...args) {
    if (++operations === Number(dieAt)) process.kill(process.pid, 'SIGKILL')
    return work.apply(this, args)
  }
}

/** Every later import of these functions gets the counting ones. */
async function countOperations(): Promise<void> {
  const files = createRequire(import.meta.url)('node:fs/promises') as Record<
    string,
    (...args: unknown[]) => unknown
  >
  const handle = await open(path, 'r')
  const ofHandles = Object.getPrototypeOf(handle) as Record<string, (...args: unknown[]) => unknown>
  await handle.close()
  for (const name of [
    'open',
    'rename',
    'link',
    'rm',
    'rmdir',
    'mkdir',
    'chmod',
    'stat',
    'readdir',
    'realpath',
  ])
    files[name] = counted(files[name]!)
  for (const name of ['write', 'writeFile', 'sync', 'close', 'read'])
    ofHandles[name] = counted(ofHandles[name]!)
  syncBuiltinESMExports()
}

if (dieAt !== undefined) await countOperations()
const { writeJobFile } = await import('../../src-main/services/jobStore.ts')
for (let n = 1; ; n++) {
  const before = operations
  await writeJobFile(path, versionText(Number(own) * 1_000_000 + n), null)
  if (dieAt !== 'count' || n < 2) continue
  process.stdout.write(String(operations - before))
  process.exit(0)
}
