/** The two shells behind one interface, so that one list of tests can be run against both. */
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, onTestFinished, vi } from 'vitest'
import type { Host } from '../../src-core/bridge/contract.ts'
import type { Reply } from '../../src-core/bridge/reply.ts'
import { startLoopback, type Loopback } from '../../src-main/loopback/server.ts'
import { createPainter } from '../../src-main/png/painter.ts'
import { createHostServices } from '../../src-main/services/hostServices.ts'
import { startPainter } from '../../src-main/start/painterProcess.ts'
import type * as Fake from './fakeElectron.ts'
import { KEY_HEADER } from '../../src-core/bridge/pageKey.ts'
import { ask, jobText, scratchFolder, type Answer } from './helpers.ts'

export interface Shell {
  readonly host: Host
  readonly jobFolder: string
  /** What the system's next dialog answers; null cancels. Shells without dialogs ignore it. */
  choose(path: string | null): void
  /** Sends a request past the typed interface. */
  raw(verb: string, args: readonly unknown[]): Promise<Reply<unknown>>
}

export type FakeElectron = typeof Fake

/** Starts the main side with the fake `electron`, then the preload, and gives what the preload gave the page. */
export async function startDesktop(index = () => import('../../src-main/index.ts') as Promise<unknown>) {
  vi.resetModules()
  const electron = (await import('electron')) as unknown as FakeElectron
  electron.reset()
  const folder = scratchFolder()
  const jobFolder = join(folder, 'jobs')
  electron.state.userData = join(folder, 'user')
  electron.state.paths['home'] = join(folder, 'home')
  mkdirSync(jobFolder)
  vi.stubEnv('EVENSWING_JOBS', jobFolder)
  vi.stubEnv('EVENSWING_SETTINGS', electron.state.userData)
  await index()
  await vi.waitFor(() => expect(electron.state.windows[0]?.loaded).toBeTruthy())
  await import('../../src-main/preload.ts')
  return { electron, jobFolder, host: electron.state.exposed['host'] as Host }
}

export async function desktopShell(): Promise<Shell> {
  const { electron, jobFolder, host } = await startDesktop()
  return {
    host,
    jobFolder,
    choose: (path) => void (electron.state.dialogPath = path),
    raw: (verb, args) => electron.ipcRenderer.invoke(`evenswing:${verb}`, ...args) as Promise<Reply<unknown>>,
  }
}

/** A loopback host with a small page and one example, and a session for it. */
export async function startTestLoopback(bodyLimit?: number) {
  const folder = scratchFolder()
  const rendererFolder = join(folder, 'renderer')
  const examplesFolder = join(folder, 'examples')
  const jobFolder = join(folder, 'jobs')
  mkdirSync(join(rendererFolder, 'assets'), { recursive: true })
  mkdirSync(examplesFolder)
  writeFileSync(join(folder, 'secret.html'), 'not for the page')
  writeFileSync(join(rendererFolder, 'index.html'), '<!doctype html><title>page</title>')
  writeFileSync(join(rendererFolder, 'assets', 'app.js'), 'export {}')
  writeFileSync(join(examplesFolder, 'flat-link.evenswing.json'), jobText('example'))
  const reported: unknown[] = []
  const services = createHostServices({
    version: '0.0.0-test',
    shell: 'browser',
    dialogs: null,
    examplesFolder,
    jobFolder,
    userData: join(folder, 'user'),
    paint: createPainter(startPainter),
  })
  const loopback = await startLoopback({
    rendererFolder,
    services,
    report: (error) => void reported.push(error),
    ...(bodyLimit === undefined ? {} : { bodyLimit }),
  })
  onTestFinished(() => loopback.close())
  return { loopback, jobFolder, folder, reported }
}

/** Opens the printed address as a browser would and gives what the page then sends with every request. */
export async function openSession(loopback: Loopback): Promise<{ cookie: string; [KEY_HEADER]: string }> {
  const address = new URL(loopback.newAddress())
  const answer = await ask(loopback.origin, { path: address.pathname + address.search })
  return sessionIn(answer)
}

export function sessionIn(answer: Answer): { cookie: string; [KEY_HEADER]: string } {
  expect(answer.status).toBe(200)
  const [cookie] = answer.headers['set-cookie'] as string[]
  return { cookie: cookie!.split(';')[0]!, [KEY_HEADER]: /#key=([\w-]+)/.exec(answer.text)![1]! }
}

/** The page's own client, its `fetch` sent as the browser would: with the session's cookie and the page's origin. */
export async function loopbackShell(): Promise<Shell> {
  const { loopback, jobFolder } = await startTestLoopback()
  const headers = { ...(await openSession(loopback)), origin: loopback.origin }
  vi.stubGlobal(
    'fetch',
    async (path: string, init: { method: string; headers: Record<string, string>; body: string }) => {
      const answer = await ask(loopback.origin, { ...init, path, headers: { ...init.headers, ...headers } })
      return new Response(answer.text, { status: answer.status })
    },
  )
  onTestFinished(() => void vi.unstubAllGlobals())
  const { fetchHost } = await import('../../src-renderer/bridge/fetchHost.ts')
  const verbs = fetchHost as unknown as Record<
    string,
    (...args: readonly unknown[]) => Promise<Reply<unknown>>
  >
  return { host: fetchHost, jobFolder, choose: () => undefined, raw: (verb, args) => verbs[verb]!(...args) }
}
