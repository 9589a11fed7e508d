/**
 * As much of the `electron` module as the program's main side and its preload use, recording what they set. What
 * crosses between page and main is copied by the structured clone algorithm, as in the real one.
 */
import { fork } from 'node:child_process'
import { EventEmitter } from 'node:events'
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

type Handler = (event: unknown, ...args: unknown[]) => unknown

export interface FakeFrame {
  url: string
  parent: FakeFrame | null
}

const fresh = () => ({
  handlers: new Map<string, Handler>(),
  schemes: [] as unknown[],
  protocols: new Map<string, (request: Request) => Promise<Response>>(),
  exposed: {} as Record<string, unknown>,
  windows: [] as BrowserWindow[],
  /** What the next dialogs answer; null cancels. */
  dialogPath: null as string | null,
  dialogsShown: [] as { kind: string; options: { defaultPath?: string } }[],
  messageChoice: 0,
  permissionRequest: null as null | ((c: unknown, p: string, answer: (yes: boolean) => void) => void),
  permissionCheck: null as null | ((c: unknown, p: string) => boolean),
  devicePermission: null as null | (() => boolean),
  displayMedia: null as null | ((request: unknown, answer: (streams: unknown) => void) => void),
  sandboxed: false,
  /** Switches of the command line. */
  switches: [] as string[],
  paths: {} as Record<string, string>,
  single: true,
  displays: [{ workArea: { x: 0, y: 0, width: 1920, height: 1040 } }],
  /** Listeners of the preload, by channel. */
  listeners: new Map<string, Set<(event: unknown, ...args: unknown[]) => void>>(),
  recentDocuments: [] as string[],
  messages: [] as { message: string; buttons: string[] }[],
  frame: { url: 'app://evenswing/index.html', parent: null } as FakeFrame,
  quits: 0,
  appPath: fileURLToPath(new URL('../..', import.meta.url)),
  menu: undefined as unknown,
  userData: '',
  shownInFolder: [] as { path: string; isThere: boolean }[],
  utilities: [] as { program: string; options: object }[],
})

export const state = fresh()

/** Back to a program that was not started yet. */
export function reset(): void {
  Object.assign(state, fresh())
  app.removeAllListeners()
  session.defaultSession.removeAllListeners()
  app.isPackaged = false
}

class App extends EventEmitter {
  isPackaged = false
  getAppPath = () => state.appPath
  getVersion = () => '0.0.0-test'
  commandLine = { hasSwitch: (name: string) => state.switches.includes(name) }
  getPath(name: string): string {
    const path = state.paths[name]
    if (path === undefined) throw new Error(`Failed to get '${name}' path`)
    return path
  }
  setPath(name: string, path: string): void {
    if (!existsSync(path)) throw new Error(`there is no ${path}`)
    state.paths[name] = path
  }
  whenReady = () => Promise.resolve()
  requestSingleInstanceLock = () => state.single
  enableSandbox = () => void (state.sandboxed = true)
  addRecentDocument = (path: string) => void state.recentDocuments.push(path)
  clearRecentDocuments = () => void (state.recentDocuments = [])
  quit = () => void state.quits++
  exit = () => void state.quits++
}
export const app = new App()

export class WebContents extends EventEmitter {
  crashes = 0
  forcefullyCrashRenderer = () => void this.crashes++
  send(channel: string, ...args: unknown[]): void {
    for (const hear of state.listeners.get(channel) ?? []) hear({ sender: this }, ...structuredClone(args))
  }
  openHandler: null | ((details: { url: string }) => { action: string }) = null
  setWindowOpenHandler(handler: (details: { url: string }) => { action: string }): void {
    this.openHandler = handler
  }
}

export class BrowserWindow extends EventEmitter {
  static getAllWindows = () => state.windows
  static getFocusedWindow = () => state.windows[0] ?? null
  readonly webContents = new WebContents()
  readonly options: Record<string, unknown> & { webPreferences: Record<string, unknown> }
  loaded: string | null = null

  constructor(options: Record<string, unknown> & { webPreferences: Record<string, unknown> }) {
    super()
    this.options = options
    state.windows.push(this)
    app.emit('web-contents-created', {}, this.webContents)
  }

  async loadURL(url: string): Promise<void> {
    this.loaded = url
    this.loads++
    this.webContents.emit('did-start-loading')
    this.webContents.emit('did-navigate')
    this.emit('ready-to-show')
  }

