/** The real window, where Electron's runtime is on the machine. */
import { rmSync } from 'node:fs'
import { _electron } from 'playwright-core'
import { expect, test } from 'vitest'
import { electronRuntime, hasDisplay } from '../../src-main/start/electronRuntime.ts'
import { ROOT, scratchFolder } from './helpers.ts'

const runtime = electronRuntime(ROOT, process.env)
const display = hasDisplay(process.platform, process.env)
const why = runtime ? (display ? null : 'there is no display') : "Electron's runtime is not on this machine"
if (why) console.log(`The launch test of the real window is skipped: ${why}.`)

test.skipIf(why !== null)(
  `opens the window, guarded, with a host that answers${why ? ` (skipped: ${why})` : ''}`,
  async () => {
    const jobs = scratchFolder()
    const program = await _electron.launch({
      executablePath: runtime!,
      args: [...(process.getuid?.() === 0 ? ['--no-sandbox'] : []), ROOT],
      env: { ...(process.env as Record<string, string>), EVENSWING_JOBS: jobs },
    })
    try {
      const page = await program.firstWindow()
      await page.waitForLoadState('load')
      const seen = await page.evaluate(async () => ({
        url: location.href,
        process: typeof (globalThis as { process?: unknown }).process,
        opened: window.open('https://evenswing.invalid/') === null,
        verbs: Object.keys((window as unknown as { host: object }).host).length,
        info: await (window as unknown as { host: { info(): Promise<unknown> } }).host.info(),
      }))
      expect(seen).toMatchObject({
        url: 'app://evenswing/index.html',
        process: 'undefined',
        opened: true,
        verbs: 10,
      })
      expect(seen.info).toMatchObject({ ok: true, value: { shell: 'desktop' } })
    } finally {
      await program.close()
      rmSync(jobs, { recursive: true, force: true })
    }
  },
)
