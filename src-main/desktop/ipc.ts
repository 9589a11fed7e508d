/** The one place where requests of the window come in: who asks is checked first, and nothing is thrown across. */
import { ipcMain, type IpcMainInvokeEvent } from 'electron'
import { answer, refuse } from '../requests/answer.ts'
import { VERBS } from '../../src-core/bridge/verbs.ts'
import type { HostServices } from '../services/hostServices.ts'
import { channelOf } from './channels.ts'
import { sameOrigin } from './page.ts'

export function answerWindow(services: HostServices, page: string, report: (error: unknown) => void): void {
  for (const verb of VERBS) {
    ipcMain.handle(channelOf(verb), async (event, ...args: unknown[]) => {
      if (!isOurMainFrame(event, page)) return refuse('request.refused', 'This page may not ask')
      return answer(services, verb, args, report)
    })
  }
}

function isOurMainFrame({ senderFrame }: IpcMainInvokeEvent, page: string): boolean {
  return senderFrame !== null && senderFrame.parent === null && sameOrigin(senderFrame.url, page)
}
