import { CURRENT_VERSION } from '../../src-core/job/parse.ts'
import { LIBRARY_VERSION } from '../../src-core/shop/parse.ts'
import { HostError } from './hostError.ts'

/** The newest version of each format that this program can read. */
const KNOWN: Readonly<Record<string, number>> = {
  'evenswing-job': CURRENT_VERSION,
  'evenswing-library': LIBRARY_VERSION,
}

/** Throws `file.newer` where a file holds a document newer than this program knows: it must stay as it is. */
export function refuseNewer(format: string, bytes: Uint8Array, name: string): void {
  let value: unknown
  try {
    value = JSON.parse(new TextDecoder().decode(bytes))
  } catch {
    return
  }
  if (typeof value !== 'object' || value === null) return
  const document = value as { readonly format?: unknown; readonly version?: unknown }
  const known = KNOWN[format]
  if (known === undefined || document.format !== format || typeof document.version !== 'number') return
  if (document.version > known)
    throw new HostError(
      'file.newer',
      `${name}: the file there is of version ${document.version}, newer than this program knows (${known}); it was left untouched. Save under another name`,
    )
}
