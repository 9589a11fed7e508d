/** The guards of the desktop's main side, as set on a stand-in for Electron. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, expect, test, vi } from 'vitest'
import type { Reply } from '../../src-core/bridge/reply.ts'
import { CONTENT_SECURITY_POLICY } from '../../src-main/web/securityHeaders.ts'
import { PAGE_URL, pageUrl, sameOrigin } from '../../src-main/desktop/page.ts'
import { VERBS } from '../../src-core/bridge/verbs.ts'
import { userDataFolder } from '../../src-main/services/userData.ts'
import { startDesktop, type FakeElectron } from './shells.ts'

vi.mock('electron', () => import('./fakeElectron.ts'))

let electron: FakeElectron
let host: object

beforeEach(async () => {
  const started = await startDesktop()
  electron = started.electron
  host = started.host
})

const contents = () => electron.state.windows[0]!.webContents

/** Whether a listener of the page's contents prevented an event. */
function prevented(event: string, details: object = {}): boolean {
  let stopped = false
  contents().emit(event, { ...details, preventDefault: () => (stopped = true) })
  return stopped
}

test('one window: isolated, sandboxed, without Node, with the bundled preload', () => {
  expect(electron.state.windows).toHaveLength(1)
  const preferences = electron.state.windows[0]!.options.webPreferences
  expect(preferences).toMatchObject({
    contextIsolation: true,
    sandbox: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    allowRunningInsecureContent: false,
    experimentalFeatures: false,
    webviewTag: false,
    navigateOnDragDrop: false,
  })
  expect(Object.keys(preferences)).not.toContain('enableBlinkFeatures')
  expect(electron.state.sandboxed).toBe(true)
  expect(preferences['preload']).toMatch(/out\/preload\/index\.cjs$/)
  expect(electron.state.windows[0]!.loaded).toBe('app://evenswing/index.html')
})

test('a system that lets nobody make sandboxes gets its window all the same, and the log says so', async () => {
  const { electron } = await startDesktop(async () => {
    const electron = (await import('electron')) as unknown as FakeElectron
    electron.state.switches = ['no-sandbox']
    await import('../../src-main/index.ts')
  })
  // It would take the switch back.
  expect(electron.state.sandboxed).toBe(false)
  expect(electron.state.windows[0]!.options.webPreferences).toMatchObject({
    sandbox: true,
    nodeIntegration: false,
  })
  const log = readFileSync(join(electron.state.userData, 'logs', 'evenswing.log'), 'utf8')
  expect(log).toContain('--no-sandbox')
})

test('settings, drafts and log lie where EVENSWING_SETTINGS says, else where the browser has them', async () => {
  const mine = electron.state.userData
  expect(electron.state.paths).toMatchObject({ userData: mine, sessionData: join(mine, 'window') })
  await (host as { writeSettings(s: object): Promise<unknown> }).writeSettings({
    theme: 'dark',
    person: '',
    owner: '',
  })
  expect(readdirSync(mine)).toContain('settings.json')
  let home = ''
  const started = await startDesktop(async () => {
    const electron = (await import('electron')) as unknown as FakeElectron
    home = electron.state.paths['home']!
    for (const name of ['EVENSWING_SETTINGS', 'XDG_CONFIG_HOME', 'APPDATA']) vi.stubEnv(name, '')
    await import('../../src-main/index.ts')
  })
  expect(started.electron.state.paths['userData']).toBe(userDataFolder({}, process.platform, home))
})

test('the page gets the host with exactly the verbs of the contract, and the shell with its two', () => {
  expect(Object.keys(electron.state.exposed)).toEqual(['host', 'shell'])
  expect(Object.keys(electron.state.exposed['shell'] as object).sort()).toEqual(['adoptDropped', 'subscribe'])
  expect(Object.keys(host).sort()).toEqual([...VERBS].sort())
  expect([...electron.state.handlers.keys()].sort()).toEqual(
    [...VERBS, 'adopt', 'listen'].map((v) => `evenswing:${v}`).sort(),
  )
})

test('its own scheme is standard and secure, and no more than that', () => {
  expect(electron.state.schemes).toEqual([
    { scheme: 'app', privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true } },
  ])
})

test('the page cannot leave, be sent elsewhere, open windows, or embed others', () => {
  expect(prevented('will-navigate', { url: 'https://evil.example/' })).toBe(true)
  expect(prevented('will-navigate', { url: 'file:///etc/passwd' })).toBe(true)
  expect(prevented('will-redirect', { url: 'https://evil.example/' })).toBe(true)
  expect(prevented('will-frame-navigate', { url: 'https://evil.example/', isMainFrame: false })).toBe(true)
  expect(prevented('will-attach-webview')).toBe(true)
  expect(contents().openHandler?.({ url: 'https://evil.example/' })).toEqual({ action: 'deny' })
})

