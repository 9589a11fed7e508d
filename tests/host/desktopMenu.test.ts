/** The system's menu, as given to a stand-in for Electron. */
import { existsSync, mkdirSync } from 'node:fs'
import { join } from 'node:path'
import type { MenuItemConstructorOptions as Item } from 'electron'
import { expect, test, vi } from 'vitest'
import type { Shell, ShellEvent } from '../../src-core/bridge/bookContract.ts'
import { COMMANDS, isCommand } from '../../src-core/bridge/commands.ts'
import { acceleratorOf, menuTemplate, type MenuPort } from '../../src-main/desktop/menu.ts'
import { jobText } from './helpers.ts'
import { startDesktop } from './shells.ts'

vi.mock('electron', () => import('./fakeElectron.ts'))

const port = (platform: NodeJS.Platform, over: Partial<MenuPort> = {}): MenuPort => ({
  platform,
  developing: false,
  recent: [],
  command: () => undefined,
  open: () => undefined,
  clearRecent: () => undefined,
  showLog: () => undefined,
  ...over,
})
const all = (items: readonly Item[]): Item[] =>
  items.flatMap((item) => [item, ...(Array.isArray(item.submenu) ? all(item.submenu) : [])])
const click = (item: Item | undefined) => (item!.click as () => void)()

test.each(['linux', 'win32', 'darwin'] as const)(
  'on %s every command is there once, worded as in the window',
  (platform) => {
    const told: string[] = []
    const items = all(menuTemplate(port(platform, { command: (name) => told.push(name) })))
    const commands = items.filter((item) => item.id !== undefined && isCommand(item.id))
    expect(commands.map((item) => item.id).sort()).toEqual(Object.keys(COMMANDS).sort())
    for (const item of commands) {
      expect(item.label).toBe(COMMANDS[item.id as keyof typeof COMMANDS].label)
      // The page hears the key; the menu would run it a second time.
      if (item.accelerator) expect(item.registerAccelerator).toBe(false)
      click(item)
    }
    expect(told).toEqual(commands.map((item) => item.id))
  },
)

test('keys are written as the system writes them; keys of the plate alone are not in the menu', () => {
  expect(acceleratorOf(['Ctrl+Shift+s'])).toBe('CommandOrControl+Shift+S')
  expect(acceleratorOf(['Ctrl+y', 'Ctrl+Shift+z'])).toBe('CommandOrControl+Y')
  expect(acceleratorOf(['F1', '?'])).toBe('F1')
  expect(acceleratorOf(['0', 'f'])).toBeNull()
  expect(acceleratorOf([])).toBeNull()
})

test('nothing in it loads the page anew, and only a developer gets the tools', () => {
  for (const platform of ['linux', 'win32', 'darwin'] as const) {
    const roles = all(menuTemplate(port(platform))).map((item) => item.role)
    expect(roles).not.toContain('reload')
    expect(roles).not.toContain('forceReload')
    expect(roles).not.toContain('toggleDevTools')
    expect(roles).not.toContain('viewMenu')
    expect(roles).toEqual(
      expect.arrayContaining(['cut', 'copy', 'paste', 'selectAll', 'zoomIn', 'resetZoom']),
    )
    expect(all(menuTemplate(port(platform, { developing: true }))).map((i) => i.role)).toContain(
      'toggleDevTools',
    )
  }
})

test('a Mac has its own first menu with the about box and quitting; elsewhere they are under Help and File', () => {
  const holds = (menu: Item | undefined) => all([menu!]).map((i) => i.id ?? i.role)
  const mac = menuTemplate(port('darwin'))
  expect(mac[0]!.role).toBe('appMenu')
  expect(holds(mac[0])).toEqual(expect.arrayContaining(['about', 'services', 'hide', 'quit']))
  const other = menuTemplate(port('linux'))
  expect(other[0]!.label).toBe('File')
  expect(holds(other[0])).toContain('quit')
  expect(holds(other.at(-1))).toContain('about')
})

