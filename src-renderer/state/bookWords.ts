/** How the job book calls files and times. */
import type { FileRef } from '../../src-core/bridge/reply.ts'

export const nameOf = ({ name }: Pick<FileRef, 'name'>): string => name.replace(/\.evenswing\.json$/, '')

export const when = (iso: string): string =>
  new Date(iso).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' })
