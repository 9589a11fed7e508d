/** The window's place, files handed over by the system, and pages that die, on a stand-in for Electron. */
import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, onTestFinished, test, vi } from 'vitest'
import type { Shell, ShellEvent } from '../../src-core/bridge/bookContract.ts'
import type { Reply } from '../../src-core/bridge/reply.ts'
import { jobArgument } from '../../src-main/desktop/openedFiles.ts'
import { isSeen } from '../../src-main/desktop/windowState.ts'
import { jobText, scratchFolder } from './helpers.ts'
import { startDesktop, type FakeElectron } from './shells.ts'

vi.mock('electron', () => import('./fakeElectron.ts'))

async function listen(electron: FakeElectron): Promise<ShellEvent[]> {
  const heard: ShellEvent[] = []
  ;(electron.state.exposed['shell'] as Shell).subscribe((event) => void heard.push(event))
  await new Promise((done) => setImmediate(done))
  return heard
}

function jobFile(): string {
  const path = join(scratchFolder(), 'link.evenswing.json')
  writeFileSync(path, jobText('handed over'))
  return path
}

const names = (heard: readonly ShellEvent[]) => heard.map((e) => (e.kind === 'open' ? e.file.name : e.name))

test('the job on a command line is found, and nothing else on it is taken for one', () => {
  expect(jobArgument(['/bin/evenswing', '/a/b.evenswing.json'], '/w')).toBe('/a/b.evenswing.json')
  expect(jobArgument(['evenswing', '--flag', 'b.EVENSWING.json'], '/w')).toBe('/w/b.EVENSWING.json')
  for (const argv of [
    ['/x.evenswing.json'],
    ['e', 'a.json'],
    ['e', '--x=/a.evenswing.json'],
    ['e', '-a.evenswing.json'],
    ['e', 'https://x.invalid/'],
    ['e'],
    [],
  ])
    expect(jobArgument(argv, '/w')).toBeNull()
})

test('a job named at the start waits for the page and then opens', async () => {
  const path = jobFile()
  const before = process.argv
  process.argv = ['electron', '.', path]
  onTestFinished(() => void (process.argv = before))
  const { electron, host } = await startDesktop()
  const heard = await listen(electron)
  expect(names(heard)).toEqual(['link.evenswing.json'])
  const file = (heard[0] as { file: Parameters<typeof host.readJob>[0] }).file
  expect(await host.readJob(file)).toMatchObject({ ok: true, value: { text: jobText('handed over') } })
})

test('a second start brings the window to the front with its job; a double click on a Mac opens too', async () => {
  const { electron } = await startDesktop()
  const heard = await listen(electron)
  const [window] = electron.state.windows
  window!.minimized = true
  const path = jobFile()
  electron.app.emit('second-instance', {}, ['evenswing', path], '/')
  await vi.waitFor(() => expect(heard).toHaveLength(1))
  expect([window!.minimized, window!.focused]).toEqual([false, 1])
  let own = false
  electron.app.emit('open-file', { preventDefault: () => (own = true) }, path)
  await vi.waitFor(() => expect(heard).toHaveLength(2))
  expect(own).toBe(true)
  expect(electron.state.windows).toHaveLength(1)
})

test('what is no plain job file is not opened, whatever the system says', async () => {
  const { electron } = await startDesktop()
  const heard = await listen(electron)
  const folder = scratchFolder()
  mkdirSync(join(folder, 'folder.evenswing.json'))
  symlinkSync('/etc', join(folder, 'link.evenswing.json'))
  const hushed = vi.spyOn(console, 'error').mockImplementation(() => undefined)
  onTestFinished(() => hushed.mockRestore())
  for (const path of [
    join(folder, 'folder.evenswing.json'),
    join(folder, 'link.evenswing.json'),
    join(folder, 'gone.evenswing.json'),
    '/etc/passwd',
    '/dev/null',
  ])
    electron.app.emit('open-file', { preventDefault: () => undefined }, path)
  await vi.waitFor(() => expect(hushed).toHaveBeenCalledTimes(5))
  expect(heard).toEqual([])
})

test('a second start is left to the one that runs', async () => {
  const { electron } = await startDesktop(async () => {
    const electron = (await import('electron')) as unknown as FakeElectron
    electron.state.single = false
    await import('../../src-main/index.ts')
    expect([electron.state.quits, electron.state.windows.length]).toEqual([1, 0])
    vi.resetModules()
    electron.state.single = true
    await import('../../src-main/index.ts')
  })
  expect(electron.state.windows).toHaveLength(1)
})

test('a dropped job gets a reference; other files, and files that page script made, get none', async () => {
  const { electron, host } = await startDesktop()
  const shell = electron.state.exposed['shell'] as Shell
  const adopted = await shell.adoptDropped({ systemPath: jobFile() })
  if (!adopted.ok || !adopted.value) throw new Error('not adopted')
  expect(await host.readJob(adopted.value)).toMatchObject({
    ok: true,
    value: { text: jobText('handed over') },
  })
  expect(await shell.adoptDropped({})).toEqual({ ok: true, value: null })
  const code = (reply: Reply<unknown>) => (reply.ok ? 'ok' : reply.fault.code)
  expect(code(await shell.adoptDropped({ systemPath: '/etc/passwd' }))).toBe('name.refused')
  expect(code(await shell.adoptDropped({ systemPath: 'x.evenswing.json' }))).toBe('name.refused')
  const raw = (...args: unknown[]) =>
    electron.ipcRenderer.invoke('evenswing:adopt', ...args) as Promise<Reply<unknown>>
  for (const args of [[], [7], [''], [{}], ['x'.repeat(20_000)]])
    expect(code(await raw(...args))).toBe('request.refused')
})

