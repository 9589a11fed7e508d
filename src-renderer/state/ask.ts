/** Asking the host: the value, or null once the fault stands in the window's notice. */
import type { HostFault, Reply } from '../../src-core/bridge/reply.ts'
import type { Notice, Session } from './session.svelte.ts'

/** The fault's code where the program behind the window does not answer at all. */
export const HOST_GONE = 'host.gone'
export const COPY_OUT = 'Save a copy to this computer'

export async function ask<T>(session: Session, asked: Promise<Reply<T>>): Promise<T | null> {
  const reply = await asked
  if (reply.ok) return reply.value
  session.notice = faultNotice(session, reply.fault)
  return null
}

/** Where no host is left to save with, the notice has the one thing that still saves the work. */
export function faultNotice(session: Session, fault: HostFault, text: string = fault.message): Notice {
  const run = session.copyOut
  return {
    kind: 'fault',
    text,
    ...(fault.code === HOST_GONE && run ? { action: { label: COPY_OUT, run, overDialog: true } } : {}),
  }
}
