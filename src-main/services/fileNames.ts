/** Names that may become files: plain, printable, the same on every system. */
import { JOB_ENDING, jobEndingOf, jobStem } from '../../src-core/job/fileEnding.ts'
import { HostError } from './hostError.ts'

/** Hidden sub-folder beside jobs for their locks, temporary files and earlier versions. */
export const SIDE_FOLDER = '.evenswing-versions'
/** What it was called when jobs had another ending; what lies there is taken over. */
export const OLD_SIDE_FOLDER = '.evenswing'

/** Characters that lead out of a folder or that some system refuses in a name. */
// eslint-disable-next-line no-control-regex
const FORBIDDEN = /[\u0000-\u001f\u007f<>:"/\\|?*]/
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i

/** The name itself if it is a plain file name; throws `name.refused` else. */
function plainName(name: string): string {
  const refused = (why: string) =>
    new HostError('name.refused', `"${name.slice(0, 80)}" cannot be a file name: ${why}`)
  if (name.startsWith('.')) throw refused('it starts with a dot')
  if (FORBIDDEN.test(name)) throw refused('it holds a character that names cannot have')
  if (/^ |[. ]$/.test(name)) throw refused('it starts with a blank, or ends in a blank or a dot')
  if (RESERVED.test(name)) throw refused('the system keeps it for a device')
  if (Buffer.byteLength(name) > 200) throw refused('it is too long')
  return name
}

/** A plain job file name: the suffix is added where it is missing. */
export function jobName(name: string): string {
  const ending = jobEndingOf(name)
  const stem = ending === null ? name.replace(/\.json$/i, '') : jobStem(name)
  if (stem.trim() === '') throw new HostError('name.refused', 'A file needs a name')
  return plainName(stem + (ending ?? JOB_ENDING))
}

/** Turns any text into a plain file name ending in `.extension`, for suggestions. */
export function suggestedName(text: string, extension: string): string {
  const ending = `.${extension}`
  const stem = text.toLowerCase().endsWith(ending) ? text.slice(0, -ending.length) : text
  let clean = Array.from(stem, (c) => (FORBIDDEN.test(c) ? '-' : c)).join('')
  clean = clean.replace(/^[. ]+|[. ]+$/g, '')
  while (Buffer.byteLength(clean) > 150) clean = Array.from(clean).slice(0, -1).join('')
  if (clean === '' || RESERVED.test(clean)) clean = `sheet${clean === '' ? '' : `-${clean}`}`
  return clean + ending
}