const kept = { bounds: { x: 100, y: 50, width: 1200, height: 800 }, maximised: true }

/** Starts with a kept state and gives the window that came of it. */
async function startWith(state: string) {
  let file = ''
  const started = await startDesktop(async () => {
    const electron = (await import('electron')) as unknown as FakeElectron
    mkdirSync(electron.state.userData, { recursive: true })
    file = join(electron.state.userData, 'window.json')
    writeFileSync(file, state)
    await import('../../src-main/index.ts')
  })
  return { ...started, window: started.electron.state.windows[0]!, file }
}

test('size, place and maximising come back, and are kept when the window closes', async () => {
  const { electron, window, file } = await startWith(JSON.stringify(kept))
  expect(window.options).toMatchObject({ ...kept.bounds, minWidth: 900, minHeight: 600 })
  expect([window.maximized, window.shown]).toEqual([true, 1])
  window.emit('close')
  electron.app.emit('window-all-closed')
  // Only when it is written does the program end.
  await vi.waitFor(() => expect(electron.state.quits).toBe(1))
  expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual({ bounds: window.bounds, maximised: true })
})

test.each([
  ['not JSON', '{'],
  ['other fields', JSON.stringify({ ...kept, zoom: 1 })],
  ['half a place', JSON.stringify({ bounds: { x: 1, y: 2 }, maximised: false })],
  ['sizes that are none', JSON.stringify({ ...kept, bounds: { ...kept.bounds, width: 1e99 } })],
])('a damaged state (%s) is set aside and the usual size taken', async (_, text) => {
  const { electron, window } = await startWith(text)
  expect(window.options).toMatchObject({ width: 1360, height: 880 })
  expect(window.maximized).toBe(false)
  const files = readdirSync(electron.state.userData)
  expect(files.filter((name) => name.startsWith('window.json.damaged-'))).toHaveLength(1)
})

test('a window whose display is gone opens at the usual place', async () => {
  const away = { ...kept, bounds: { ...kept.bounds, x: 2500 } }
  const { window } = await startWith(JSON.stringify(away))
  expect(window.options['x']).toBeUndefined()
  const two = [
    { workArea: { x: 0, y: 0, width: 1920, height: 1040 } },
    { workArea: { x: 1920, y: 0, width: 1920, height: 1040 } },
  ]
  expect(isSeen(away.bounds, two)).toBe(true)
  expect(isSeen(away.bounds, two.slice(0, 1))).toBe(false)
  expect(isSeen({ ...kept.bounds, x: 1919 }, two.slice(0, 1))).toBe(false)
  expect(isSeen({ ...kept.bounds, y: -500 }, two)).toBe(false)
  expect(isSeen({ ...kept.bounds, width: 10 }, two)).toBe(false)
})

test('saving on closing is asked of the page, and the window stays until the page closes it', async () => {
  const { electron } = await startDesktop()
  const heard = await listen(electron)
  electron.state.messageChoice = 0
  let lets = false
  electron.state.windows[0]!.webContents.emit('will-prevent-unload', { preventDefault: () => (lets = true) })
  expect([lets, names(heard)]).toEqual([false, ['saveAndClose']])
})

test('a page that died is opened again with a word; one that dies at once again ends the program', async () => {
  const { electron } = await startDesktop()
  const hushed = vi.spyOn(console, 'error').mockImplementation(() => undefined)
  onTestFinished(() => hushed.mockRestore())
  const window = electron.state.windows[0]!
  const die = (reason: string) => window.webContents.emit('render-process-gone', {}, { reason, exitCode: 5 })
  die('clean-exit')
  expect(electron.state.messages).toEqual([])
  die('crashed')
  await vi.waitFor(() => expect(window.loads).toBe(2))
  expect(electron.state.messages[0]!.message).toMatch(/stopped working/)
  expect(readFileSync(join(electron.state.userData, 'logs', 'evenswing.log'), 'utf8')).toContain('crashed')
  die('oom')
  await vi.waitFor(() => expect(electron.state.quits).toBe(1))
  expect(window.loads).toBe(2)
})

test('a page that hangs may be waited for or opened again, and is asked about once at a time', async () => {
  const { electron } = await startDesktop()
  const hushed = vi.spyOn(console, 'error').mockImplementation(() => undefined)
  onTestFinished(() => hushed.mockRestore())
  const window = electron.state.windows[0]!
  electron.state.messageChoice = 0
  window.emit('unresponsive')
  window.emit('unresponsive')
  expect(electron.state.messages).toHaveLength(1)
  await new Promise((done) => setImmediate(done))
  expect(window.webContents.crashes).toBe(0)
  electron.state.messageChoice = 1
  window.emit('unresponsive')
  await vi.waitFor(() => expect(window.webContents.crashes).toBe(1))
})
