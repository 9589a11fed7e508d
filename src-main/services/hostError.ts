/** Faults that a service reports on purpose; everything else that is thrown is a defect. */
import { clause } from '../../src-core/words/clause.ts'
import type { HostFault } from '../../src-core/bridge/reply.ts'

export type HostFaultCode =
  | 'file.changed'
  | 'file.gone'
  | 'file.exists'
  | 'file.newer'
  | 'file.denied'
  | 'file.unknown'
  | 'file.tooLarge'
  | 'file.notText'
  | 'file.notPlain'
  | 'file.busy'
  | 'file.failed'
  | 'book.gone'
  | 'name.refused'
  | 'request.refused'
  | 'request.failed'

export class HostError extends Error {
  readonly code: HostFaultCode

  constructor(code: HostFaultCode, message: string) {
    super(clause(message))
    this.name = 'HostError'
    this.code = code
  }
}

export const faultOf = (error: HostError): HostFault => ({ code: error.code, message: error.message })

/** The system's error code (`ENOENT` …), or an empty text. */
export function systemCode(error: unknown): string {
  const code = (error as { code?: unknown } | null)?.code
  return typeof code === 'string' ? code : ''
}

/** A system error about a file in plain words; `name` is how the user knows the file. */
export function fileError(error: unknown, name: string): HostError {
  if (error instanceof HostError) return error
  switch (systemCode(error)) {
    case 'ENOENT':
      return new HostError('file.gone', `${name}: there is no such file`)
    case 'EACCES':
    case 'EPERM':
      return new HostError('file.denied', `${name}: the system does not allow it; check the permissions`)
    case 'EROFS':
      return new HostError('file.denied', `${name}: the disk is read-only; save somewhere else`)
    case 'EISDIR':
      return new HostError('file.notPlain', `${name}: is a folder, not a file`)
    case 'ENOTDIR':
      return new HostError('file.gone', `${name}: a part of its path is not a folder`)
    case 'ELOOP':
      return new HostError('file.gone', `${name}: its links lead in a circle`)
    case 'ENOSPC':
    case 'EDQUOT':
      return new HostError('file.failed', `${name}: the disk is full; nothing was changed`)
    case 'ENAMETOOLONG':
      return new HostError('name.refused', `${name.slice(0, 60)}…: the name is too long`)
    default:
      return new HostError('file.failed', `${name}: ${systemCode(error) || messageOf(error)}`)
  }
}

export const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error))
