/** Files the user chose in this session. A reference is only an opaque word; the path stays on this side. */
import { randomBytes } from 'node:crypto'
import { basename, dirname } from 'node:path'
import type { FileRef } from '../../src-core/bridge/reply.ts'
import { HostError } from './hostError.ts'

export interface FileRefs {
  /** The reference of a path that the user chose; the same path gets the same one. */
  issue(path: string): FileRef
  /** The path behind a reference; throws `file.unknown` for one that this session never made. */
  pathOf(ref: { readonly id: string }): string
}

export function createFileRefs(): FileRefs {
  const paths = new Map<string, string>()
  const refs = new Map<string, FileRef>()
  return {
    issue(path) {
      const known = refs.get(path)
      if (known) return known
      const ref = { id: randomBytes(18).toString('base64url'), name: basename(path), folder: dirname(path) }
      paths.set(ref.id, path)
      refs.set(path, ref)
      return ref
    },
    pathOf({ id }) {
      const path = paths.get(id)
      if (path === undefined)
        throw new HostError('file.unknown', 'This file was not chosen in this session; open it again')
      return path
    },
  }
}
