/** `find SUM`: the job whose sheet carries that check sum. */
import { homedir } from 'node:os'
import { relative, resolve } from 'node:path'
import { readCheckSum } from '../../../src-core/job/checkSum.ts'
import { findBySum, type FoundBySum } from '../../services/book/findBySum.ts'
import { HostError } from '../../services/hostError.ts'
import { jobFolderOf } from '../../services/jobFolder.ts'
import { createSettings } from '../../services/settings.ts'
import { userDataFolder } from '../../services/userData.ts'
import { flag, printJson, textValue, type Call } from '../command.ts'
import { EXIT, Failure, printable } from '../failure.ts'

export async function find(call: Call): Promise<number> {
  const typed = call.positionals[0]!
  const sum = readCheckSum(typed)
  if (sum === null) throw new Failure(`find: "${typed}" is no check sum; one looks like V8MRW-R2PX0`)
  const folder = await folderOf(call)
  const { found, unread } = await search(folder, sum)
  if (flag(call, 'json')) printJson(call.io, { check_sum: sum, folder, found, unread })
  else for (const one of found) call.io.out(`${line(call.io.cwd, one)}\n`)
  if (found.length > 0) return EXIT.done
  const more = unread === 0 ? '' : ` (${unread} ${unread === 1 ? 'file' : 'files'} could not be read)`
  throw new Failure(
    `find: no job in ${folder} has the check sum ${sum}${more}; it was changed since, or it lies in another folder`,
  )
}

const line = (cwd: string, { path, setup, until }: FoundBySum): string =>
  printable(
    `${relative(cwd, path) || path}: setup ${setup}${until === null ? '' : `, as it was until ${until}; it was changed since`}`,
  )

/** The one asked for, or the job book's. */
async function folderOf(call: Call): Promise<string> {
  const given = textValue(call, 'in')
  if (given === '') throw new Failure('find: --in: the folder name is empty')
  if (given !== undefined) return resolve(call.io.cwd, given)
  const { jobFolder, jobFolderIsFixed } = jobFolderOf(process.env)
  const settings = createSettings({
    userData: userDataFolder(process.env, process.platform, homedir()),
    fixedBook: jobFolderIsFixed ? jobFolder : null,
    usualBook: jobFolder,
  })
  return settings.bookFolder()
}

async function search(folder: string, sum: string) {
  try {
    return await findBySum(folder, sum)
  } catch (error) {
    throw error instanceof HostError ? new Failure(error.message) : error
  }
}
