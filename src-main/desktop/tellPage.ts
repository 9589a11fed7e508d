/** What main tells the page; it waits until the page listens. */
import { BrowserWindow } from 'electron'
import type { ShellEvent } from '../../src-core/bridge/bookContract.ts'
import { EVENT_CHANNEL } from './channels.ts'

export interface PageTeller {
  tell(event: ShellEvent): void
  /** The page has said that it listens: what waited goes out. */
  listening(): void
  /** The page is loaded anew and does not listen yet. */
  deaf(): void
}

export function createPageTeller(): PageTeller {
  let listens = false
  let waiting: ShellEvent[] = []
  const send = (event: ShellEvent) => BrowserWindow.getAllWindows()[0]?.webContents.send(EVENT_CHANNEL, event)
  return {
    tell(event) {
      if (listens) send(event)
      // A command is of the moment; a file is still wanted when the page is there.
      else if (event.kind === 'open') waiting.push(event)
    },
    listening() {
      listens = true
      for (const event of waiting) send(event)
      waiting = []
    },
    deaf() {
      listens = false
    },
  }
}
