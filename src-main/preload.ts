/** Gives the page its host, verb by verb. Built to one CommonJS file, as a sandboxed preload must be. */
import { contextBridge, ipcRenderer } from 'electron'
import type { Host, HostVerb, Reply } from '../src-core/bridge/contract.ts'
import { VERBS } from '../src-core/bridge/verbs.ts'
import { channelOf } from './desktop/channels.ts'

/** A request whose arguments cannot even be sent is a fault like any other. */
async function ask<T>(verb: HostVerb, ...args: readonly unknown[]): Promise<Reply<T>> {
  try {
    return (await ipcRenderer.invoke(channelOf(verb), ...args)) as Reply<T>
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error)
    return { ok: false, fault: { code: 'request.failed', message: `${verb}: ${message}` } }
  }
}

const host = Object.fromEntries(
  VERBS.map((verb) => [verb, (...args: readonly unknown[]) => ask(verb, ...args)]),
) as unknown as Host

contextBridge.exposeInMainWorld('host', host)
