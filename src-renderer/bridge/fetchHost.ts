/** The host as the loopback server gives it: one POST a request, bytes as base64, the reply as JSON. */
import type { Host, HostVerb } from '../../src-core/bridge/contract.ts'
import type { Reply } from '../../src-core/bridge/reply.ts'
import { HOST_GONE } from '../state/ask.ts'
import { KEY_HEADER } from '../../src-core/bridge/pageKey.ts'
import { VERBS } from '../../src-core/bridge/verbs.ts'
import { takeKey } from './pageKey.ts'

const KEY = takeKey()

function encode(value: unknown): unknown {
  if (!(value instanceof Uint8Array)) return value
  let text = ''
  for (let i = 0; i < value.length; i += 0x8000) text += String.fromCharCode(...value.subarray(i, i + 0x8000))
  return { base64: btoa(text) }
}

async function request(verb: HostVerb, args: readonly unknown[]): Promise<Reply<unknown>> {
  try {
    const response = await fetch(`/rpc/${verb}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', [KEY_HEADER]: KEY },
      body: JSON.stringify({ args: args.map(encode) }),
    })
    return (await response.json()) as Reply<unknown>
  } catch {
    const message =
      'The program behind this window does not answer. Nothing here is lost until you close the window: save a copy, start the program again with npm start, and drop the copy on its window'
    return { ok: false, fault: { code: HOST_GONE, message } }
  }
}

export const fetchHost = Object.fromEntries(
  VERBS.map((verb) => [verb, (...args: unknown[]) => request(verb, args)]),
) as unknown as Host
