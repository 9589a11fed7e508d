/** Bodies of requests: read up to a limit, JSON, bytes as base64. */
import type { IncomingMessage } from 'node:http'

export type Body =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly status: number; readonly why: string }

/** Reads a request's body of at most `limit` bytes of UTF-8. */
export async function readBody(request: IncomingMessage, limit: number): Promise<Body> {
  const bytes = Number(request.headers['content-length'] ?? 0) > limit ? null : await collect(request, limit)
  if (!bytes) {
    // The rest is let run out unread, so that the answer can still be heard.
    request.resume()
    return { ok: false, status: 413, why: `The request is larger than ${limit} bytes` }
  }
  try {
    return { ok: true, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) }
  } catch {
    return { ok: false, status: 400, why: 'The request is not UTF-8 text' }
  }
}

/** All bytes, or null once there are more than `limit`. Leaving a `for await` loop would cut the connection. */
function collect(request: IncomingMessage, limit: number): Promise<Buffer | null> {
  return new Promise((done, fail) => {
    const chunks: Buffer[] = []
    let total = 0
    request.on('data', (chunk: Buffer) => {
      total += chunk.length
      if (total > limit) {
        chunks.length = 0
        done(null)
      } else chunks.push(chunk)
    })
    request.on('end', () => done(Buffer.concat(chunks)))
    request.on('error', fail)
  })
}

/** The `args` of `{"args":[...]}`, each `{"base64":"..."}` turned into bytes; null where the text is not that. */
export function argsOf(text: string): unknown[] | null {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    return null
  }
  if (typeof value !== 'object' || value === null || !('args' in value) || !Array.isArray(value.args))
    return null
  return value.args.map(decodeBytes)
}

function decodeBytes(arg: unknown): unknown {
  if (typeof arg !== 'object' || arg === null || Object.keys(arg).join() !== 'base64') return arg
  const { base64 } = arg as { base64: unknown }
  if (typeof base64 !== 'string' || base64.length % 4 !== 0 || !/^[A-Za-z0-9+/]*={0,2}$/.test(base64))
    return arg
  return new Uint8Array(Buffer.from(base64, 'base64'))
}
