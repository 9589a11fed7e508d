/** The usual place of the job book. */
import { homedir } from 'node:os'
import { join, resolve } from 'node:path'

/** The folder `EVENSWING_JOBS` names, which no setting moves and which must be there, or "Evenswing" in the user's home. */
export function jobFolderOf(env: NodeJS.ProcessEnv): { jobFolder: string; jobFolderIsFixed: boolean } {
  const given = env['EVENSWING_JOBS']
  return given
    ? { jobFolder: resolve(given), jobFolderIsFixed: true }
    : { jobFolder: join(homedir(), 'Evenswing'), jobFolderIsFixed: false }
}
