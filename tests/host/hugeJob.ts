/** Reads a job as the host does and says how the most memory it took, MB. Argument: the job's path. */
import { parseJob } from '../../src-core/job/parse.ts'
import { messageOf } from '../../src-main/services/hostError.ts'
import { readJobFile } from '../../src-main/services/jobStore.ts'

async function faultOf(path: string): Promise<string> {
  try {
    const result = parseJob((await readJobFile(path)).text)
    return result.ok ? '' : `${result.faults[0]!.path} ${result.faults[0]!.message}`
  } catch (error) {
    return messageOf(error)
  }
}
const fault = await faultOf(process.argv[2]!)
process.stdout.write(JSON.stringify({ fault, memory: process.resourceUsage().maxRSS / 1024 }))
