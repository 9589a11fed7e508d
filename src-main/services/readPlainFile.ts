/** Reading a file that someone else may have made: plain files only, a size limit, strict UTF-8. */
import { createHash } from 'node:crypto'
import { closeSync, constants, fstatSync, openSync, readSync, type Stats } from 'node:fs'
import { open } from 'node:fs/promises'
import { isUtf8 } from 'node:buffer'
import { fileError, HostError } from './hostError.ts'

/** Bytes; a job of many thousand vertices is some hundred kilobytes. */
export const FILE_LIMIT = 64 * 1024 * 1024

/**
 * Bytes of a plain file of at most `limit` bytes. Throws a `HostError` for what is missing, not allowed, not a
 * plain file (folder, device, pipe) or too large. `name` is used in messages.
 */
export async function readPlainFile(path: string, name: string, limit = FILE_LIMIT): Promise<Buffer> {
  let handle
  try {
    handle = await open(path, READ)
    expectPlain(await handle.stat(), name, limit)
    const chunks: Buffer[] = []
    let total = 0
    for (;;) {
      // The size is checked again while reading: the file may grow.
      const { bytesRead, buffer } = await handle.read({ buffer: Buffer.allocUnsafe(1 << 20) })
      if (bytesRead === 0) break
      total += bytesRead
      if (total > limit) throw tooLarge(name, total, limit)
      chunks.push(buffer.subarray(0, bytesRead))
    }
    return Buffer.concat(chunks)
  } catch (error) {
    throw fileError(error, name)
  } finally {
    await handle?.close()
  }
}

/** The same by calls that wait, for a thread that may; `onpart` is called after each part, which a slow drive takes seconds for. */
export function readPlainFileNow(
  path: string,
  name: string,
  onpart: () => void = () => undefined,
  limit = FILE_LIMIT,
): Buffer {
  let file: number | null = null
  try {
    file = openSync(path, READ)
    const state = fstatSync(file)
    expectPlain(state, name, limit)
    const chunks: Buffer[] = []
    let total = 0
    for (;;) {
      const chunk = Buffer.allocUnsafe(Math.min(PART, state.size + 1))
      const count = readSync(file, chunk, 0, chunk.length, null)
      if (count === 0) return Buffer.concat(chunks)
      total += count
      if (total > limit) throw tooLarge(name, total, limit)
      chunks.push(chunk.subarray(0, count))
      onpart()
    }
  } catch (error) {
    throw fileError(error, name)
  } finally {
    if (file !== null) closeSync(file)
  }
}

/** Bytes. */
const PART = 1 << 17

/** Without O_NONBLOCK the opening of a pipe would wait for its writer. */
const READ = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0)

function expectPlain(state: Stats, name: string, limit: number): void {
  if (state.isDirectory()) throw new HostError('file.notPlain', `${name}: is a folder, not a file`)
  if (!state.isFile()) throw new HostError('file.notPlain', `${name}: is not a plain file`)
  if (state.size > limit) throw tooLarge(name, state.size, limit)
}

function tooLarge(name: string, size: number, limit: number): HostError {
  const mb = (bytes: number) => `${(bytes / 1024 / 1024).toFixed(1)} MB`
  return new HostError('file.tooLarge', `${name}: is too large (${mb(size)}; the limit is ${mb(limit)})`)
}

/** Text of UTF-8 bytes, a byte order mark dropped. Throws a `HostError` naming line and byte of the first bad one. */
export function decodeText(bytes: Uint8Array, name: string): string {
  if (isUtf8(bytes)) return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  const at = firstBadByte(bytes)
  let line = 1
  for (let i = 0; i < at; i++) if (bytes[i] === 10) line++
  throw new HostError('file.notText', `${name}: line ${line}: is not UTF-8 text (byte ${at + 1})`)
}

/** Index near the first byte that no UTF-8 text can have there, by halving. */
function firstBadByte(bytes: Uint8Array): number {
  const good = (length: number) => {
    try {
      new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, length), { stream: true })
      return true
    } catch {
      return false
    }
  }
  let low = 0
  let high = bytes.length
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (good(middle)) low = middle
    else high = middle - 1
  }
  return Math.min(low, bytes.length - 1)
}

/** Identifies content: the same bytes give the same stamp. */
export const stampOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('base64url')
