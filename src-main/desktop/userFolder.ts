/** Where this user's own things lie, and the window's: the same place for the desktop and for the browser. */
import { mkdirSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { app } from 'electron'
import { userDataFolder } from '../services/userData.ts'

/**
 * Settles both folders and gives the first; throws where they cannot be made. Before the one-instance lock is asked
 * for, which lies there too: programs with settings of their own run side by side.
 */
export function settleUserFolder(env: NodeJS.ProcessEnv, platform: NodeJS.Platform): string {
  const userData = resolve(userDataFolder(env, platform, app.getPath('home')))
  // The window's caches are nothing to read or to keep.
  const sessionData = join(userData, 'window')
  mkdirSync(sessionData, { recursive: true, mode: 0o700 })
  app.setPath('userData', userData)
  app.setPath('sessionData', sessionData)
  return userData
}
