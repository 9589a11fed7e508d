/** Saves one version after the other until it is killed. Argument: the job's path. */
import { writeJobFile } from '../../src-main/services/jobStore.ts'
import { versionText } from './savingVersions.ts'

const path = process.argv[2]!
for (let n = 1; ; n++) {
  await writeJobFile(path, versionText(n), null)
  if (n === 1) process.stdout.write('saved\n')
}
