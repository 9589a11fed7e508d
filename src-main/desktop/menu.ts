import { Menu } from 'electron'

/**
 * The page has its own commands, and the default menu's reload would throw work away. A Mac needs a menu for its
 * editing keys and for quitting; elsewhere there is none.
 */
export function setMenu(platform: NodeJS.Platform): void {
  if (platform !== 'darwin') return Menu.setApplicationMenu(null)
  Menu.setApplicationMenu(
    Menu.buildFromTemplate([{ role: 'appMenu' }, { role: 'editMenu' }, { role: 'windowMenu' }]),
  )
}
