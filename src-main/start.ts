/** `npm start`: the window where Electron's runtime is there, else the same page from the loopback host. */
import { spawn } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { homedir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { startLoopback } from './loopback/server.ts'
import { jobFolderOf } from './services/jobFolder.ts'
import { createLog } from './services/log.ts'
import { userDataFolder } from './services/userData.ts'
import { createHostServices } from './services/hostServices.ts'
import { createPainter } from './png/painter.ts'
import { openBrowser } from './start/browser.ts'
import { build, isBuildDue } from './start/build.ts'
import { electronRuntime, hasDisplay } from './start/electronRuntime.ts'
import { startPainter } from './start/painterProcess.ts'

const root = fileURLToPath(new URL('..', import.meta.url))
const say = (line: string) => void process.stdout.write(`${line}\n`)

/** Runs Electron until it is closed; false where it could not even start. */
function runElectron(program: string): Promise<boolean> {
  return new Promise((done) => {
    const begun = Date.now()
    const child = spawn(program, [root], { stdio: 'inherit' })
    const stop = () => void child.kill()
    process.on('SIGINT', stop)
    process.on('SIGTERM', stop)
    child.once('error', () => done(false))
    child.once('exit', (code, signal) => {
      process.off('SIGINT', stop)
      process.off('SIGTERM', stop)
      const failedAtOnce =
        code !== 0 && signal !== 'SIGINT' && signal !== 'SIGTERM' && Date.now() - begun < 5000
      done(!failedAtOnce)
    })
  })
}

async function runLoopback(display: boolean): Promise<void> {
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string }
  const userData = userDataFolder(process.env, process.platform, homedir())
  const log = createLog(userData)
  const host = await startLoopback({
    rendererFolder: join(root, 'out/renderer'),
    services: createHostServices({
      version,
      shell: 'browser',
      dialogs: null,
      examplesFolder: join(root, 'examples'),
      ...jobFolderOf(process.env),
      userData,
      paint: createPainter(startPainter),
    }),
    report: (error) => {
      console.error('evenswing:', error)
      log.write(error)
    },
  })
  let forget = async (): Promise<void> => undefined
  const stop = () => void Promise.all([host.close(), forget()]).then(() => process.exit(0))
  process.once('SIGINT', stop)
  process.once('SIGTERM', stop)
  const opened = display ? await openBrowser(host.newAddress(), process.platform, userData) : null
  if (opened) forget = opened.forget
  // The address works once; by then the browser has read it.
  setTimeout(() => void forget(), 60_000).unref()
  if (opened?.isOpen) say('Evenswing is open in the browser. Ctrl-C here ends it.')
  else say(`Open this address in a browser on this machine (it works once): ${host.newAddress()}`)
  if (!process.stdin.isTTY) return
  say('Enter gives a new address.')
  process.stdin.on('data', () => say(host.newAddress()))
}

async function start(): Promise<void> {
  if (isBuildDue(root)) {
    say('Building Evenswing ...')
    const fault = build(root)
    if (fault !== null) {
      process.stderr.write(`${fault}\nevenswing: the build failed\n`)
      process.exitCode = 1
      return
    }
  }
  const display = hasDisplay(process.platform, process.env)
  const electron = electronRuntime(root, process.env)
  if (electron && display && (await runElectron(electron))) return
  if (!electron)
    say(
      "Electron's runtime is not on this machine (npx install-electron fetches it); using the browser instead.",
    )
  else if (!display) say('There is no display for a window; using the browser instead.')
  else say('Electron could not start here; using the browser instead.')
  await runLoopback(display)
}

await start()
