/** Electron's runtime, if it is on this machine. The package itself is never loaded: that would start a download. */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

/** Path of Electron's program, or null. */
export function electronRuntime(root: string, env: NodeJS.ProcessEnv): string | null {
  const folder = join(root, 'node_modules/electron')
  const pathFile = join(folder, 'path.txt')
  const inside = existsSync(pathFile) ? readFileSync(pathFile, 'utf8').trim() : 'electron'
  const program = join(env['ELECTRON_OVERRIDE_DIST_PATH'] || join(folder, 'dist'), inside)
  return existsSync(program) ? program : null
}

/** Whether a window can be shown at all. */
export function hasDisplay(platform: NodeJS.Platform, env: NodeJS.ProcessEnv): boolean {
  return platform === 'darwin' || platform === 'win32' || Boolean(env['DISPLAY'] || env['WAYLAND_DISPLAY'])
}
