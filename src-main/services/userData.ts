/** Where this user's own things are kept: settings, drafts, the book's cache, the log. Never in the shared folder. */
import { join } from 'node:path'

/** `EVENSWING_SETTINGS`, or the system's usual place for a program's settings. */
export function userDataFolder(env: NodeJS.ProcessEnv, platform: NodeJS.Platform, home: string): string {
  const given = env['EVENSWING_SETTINGS']
  if (given) return given
  if (platform === 'win32') return join(env['APPDATA'] || join(home, 'AppData', 'Roaming'), 'Evenswing')
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Evenswing')
  return join(env['XDG_CONFIG_HOME'] || join(home, '.config'), 'evenswing')
}
