/** Asking the host: the value, or null once the fault stands in the window's notice. */
import type { Reply } from '../../src-core/bridge/reply.ts'
import type { Session } from './session.svelte.ts'

export async function ask<T>(session: Session, asked: Promise<Reply<T>>): Promise<T | null> {
  const reply = await asked
  if (reply.ok) return reply.value
  session.notice = { kind: 'fault', text: reply.fault.message }
  return null
}