const menuOf = (electron: { state: { menu: unknown } }) => all(electron.state.menu as Item[])

test('a menu item reaches the page as a command once the page listens', async () => {
  const { electron } = await startDesktop()
  const shell = electron.state.exposed['shell'] as Shell
  const heard: ShellEvent[] = []
  const planner = () => click(menuOf(electron).find((item) => item.id === 'planner'))
  planner()
  const stop = shell.subscribe((event) => void heard.push(event))
  await vi.waitFor(() => expect(electron.state.listeners.get('evenswing:event')?.size).toBe(1))
  await new Promise((done) => setImmediate(done))
  // What was clicked before there was a page to do it is not done later by surprise.
  expect(heard).toEqual([])
  planner()
  expect(heard).toEqual([{ kind: 'command', name: 'planner' }])
  stop()
  planner()
  expect(heard).toHaveLength(1)
})

test('menus stay alive when the page was kept from leaving', async () => {
  const { electron } = await startDesktop()
  const heard: ShellEvent[] = []
  ;(electron.state.exposed['shell'] as Shell).subscribe((event) => void heard.push(event))
  await new Promise((done) => setImmediate(done))
  const contents = electron.state.windows[0]!.webContents
  // The order in which Electron tells of a page that tries to leave.
  let isStopped = false
  contents.emit('did-start-loading')
  contents.emit('did-start-navigation')
  contents.emit('will-navigate', { url: 'https://evil.invalid/', preventDefault: () => (isStopped = true) })
  contents.emit('did-fail-load')
  contents.emit('did-stop-loading')
  expect(isStopped).toBe(true)
  click(menuOf(electron).find((item) => item.id === 'planner'))
  expect(heard).toEqual([{ kind: 'command', name: 'planner' }])
  // A page that took its place listens when it says so.
  contents.emit('did-navigate')
  click(menuOf(electron).find((item) => item.id === 'planner'))
  expect(heard).toHaveLength(1)
})

test('jobs opened and saved are in the menu and in the system list, newest first, until they are forgotten', async () => {
  const { electron, host, jobFolder } = await startDesktop()
  const recent = () => {
    const menu = menuOf(electron).find((item) => item.label === 'Recent jobs')!
    return (menu.submenu as Item[]).filter((item) => item.sublabel === jobFolder)
  }
  mkdirSync(jobFolder, { recursive: true })
  for (const name of ['one & two', 'three']) {
    const file = await host.bookFile(name)
    if (!file.ok) throw new Error(file.fault.message)
    expect((await host.writeJob(file.value, jobText(name), null)).ok).toBe(true)
    await vi.waitFor(() => expect(recent()[0]?.label).toContain(name.slice(0, 3)))
  }
  expect(recent().map((item) => item.label)).toEqual(['three.evenswing', 'one && two.evenswing'])
  expect(electron.state.recentDocuments).toEqual(
    ['one & two', 'three'].map((name) => join(jobFolder, `${name}.evenswing`)),
  )

  const heard: ShellEvent[] = []
  ;(electron.state.exposed['shell'] as Shell).subscribe((event) => void heard.push(event))
  await new Promise((done) => setImmediate(done))
  click(recent()[1])
  expect(heard).toMatchObject([{ kind: 'open', file: { name: 'one & two.evenswing' } }])

  click(menuOf(electron).find((item) => item.label === 'Forget these'))
  await vi.waitFor(() => expect(recent()).toEqual([]))
  expect(electron.state.recentDocuments).toEqual([])
})

test('the log is there before it is shown in its folder', async () => {
  const { electron } = await startDesktop()
  expect(existsSync(join(electron.state.userData, 'logs'))).toBe(false)
  click(menuOf(electron).find((item) => item.label === 'Show the log'))
  await vi.waitFor(() =>
    expect(electron.state.shownInFolder).toEqual([
      { path: join(electron.state.userData, 'logs', 'evenswing.log'), isThere: true },
    ]),
  )
})