  shown = 0
  focused = 0
  maximized = false
  minimized = false
  loads = 0
  show = () => void this.shown++
  focus = () => void this.focused++
  restore = () => void (this.minimized = false)
  maximize = () => void (this.maximized = true)
  isMinimized = () => this.minimized
  isMaximized = () => this.maximized
  getNormalBounds = () => this.bounds
  bounds = { x: 10, y: 20, width: 1000, height: 700 }
}

export const ipcMain = {
  handle: (channel: string, handler: Handler) => {
    if (state.handlers.has(channel)) throw new Error(`a second handler for ${channel}`)
    state.handlers.set(channel, handler)
  },
}

export const ipcRenderer = {
  on(channel: string, hear: (event: unknown, ...args: unknown[]) => void): void {
    if (!state.listeners.has(channel)) state.listeners.set(channel, new Set())
    state.listeners.get(channel)!.add(hear)
  },
  removeListener: (channel: string, hear: (event: unknown, ...args: unknown[]) => void) =>
    void state.listeners.get(channel)?.delete(hear),
  async invoke(channel: string, ...args: unknown[]): Promise<unknown> {
    const handler = state.handlers.get(channel)
    if (!handler) throw new Error(`No handler registered for '${channel}'`)
    return structuredClone(await handler({ senderFrame: state.frame }, ...structuredClone(args)))
  },
}

export const webUtils = {
  /** As in the real one: only files that the system handed over have a path. */
  getPathForFile: (file: { systemPath?: string }) => file.systemPath ?? '',
}

export const screen = { getAllDisplays: () => state.displays }

export const contextBridge = {
  exposeInMainWorld: (name: string, value: unknown) => void (state.exposed[name] = value),
}

export const protocol = {
  registerSchemesAsPrivileged: (schemes: unknown[]) => void state.schemes.push(...schemes),
  handle: (scheme: string, handler: (request: Request) => Promise<Response>) =>
    void state.protocols.set(scheme, handler),
}

class Session extends EventEmitter {
  setPermissionRequestHandler = (h: typeof state.permissionRequest) => void (state.permissionRequest = h)
  setPermissionCheckHandler = (h: typeof state.permissionCheck) => void (state.permissionCheck = h)
  setDevicePermissionHandler = (h: typeof state.devicePermission) => void (state.devicePermission = h)
  setDisplayMediaRequestHandler = (h: typeof state.displayMedia) => void (state.displayMedia = h)
}
export const session = { defaultSession: new Session() }

const shown = (kind: string, args: unknown[]) =>
  void state.dialogsShown.push({ kind, options: args.at(-1) as { defaultPath?: string } })

export const dialog = {
  async showOpenDialog(...args: unknown[]) {
    shown('open', args)
    return {
      canceled: state.dialogPath === null,
      filePaths: state.dialogPath === null ? [] : [state.dialogPath],
    }
  },
  async showSaveDialog(...args: unknown[]) {
    shown('save', args)
    return { canceled: state.dialogPath === null, filePath: state.dialogPath ?? '' }
  },
  showMessageBoxSync: (options: { message: string; buttons: string[] }) => {
    state.messages.push(options)
    return state.messageChoice
  },
  async showMessageBox(_window: unknown, options: { message: string; buttons: string[] }) {
    state.messages.push(options)
    return { response: state.messageChoice }
  },
}

export const shell = {
  showItemInFolder: (path: string) => void state.shownInFolder.push({ path, isThere: existsSync(path) }),
}

/** A process of Node's behind the port of a utility process. */
export class UtilityProcess extends EventEmitter {
  readonly #child
  constructor(program: string) {
    super()
    const inside = fileURLToPath(new URL('./fakeUtility.mjs', import.meta.url))
    this.#child = fork(inside, [program], {
      serialization: 'advanced',
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
      execArgv: ['--import', import.meta.resolve('tsx')],
    })
    this.#child.on('message', (message) => this.emit('message', structuredClone(message)))
    this.#child.on('exit', (code) => this.emit('exit', code ?? 1))
  }
  postMessage = (message: unknown) => void this.#child.send(structuredClone(message) as object)
  kill = () => this.#child.kill()
}

export const utilityProcess = {
  fork(program: string, _args: readonly string[], options: object): UtilityProcess {
    state.utilities.push({ program, options })
    return new UtilityProcess(program)
  },
}

export const Menu = {
  setApplicationMenu: (menu: unknown) => void (state.menu = menu),
  buildFromTemplate: (template: unknown) => template,
}
