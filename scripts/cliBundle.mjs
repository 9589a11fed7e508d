// The command line's bundle: made when there is none of just these sources. `npm run evenswing` runs it.
import { createHash, randomUUID } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'

/** All that goes into a bundle; what is installed is told by npm's own list of it. */
const SOURCES = [
  'src-core',
  'src-main',
  'scripts/cliBundle.mjs',
  'package.json',
  'package-lock.json',
  'node_modules/.package-lock.json',
  'tsconfig.json',
]
const ENTRY = 'src-main/cli/main.ts'
/** ms. An older bundle may still be running, and loads parts of itself when it needs them. */
const KEPT = 3600_000

/**
 * Path of the bundle of the sources under `root` as they are now. A bundle's folder is named for the content of its
 * sources and appears whole, so neither clocks nor two commands at once can lead to a stale or a half-made one.
 * @param {string} root
 */
export async function cliBundle(root) {
  const home = join(root, 'out/cli')
  for (let attempt = 0; attempt < 3; attempt++) {
    const print = fingerprint(root)
    const folder = join(home, print)
    const file = join(folder, 'main.js')
    if (existsSync(file)) return file
    const making = join(home, `making-${randomUUID()}`)
    try {
      await make(root, making)
      if (fingerprint(root) !== print) continue
      publish(making, folder)
    } finally {
      rmSync(making, { recursive: true, force: true })
    }
    clear(home, print)
    return file
  }
  throw new Error('the sources change while they are bundled')
}

/** @param {string} root */
function fingerprint(root) {
  const hash = createHash('sha256').update(process.version)
  /** @param {string} path */
  const add = (path) => {
    const state = statSync(join(root, path), { throwIfNoEntry: false })
    hash.update(`\0${path}\0`)
    if (state?.isDirectory()) for (const name of readdirSync(join(root, path)).sort()) add(`${path}/${name}`)
    else if (state) hash.update(`${state.size}\0`).update(readFileSync(join(root, path)))
  }
  SOURCES.forEach(add)
  return hash.digest('hex').slice(0, 32)
}

/**
 * @param {string} root
 * @param {string} folder
 */
async function make(root, folder) {
  const { build } = await import('vite')
  await build({
    root,
    configFile: false,
    logLevel: 'silent',
    // The painter of PNG is machine code, which no bundle can hold.
    ssr: { noExternal: true, external: ['@resvg/resvg-js'] },
    build: {
      ssr: true,
      target: 'node20',
      outDir: folder,
      rolldownOptions: {
        input: { main: join(root, ENTRY) },
        // A run loads only the parts that its command needs.
        output: { entryFileNames: '[name].js', chunkFileNames: 'parts/[name]-[hash].js' },
      },
    },
  })
}

/**
 * @param {string} making
 * @param {string} folder
 */
function publish(making, folder) {
  try {
    renameSync(making, folder)
  } catch (error) {
    // Another command made the same bundle meanwhile.
    if (!existsSync(join(folder, 'main.js'))) throw error
  }
}

/**
 * Old bundles, and what a killed command was making.
 * @param {string} home
 * @param {string} current
 */
function clear(home, current) {
  for (const name of readdirSync(home)) {
    const path = join(home, name)
    const state = statSync(path, { throwIfNoEntry: false })
    if (name !== current && state && Date.now() - state.mtimeMs > KEPT)
      rmSync(path, { recursive: true, force: true })
  }
}
