import type { Reply } from '../../src-core/bridge/reply.ts'

type Asked = (...args: never) => Promise<Reply<unknown>>

/** A contract's verbs, with the value itself in place of a reply; faults are thrown as `HostError`. */
export type ServicesOf<H> = {
  readonly [V in keyof H]: H[V] extends Asked
    ? (...args: Parameters<H[V]>) => Promise<Awaited<ReturnType<H[V]>> extends Reply<infer T> ? T : never>
    : never
}
