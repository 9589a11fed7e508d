// Starts the program that `npm run package` put into dist, as its user would, and asks its window. Not yet run.
import { spawn } from 'node:child_process'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { chromium } from 'playwright-core'

const INSIDE = {
  linux: 'linux-unpacked/evenswing',
  win32: 'win-unpacked/Evenswing.exe',
  darwin: 'Evenswing.app/Contents/MacOS/Evenswing',
}

/** The packaged program; a Mac's lies in a folder that is named for its processor. */
function packaged() {
  const dist = resolve('dist')
  const folders = process.platform === 'darwin' ? readdirSync(dist).filter((n) => n.startsWith('mac')) : ['.']
  const found = folders.map((f) => join(dist, f, INSIDE[process.platform])).find((p) => existsSync(p))
  if (!found) throw new Error('There is nothing packaged in dist: npm run package')
  return found
}

/** Waits for the file in which Chromium says its port. */
async function portIn(folder) {
  const file = join(folder, 'window', 'DevToolsActivePort')
  for (let i = 0; i < 120; i++, await sleep(500))
    if (existsSync(file)) return readFileSync(file, 'utf8').split('\n')[0]
  throw new Error('the window did not open within a minute')
}

const folder = await mkdtemp(join(tmpdir(), 'evenswing-packaged-'))
const program = spawn(packaged(), ['--remote-debugging-port=0'], {
  stdio: 'inherit',
  env: { ...process.env, EVENSWING_SETTINGS: join(folder, 'user'), EVENSWING_JOBS: folder },
})
try {
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${await portIn(join(folder, 'user'))}`)
  const page = browser.contexts()[0].pages()[0] ?? (await browser.contexts()[0].waitForEvent('page'))
  await page.getByTestId('mass').waitFor({ timeout: 60_000 })
  const asked = await page.evaluate(async () => [
    location.href,
    await window.host.info(),
    await window.host.listExamples(),
    await window.host.listBook(),
  ])
  console.log(JSON.stringify(asked).slice(0, 400))
  const [url, ...answers] = asked
  if (url !== 'app://evenswing/index.html' || answers.some((a) => !a.ok))
    throw new Error('the window does not answer')
} finally {
  program.kill()
  await Promise.race([new Promise((done) => program.once('exit', done)), sleep(10_000)])
  await rm(folder, { recursive: true, force: true, maxRetries: 5 })
}
