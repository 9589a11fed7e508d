/** Gives the page its host, verb by verb. Built to one CommonJS file, as a sandboxed preload must be. */
import { contextBridge, ipcRenderer, webUtils } from 'electron'
import type { Shell, ShellEvent } from '../src-core/bridge/bookContract.ts'
import type { Host, HostVerb } from '../src-core/bridge/contract.ts'
import type { FileRef, Reply } from '../src-core/bridge/reply.ts'
import { VERBS } from '../src-core/bridge/verbs.ts'
import { ADOPT_CHANNEL, channelOf, EVENT_CHANNEL, LISTEN_CHANNEL } from './desktop/channels.ts'

/** A request whose arguments cannot even be sent is a fault like any other. */
async function ask<T>(
  verb: HostVerb | 'adopt',
  channel: string,
  args: readonly unknown[],
): Promise<Reply<T>> {
  try {
    return (await ipcRenderer.invoke(channel, ...args)) as Reply<T>
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error)
    return { ok: false, fault: { code: 'request.failed', message: `${verb}: ${message}` } }
  }
}

const host = Object.fromEntries(
  VERBS.map((verb) => [verb, (...args: readonly unknown[]) => ask(verb, channelOf(verb), args)]),
) as unknown as Host

const shell: Shell = {
  subscribe(listener) {
    // The page gets the plain event and nothing of Electron's.
    const hear = (_: unknown, event: ShellEvent) => listener(event)
    ipcRenderer.on(EVENT_CHANNEL, hear)
    void ipcRenderer.invoke(LISTEN_CHANNEL)
    return () => void ipcRenderer.removeListener(EVENT_CHANNEL, hear)
  },
  async adoptDropped(file) {
    // Only a file that the system itself handed to the page has a path; page script cannot name one.
    const path = webUtils.getPathForFile(file as File)
    return path === '' ? { ok: true, value: null } : ask<FileRef | null>('adopt', ADOPT_CHANNEL, [path])
  },
}

contextBridge.exposeInMainWorld('host', host)
contextBridge.exposeInMainWorld('shell', shell)
