/** What `npm start` decides: build or not, window or browser. */
import { spawn } from 'node:child_process'
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test, vi } from 'vitest'
import { isBuildDue } from '../../src-main/start/build.ts'
import { electronRuntime, hasDisplay } from '../../src-main/start/electronRuntime.ts'
import { openBrowser } from '../../src-main/start/browser.ts'
import { ask, environmentWithout, ROOT, scratchFolder } from './helpers.ts'
import { sessionIn } from './shells.ts'

const BUILT = ['out/main/index.js', 'out/preload/index.cjs', 'out/renderer/index.html']
const SOURCES = ['src-core/a/deep.ts', 'src-main/index.ts', 'src-renderer/App.svelte', 'package-lock.json']

function put(root: string, path: string, seconds: number): void {
  const full = join(root, path)
  mkdirSync(dirname(full), { recursive: true })
  writeFileSync(full, '')
  utimesSync(full, seconds, seconds)
  for (let folder = dirname(full); folder !== root; folder = dirname(folder))
    utimesSync(folder, seconds, seconds)
}

test('a build is due when anything built is missing, or older than anything it is built from', () => {
  const root = scratchFolder()
  for (const path of SOURCES) put(root, path, 1000)
  expect(isBuildDue(root)).toBe(true)
  for (const path of BUILT) put(root, path, 2000)
  expect(isBuildDue(root)).toBe(false)
  for (const path of SOURCES) {
    put(root, path, 3000)
    expect(isBuildDue(root), path).toBe(true)
    put(root, path, 1000)
    expect(isBuildDue(root)).toBe(false)
  }
  put(root, BUILT[1]!, 500)
  expect(isBuildDue(root)).toBe(true)
})

test("Electron's runtime is found where the package puts it, and nothing is fetched to find out", () => {
  const root = scratchFolder()
  expect(electronRuntime(root, {})).toBeNull()
  put(root, 'node_modules/electron/path.txt', 1)
  writeFileSync(join(root, 'node_modules/electron/path.txt'), 'electron')
  expect(electronRuntime(root, {})).toBeNull()
  put(root, 'node_modules/electron/dist/electron', 1)
  expect(electronRuntime(root, {})).toBe(join(root, 'node_modules/electron/dist/electron'))
  put(root, 'elsewhere/electron', 1)
  expect(electronRuntime(root, { ELECTRON_OVERRIDE_DIST_PATH: join(root, 'elsewhere') })).toBe(
    join(root, 'elsewhere/electron'),
  )
})

test('a display is looked for where there may be none', () => {
  expect(hasDisplay('linux', {})).toBe(false)
  expect(hasDisplay('linux', { DISPLAY: ':0' })).toBe(true)
  expect(hasDisplay('linux', { WAYLAND_DISPLAY: 'wayland-0' })).toBe(true)
  expect(hasDisplay('darwin', {})).toBe(true)
  expect(hasDisplay('win32', {})).toBe(true)
})

test('npm start without a display prints one address, serves the page there, and ends on Ctrl-C', async () => {
  if (!existsSync(join(ROOT, 'out/renderer/index.html')))
    throw new Error('out/renderer is missing: run "npm run build" before the tests')
  const child = spawn(process.execPath, [join(ROOT, 'scripts/start.mjs')], {
    env: { ...environmentWithout('DISPLAY', 'WAYLAND_DISPLAY'), EVENSWING_JOBS: scratchFolder() },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let out = ''
  let err = ''
  child.stdout.on('data', (text: Buffer) => (out += text.toString()))
  child.stderr.on('data', (text: Buffer) => (err += text.toString()))
  const ended = new Promise<number | null>((done) => child.once('exit', (code) => done(code)))
  try {
    await expect.poll(() => out + err, { timeout: 90_000 }).toMatch(/http:\/\/127\.0\.0\.1:\d+\/\?token=/)
    const address = new URL(/http:\S+/.exec(out)![0])
    const first = await ask(address.origin, { path: address.pathname + address.search })
    const session = sessionIn(first)
    const { cookie } = session
    const page = await ask(address.origin, { path: '/', headers: { cookie } })
    expect(page.status).toBe(200)
    expect(page.text).toContain('<script')
    const info = await ask(address.origin, {
      method: 'POST',
      path: '/rpc/info',
      headers: { ...session, origin: address.origin, 'content-type': 'application/json' },
      body: '{"args":[]}',
    })
    expect(JSON.parse(info.text)).toMatchObject({
      ok: true,
      value: { shell: 'browser', systemDialogs: false },
    })
    child.kill('SIGINT')
    expect(await ended).toBe(0)
    expect(err).toBe('')
  } finally {
    child.kill('SIGKILL')
  }
})

test.skipIf(process.platform === 'win32')(
  'the one-time address is in no program’s arguments, only in a file of this user’s own',
  async () => {
    const folder = scratchFolder()
    const seen = join(folder, 'arguments')
    writeFileSync(join(folder, 'chromium'), `#!/bin/sh\necho "$@" > ${seen}\n`, { mode: 0o755 })
    vi.stubEnv('PATH', folder)
    try {
      const { isOpen, forget } = await openBrowser(
        'http://127.0.0.1:7/?token=secret',
        'linux',
        join(folder, 'own'),
      )
      expect(isOpen).toBe(true)
      const given = readFileSync(seen, 'utf8').trim()
      expect(given).not.toContain('secret')
      const file = fileURLToPath(given.replace('--app=', ''))
      expect(readFileSync(file, 'utf8')).toContain('url=http://127.0.0.1:7/?token=secret')
      expect(statSync(file).mode & 0o777).toBe(0o600)
      await forget()
      expect(readdirSync(join(folder, 'own'))).toEqual([])
    } finally {
      vi.unstubAllEnvs()
    }
  },
)
