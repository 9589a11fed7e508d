/** The real window, where Electron's runtime is on the machine. */
import { readdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { _electron } from 'playwright-core'
import { expect, test } from 'vitest'
import { electronRuntime, hasDisplay } from '../../src-main/start/electronRuntime.ts'
import type { Host } from '../../src-core/bridge/contract.ts'
import { VERBS } from '../../src-core/bridge/verbs.ts'
import { writeSvg } from '../../src-core/drawing/writers/writeSvg.ts'
import { writePng } from '../../src-main/png/writePng.ts'
import { SAMPLE } from '../helpers/sampleDrawing.ts'
import { ROOT, scratchFolder } from './helpers.ts'

const { devDependencies } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
  devDependencies: Record<string, string>
}
const VERSION = devDependencies['electron']!

const runtime = electronRuntime(ROOT, process.env)
const display = hasDisplay(process.platform, process.env)
const why = runtime ? (display ? null : 'there is no display') : "Electron's runtime is not on this machine"
if (why) console.log(`The launch test of the real window is skipped: ${why}.`)

test.runIf(process.env['EVENSWING_MUST_LAUNCH'])('the real window is there to be tried', () => {
  expect(why).toBeNull()
})

test.skipIf(why !== null)(
  `opens the window, guarded, with a host that answers${why ? ` (skipped: ${why})` : ''}`,
  async () => {
    const [jobs, settings] = [scratchFolder(), scratchFolder()]
    const program = await _electron.launch({
      executablePath: runtime!,
      args: [...(process.getuid?.() === 0 ? ['--no-sandbox'] : []), ROOT],
      env: { ...(process.env as Record<string, string>), EVENSWING_JOBS: jobs, EVENSWING_SETTINGS: settings },
    })
    try {
      const page = await program.firstWindow()
      await page.waitForLoadState('load')
      const seen = await page.evaluate(async () => ({
        url: location.href,
        process: typeof (globalThis as { process?: unknown }).process,
        opened: window.open('https://evenswing.invalid/') === null,
        verbs: Object.keys((window as unknown as { host: object }).host).length,
        shell: Object.keys((window as unknown as { shell: object }).shell).sort(),
        evaluated: await Promise.resolve()
          .then(() => new Function('return 1')())
          .catch(() => 'refused'),
        fetched: await fetch('https://evenswing.invalid/').catch(() => 'refused'),
        notifications: (await navigator.permissions.query({ name: 'notifications' })).state,
        info: await (window as unknown as { host: { info(): Promise<unknown> } }).host.info(),
      }))
      expect(seen).toMatchObject({
        url: 'app://evenswing/index.html',
        process: 'undefined',
        opened: true,
        verbs: VERBS.length,
        shell: ['adoptDropped', 'subscribe'],
        evaluated: 'refused',
        fetched: 'refused',
        notifications: 'denied',
      })
      expect(seen.info).toMatchObject({
        ok: true,
        value: { shell: 'desktop', versions: { electron: VERSION } },
      })
      // A page cannot leave for another place.
      await page.evaluate(() => void (location.href = 'https://evenswing.invalid/'))
      await page.getByTestId('mass').waitFor()
      expect(page.url()).toBe('app://evenswing/index.html')
      // The menu's commands reach the page, and its about box names what it runs on.
      await program.evaluate(({ Menu }) => Menu.getApplicationMenu()!.getMenuItemById('about')!.click())
      await page.getByRole('dialog', { name: 'About Evenswing' }).getByText(VERSION).waitFor()
      // A picture comes out of the painter's process, and the book out of its reader's thread.
      const picture = join(jobs, 'picture.png')
      await program.evaluate(({ dialog }, filePath) => {
        dialog.showSaveDialog = async () => ({ canceled: false, filePath })
      }, picture)
      const asked = await page.evaluate(async (svg) => {
        const { host } = window as unknown as { host: Host }
        return [await host.exportPicture('picture', svg), await host.listBook()]
      }, writeSvg(SAMPLE))
      expect(asked).toMatchObject([{ ok: true }, { ok: true }])
      expect(readFileSync(picture).equals(Buffer.from(writePng(SAMPLE)))).toBe(true)
      expect(readdirSync(settings)).toContain('window')
      const main = await program.evaluate(({ BrowserWindow, app }) => ({
        url: BrowserWindow.getAllWindows()[0]!.webContents.getURL(),
        single: app.hasSingleInstanceLock(),
      }))
      expect(main).toEqual({ url: 'app://evenswing/index.html', single: true })
    } finally {
      await program.close()
      rmSync(jobs, { recursive: true, force: true })
    }
  },
)
