/** Counts up in a job that another process counts up too. Arguments: the job's path, how often, a number of its own. */
import { HostError } from '../../src-main/services/hostError.ts'
import { readJobFile, writeJobFile } from '../../src-main/services/jobStore.ts'
import { versionText } from './savingVersions.ts'

const [path, times, own] = process.argv.slice(2) as [string, string, string]
/** Two that write the very same would not be in each other's way. */
const mark = ' '.repeat(Number(own))

/** Reads the count, adds one, saves it on the stamp that was read; again from the start if someone was faster. */
async function countOne(): Promise<void> {
  for (;;) {
    const { text, stamp } = await readJobFile(path)
    const { n } = JSON.parse(text) as { n: number }
    try {
      await writeJobFile(path, versionText(n + 1) + mark, stamp)
      return
    } catch (error) {
      // On a machine that is very busy another may have waited in vain; then nothing was written.
      if (!(error instanceof HostError) || !['file.changed', 'file.busy'].includes(error.code)) throw error
    }
  }
}

for (let i = 0; i < Number(times); i++) await countOne()
