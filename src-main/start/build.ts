/** Building the program when what is built is missing or older than what it is built from. */
import { spawnSync } from 'node:child_process'
import { readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'

const SOURCES = [
  'src-core',
  'src-main',
  'src-renderer',
  'electron.vite.config.ts',
  'svelte.config.js',
  'package-lock.json',
]
const BUILT = ['out/main/index.js', 'out/preload/index.cjs', 'out/renderer/index.html']

/** True where a build is due. `root` is the program's folder. */
export function isBuildDue(root: string): boolean {
  const built = BUILT.map((path) => timeOf(join(root, path)))
  if (built.includes(null)) return true
  const oldest = Math.min(...built.map(Number))
  return SOURCES.some((path) => newestUnder(join(root, path)) > oldest)
}

/** Builds; null when it went well, else what the builder said. */
export function build(root: string): string | null {
  const builder = join(root, 'node_modules/electron-vite/bin/electron-vite.js')
  const result = spawnSync(process.execPath, [builder, 'build', '--logLevel', 'warn'], {
    cwd: root,
    encoding: 'utf8',
  })
  if (result.status === 0) return null
  return (
    `${result.stdout ?? ''}${result.stderr ?? ''}${result.error?.message ?? ''}`.trim() ||
    'the builder stopped'
  )
}

function timeOf(path: string): number | null {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? null
}

function newestUnder(path: string): number {
  const state = statSync(path, { throwIfNoEntry: false })
  if (!state) return 0
  if (!state.isDirectory()) return state.mtimeMs
  // A folder's own time changes when a file in it is removed.
  return readdirSync(path).reduce(
    (newest, name) => Math.max(newest, newestUnder(join(path, name))),
    state.mtimeMs,
  )
}
