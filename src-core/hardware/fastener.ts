import type { Hardware } from '../job/schema.ts'

export interface Fastener {
  readonly thread: string | null
  readonly strengthClass: string | null
  /** N·m */
  readonly torque: number | null
}

/** The stud by which a piece is held or presses: the first where there are several; null where it has none. */
export function fastenerOf(item: Hardware): Fastener | null {
  const fields = (thread: unknown, strengthClass: unknown, torque: unknown): Fastener => ({
    thread: typeof thread === 'string' && thread !== '' ? thread : null,
    strengthClass: typeof strengthClass === 'string' && strengthClass !== '' ? strengthClass : null,
    torque: typeof torque === 'number' ? torque : null,
  })
  if ('stud' in item) return fields(item.stud.thread, item.stud.class, item.torque)
  if (item.kind === 'dowel') return null
  const held = 'bolts' in item ? item.bolts[0] : item.held?.[0]
  if (held) return fields(held.stud.thread, held.stud.class, held.torque)
  if ('bolts' in item) return null
  return item.press ? fields(item.press.thread, item.press.class, item.press.torque) : null
}

/** `M12 8.8`; empty where neither is given. */
export const fastenerWords = (f: Fastener | null): string =>
  [f?.thread, f?.strengthClass].filter(Boolean).join(' ')
