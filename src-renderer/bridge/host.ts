/** The one way out of the window: given by the preload in the desktop app, by the loopback host in a browser. */
import type { Shell } from '../../src-core/bridge/bookContract.ts'
import type { Host } from '../../src-core/bridge/contract.ts'
import { NO_SHELL } from '../state/app.svelte.ts'
import { fetchHost } from './fetchHost.ts'

declare global {
  interface Window {
    readonly host?: Host
    readonly shell?: Shell
  }
}

export const findHost = (): Host => window.host ?? fetchHost

export const findShell = (): Shell => window.shell ?? NO_SHELL
