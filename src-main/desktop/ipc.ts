/** The one place where requests of the window come in: who asks is checked first, and nothing is thrown across. */
import { ipcMain, type IpcMainInvokeEvent } from 'electron'
import { z } from 'zod'
import { VERBS } from '../../src-core/bridge/verbs.ts'
import { answer, answerWith, refuse } from '../requests/answer.ts'
import type { HostServices, OwnServices } from '../services/hostServices.ts'
import { ADOPT_CHANNEL, channelOf, LISTEN_CHANNEL } from './channels.ts'
import { sameOrigin } from './page.ts'

export interface Answering {
  readonly services: HostServices & OwnServices
  readonly page: string
  readonly report: (error: unknown) => void
  /** The page listens for events from now on. */
  readonly onListening: () => void
}

const path = z.string().min(1).max(10_000)

export function answerWindow({ services, page, report, onListening }: Answering): void {
  const handle = (channel: string, reply: (args: unknown[]) => Promise<unknown>) =>
    ipcMain.handle(channel, async (event, ...args: unknown[]) =>
      isOurMainFrame(event, page) ? reply(args) : refuse('request.refused', 'This page may not ask'),
    )
  for (const verb of VERBS) handle(channelOf(verb), (args) => answer(services, verb, args, report))
  handle(LISTEN_CHANNEL, async () => onListening())
  handle(ADOPT_CHANNEL, async ([given]) => {
    const checked = path.safeParse(given)
    if (!checked.success) return refuse('request.refused', 'The dropped file has no path')
    return answerWith('dropped file', () => services.adopt(checked.data), report)
  })
}

function isOurMainFrame({ senderFrame }: IpcMainInvokeEvent, page: string): boolean {
  return senderFrame !== null && senderFrame.parent === null && sameOrigin(senderFrame.url, page)
}
