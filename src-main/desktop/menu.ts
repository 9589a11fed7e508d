/** The system's menu: the window's own commands, in the system's own order. */
import { Menu, type MenuItemConstructorOptions as Item } from 'electron'
import type { FileRef } from '../../src-core/bridge/reply.ts'
import { COMMANDS, type CommandName } from '../../src-core/bridge/commands.ts'

export interface MenuPort {
  readonly platform: NodeJS.Platform
  /** Adds what only a developer needs. */
  readonly developing: boolean
  readonly recent: readonly FileRef[]
  command(name: CommandName): void
  open(file: FileRef): void
  clearRecent(): void
  showLog(): void
}

export function setMenu(port: MenuPort): void {
  Menu.setApplicationMenu(Menu.buildFromTemplate(menuTemplate(port)))
}

/** `Ctrl+Shift+s` as a menu writes it; null for keys that only mean something on the plate. */
export function acceleratorOf(keys: readonly string[]): string | null {
  const key = keys.find((k) => k.startsWith('Ctrl+') || /^F\d+$/.test(k))
  if (key === undefined) return null
  return key.replace('Ctrl', 'CommandOrControl').replace(/\+[a-z]$/, (end) => end.toUpperCase())
}

export function menuTemplate(port: MenuPort): Item[] {
  const mac = port.platform === 'darwin'
  const item = (name: CommandName): Item => {
    const { label, keys } = COMMANDS[name]
    const accelerator = acceleratorOf(keys)
    return {
      id: name,
      label,
      click: () => port.command(name),
      // The page hears the key itself; the menu only shows it.
      ...(accelerator === null ? {} : { accelerator, registerAccelerator: false }),
    }
  }
  const line: Item = { type: 'separator' }
  const recent: Item = {
    label: 'Recent jobs',
    submenu: [
      ...port.recent.map((file) => ({
        label: file.name.replaceAll('&', '&&'),
        sublabel: file.folder,
        click: () => port.open(file),
      })),
      ...(port.recent.length > 0 ? [line] : []),
      { label: 'Forget these', enabled: port.recent.length > 0, click: () => port.clearRecent() },
    ],
  }
  const appMenu: Item = {
    role: 'appMenu',
    submenu: [
      item('about'),
      line,
      item('settings'),
      line,
      { role: 'services' },
      line,
      { role: 'hide' },
      { role: 'hideOthers' },
      { role: 'unhide' },
      line,
      { role: 'quit' },
    ],
  }
  return [
    ...(mac ? [appMenu] : []),
    {
      label: 'File',
      submenu: [
        item('new'),
        item('open'),
        recent,
        line,
        item('save'),
        item('saveAs'),
        line,
        item('import'),
        item('photograph'),
        item('sheet'),
        item('print'),
        line,
        ...(mac ? [] : [item('settings'), line]),
        mac ? { role: 'close' } : { role: 'quit' },
      ],
    },
    {
      label: 'Edit',
      submenu: [
        item('undo'),
        item('redo'),
        line,
        { role: 'cut' },
        { role: 'copy' },
        { role: 'paste' },
        { role: 'selectAll' },
      ],
    },
    {
      label: 'Job',
      submenu: [
        item('draw'),
        item('shop'),
        item('catalogue'),
        item('fourStraps'),
        item('copySetup'),
        line,
        item('planner'),
        item('turnByHand'),
        line,
        item('lathe'),
        item('repeat'),
        item('run'),
      ],
    },
    {
      label: 'View',
      submenu: [
        item('fit'),
        line,
        { role: 'zoomIn' },
        { role: 'zoomOut' },
        { role: 'resetZoom' },
        { role: 'togglefullscreen' },
        ...(port.developing ? [line, { role: 'toggleDevTools' } as Item] : []),
      ],
    },
    ...(mac ? [{ role: 'windowMenu' } as Item] : []),
    {
      role: 'help',
      label: 'Help',
      submenu: [
        item('keys'),
        { label: 'Show the log', click: () => port.showLog() },
        ...(mac ? [] : [line, item('about')]),
      ],
    },
  ]
}
