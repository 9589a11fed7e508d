/** The one way out of the window: given by the preload in the desktop app, by the loopback host in a browser. */
import type { Host } from '../../src-core/bridge/contract.ts'
import { fetchHost } from './fetchHost.ts'

declare global {
  interface Window {
    readonly host?: Host
  }
}

export const findHost = (): Host => window.host ?? fetchHost
