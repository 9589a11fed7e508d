/** Temporary files: their names, and taking away those that a cut-off save left. */
import { randomBytes } from 'node:crypto'
import { readdir, rm, stat } from 'node:fs/promises'
import { join } from 'node:path'

/** ms: no save takes this long, so nobody has such a file in hand any more. */
const OLD = 3600_000

/** A path for a temporary file in a folder. */
export const temporaryIn = (folder: string): string =>
  join(folder, `.evenswing-${randomBytes(9).toString('base64url')}.tmp`)

const OWN = /^\.evenswing-[\w-]{12}\.tmp$/

/**
 * Takes away a folder's temporary files that are old beside `fresh`, a file just written there: both times are by
 * the disk's own clock, so that no machine's wrong one counts. Never throws; what stays goes another time.
 */
export async function sweepTemporaries(folder: string, fresh: string, pattern: RegExp = OWN): Promise<void> {
  try {
    const names = (await readdir(folder)).filter((name) => pattern.test(name))
    if (names.length === 0) return
    const now = (await stat(fresh)).mtimeMs
    for (const name of names) {
      const path = join(folder, name)
      if (now - (await stat(path)).mtimeMs > OLD) await rm(path, { force: true })
    }
  } catch {
    // Someone else may sweep at the same time.
  }
}
