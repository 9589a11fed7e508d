/** Saves a job some times and ends. Arguments: path, "overwrite" or "count", how often, a number of its own. */
import { HostError } from '../../src-main/services/hostError.ts'
import { readJobFile, writeJobFile } from '../../src-main/services/jobStore.ts'
import { versionText } from './savingVersions.ts'

const [path, mode, times, own] = process.argv.slice(2) as [string, string, string, string]

/** Reads the count, adds one, saves it on the stamp that was read; again from the start if someone was faster. */
async function countOne(): Promise<void> {
  for (;;) {
    const { text, stamp } = await readJobFile(path)
    const { n } = JSON.parse(text) as { n: number }
    try {
      await writeJobFile(path, versionText(n + 1), stamp)
      return
    } catch (error) {
      if (!(error instanceof HostError) || error.code !== 'file.changed') throw error
    }
  }
}

for (let i = 0; i < Number(times); i++) {
  if (mode === 'count') await countOne()
  else await writeJobFile(path, versionText(Number(own) * 1000 + i), null)
}