test('every permission is denied', () => {
  for (const permission of [
    'media',
    'geolocation',
    'notifications',
    'openExternal',
    'clipboard-read',
    'usb',
  ]) {
    let granted: boolean | null = null
    electron.state.permissionRequest!(null, permission, (yes) => (granted = yes))
    expect(granted).toBe(false)
    expect(electron.state.permissionCheck!(null, permission)).toBe(false)
  }
  expect(electron.state.devicePermission!()).toBe(false)
  let streams: unknown = 'not asked'
  electron.state.displayMedia!(null, (given) => (streams = given))
  expect(streams).toBeNull()
})

test('a bad certificate is never taken, and the page downloads nothing', () => {
  let accepted: boolean | null = null
  let stopped = 0
  const event = { preventDefault: () => stopped++ }
  electron.app.emit(
    'certificate-error',
    event,
    null,
    'https://x.invalid',
    'bad',
    null,
    (yes: boolean) => (accepted = yes),
  )
  expect([accepted, stopped]).toEqual([false, 1])
  electron.session.defaultSession.emit('will-download', event)
  expect(stopped).toBe(2)
})

test('unsaved work holds the window open until the user lets it go', () => {
  const choices = new Map([
    ['Save and close', false],
    ['Close without saving', true],
    ['Keep working', false],
  ])
  for (const [i, lets] of [...choices.values()].entries()) {
    electron.state.messageChoice = i
    expect(prevented('will-prevent-unload')).toBe(lets)
    expect(electron.state.messages.at(-1)?.buttons).toEqual([...choices.keys()])
  }
})

test.each([
  ['another site', { url: 'https://evil.example/', parent: null }],
  ['a local file', { url: 'file:///tmp/x.html', parent: null }],
  ['another host of the scheme', { url: 'app://other/index.html', parent: null }],
  ['a name that only starts the same', { url: 'app://evenswing.evil/index.html', parent: null }],
  ['a frame in the page', { url: PAGE_URL, parent: { url: PAGE_URL, parent: null } }],
  ['no URL', { url: '', parent: null }],
])('%s gets no answer', async (_, frame) => {
  electron.state.frame = frame
  for (const verb of [...VERBS, 'adopt', 'listen']) {
    const reply = (await electron.ipcRenderer.invoke(`evenswing:${verb}`)) as Reply<unknown>
    expect(reply).toEqual({ ok: false, fault: { code: 'request.refused', message: 'This page may not ask' } })
  }
})

test('a frame that is gone gets no answer', async () => {
  const handler = electron.state.handlers.get('evenswing:info')!
  expect(await handler({ senderFrame: null })).toMatchObject({
    ok: false,
    fault: { code: 'request.refused' },
  })
})

test('arguments that cannot be sent come back as a fault, not as an exception', async () => {
  const reply = await (host as { readJob(f: unknown): Promise<Reply<unknown>> }).readJob(() => 1)
  expect(reply).toMatchObject({ ok: false, fault: { code: 'request.failed' } })
})

const get = (url: string, method = 'GET') =>
  electron.state.protocols.get('app')!(new Request(url, { method }))

test('the scheme answers with its headers, and for nothing outside the page', async () => {
  for (const url of [
    'app://evenswing/../package.json',
    'app://evenswing/%2e%2e/package.json',
    'app://evenswing/..%2f..%2fpackage.json',
    'app://other/index.html',
    'app://evenswing/none.js',
  ]) {
    const response = await get(url)
    expect(response.status).toBe(404)
    expect(response.headers.get('content-security-policy')).toBe(CONTENT_SECURITY_POLICY)
  }
  expect((await get('app://evenswing/index.html', 'POST')).status).toBe(405)
})

test('the policy names what is used and nothing else', () => {
  expect(CONTENT_SECURITY_POLICY.split('; ')).toEqual([
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ])
})

test('a development server is loaded only from this machine and only unpackaged', () => {
  const dev = (url: string) => ({ ELECTRON_RENDERER_URL: url })
  expect(pageUrl(dev('http://localhost:5173'), false)).toBe('http://localhost:5173')
  expect(pageUrl(dev('http://127.0.0.1:5173/'), false)).toBe('http://127.0.0.1:5173/')
  for (const url of [
    'http://evil.example',
    'https://localhost.evil.example',
    'file:///x',
    'javascript:1',
    'x',
    '',
  ])
    expect(pageUrl(dev(url), false)).toBe(PAGE_URL)
  expect(pageUrl(dev('http://localhost:5173'), true)).toBe(PAGE_URL)
})

test('origins are compared by protocol and host', () => {
  expect(sameOrigin('app://evenswing/a', 'app://evenswing/b?c#d')).toBe(true)
  expect(sameOrigin('app://evenswing/a', 'app://evenswing.x/a')).toBe(false)
  expect(sameOrigin('http://localhost:1', 'http://localhost:2')).toBe(false)
  expect(sameOrigin('not a url', 'not a url')).toBe(false)
})
