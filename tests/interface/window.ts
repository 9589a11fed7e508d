/** The built window on the real host, driven in the installed browser. */
import { existsSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { afterAll, afterEach, beforeAll, expect } from 'vitest'
import { chromium, type Browser, type Page } from 'playwright-core'
import { startLoopback, type Loopback } from '../../src-main/loopback/server.ts'
import { createPainter } from '../../src-main/png/painter.ts'
import { createHostServices } from '../../src-main/services/hostServices.ts'
import { startPainter } from '../../src-main/start/painterProcess.ts'

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

export interface Bench {
  readonly folder: string
  /** A fresh window; what it logs as an error or throws is in `errors`. */
  open(options?: {
    width?: number
    height?: number
    dark?: boolean
    still?: boolean
    contrast?: 'more' | 'no-preference'
    forcedColors?: 'active' | 'none'
    /** Device pixels to each of the page's: 2 is a screen at 200 %. */
    zoom?: number
    touch?: boolean
    /** What an earlier window left unsaved is offered; else it is taken away first. */
    recovering?: boolean
    /** Stays at what one can begin with; else the first example is on the plate. */
    atStart?: boolean
  }): Promise<Page>
  readonly errors: string[]
  /** The host's address to open once. */
  address(): string
  /** A browser window of its own, empty. */
  blank(): Promise<Page>
  close(): Promise<void>
}

export async function startBench(): Promise<Bench> {
  const rendererFolder = resolve('out/renderer')
  if (!existsSync(join(rendererFolder, 'index.html'))) throw new Error('Build first: npx electron-vite build')
  const folder = await mkdtemp(join(tmpdir(), 'evenswing-'))
  const errors: string[] = []
  const services = createHostServices({
    version: '0.0.0',
    shell: 'browser',
    dialogs: null,
    examplesFolder: resolve('examples'),
    jobFolder: folder,
    userData: join(folder, '.user'),
    paint: createPainter(startPainter),
  })
  const report = (error: unknown) => errors.push(String(error))
  const host: Loopback = await startLoopback({ rendererFolder, services, report })
  const browser: Browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: FLAGS })
  return {
    folder,
    errors,
    address: () => host.newAddress(),
    blank: async () => (await browser.newContext()).newPage(),
    async open({
      width = 1280,
      height = 800,
      dark = false,
      still = false,
      contrast = 'no-preference',
      forcedColors = 'none',
      zoom = 1,
      touch = false,
      recovering = false,
      atStart = false,
    } = {}) {
      // The page before may still be keeping a draft.
      if (!recovering)
        await rm(join(folder, '.user', 'drafts'), { recursive: true, force: true, maxRetries: 5 })
      const context = await browser.newContext({
        viewport: { width, height },
        colorScheme: dark ? 'dark' : 'light',
        reducedMotion: still ? 'reduce' : 'no-preference',
        contrast,
        forcedColors,
        deviceScaleFactor: zoom,
        hasTouch: touch,
      })
      const page = await context.newPage()
      page.on('console', (m) => m.type() === 'error' && errors.push(`${m.text()} ${m.location().url}`))
      page.on('pageerror', (e) => errors.push(String(e)))
      await page.goto(host.newAddress())
      await page.getByTestId('mass').waitFor()
      await page.locator('[data-testid=start], dialog').first().waitFor()
      if (!atStart && (await page.getByTestId('start').count()) > 0) {
        await page.keyboard.press('Escape')
        await page.getByTestId('start').waitFor({ state: 'detached' })
        await page.locator('[data-plate]:focus').waitFor()
      }
      return page
    },
    async close() {
      await browser.close()
      await host.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}

/** A bench for a file of tests: its windows are closed after each, and nothing may have been logged as an error. */
export function useBench(): { readonly open: Bench['open']; readonly folder: () => string } {
  let bench: Bench
  const pages: Page[] = []
  beforeAll(async () => {
    bench = await startBench()
  })
  afterAll(() => bench.close())
  afterEach(async () => {
    for (const page of pages.splice(0)) await page.close()
    expect(bench.errors.splice(0)).toEqual([])
  })
  return {
    folder: () => bench.folder,
    open: async (options) => {
      const page = await bench.open(options)
      pages.push(page)
      return page
    },
  }
}

/** Where a plate point is on the page while the whole plate is shown: the picture says so itself. */
export async function onPage(page: Page, x: number, y: number): Promise<{ x: number; y: number }> {
  const plate = page.getByTestId('plate')
  const box = (await plate.boundingBox())!
  const [scale, ax, ay] = (await plate.getAttribute('data-camera'))!.split(' ').map(Number) as [
    number,
    number,
    number,
  ]
  return { x: box.x + box.width / 2 + scale * (x - ax), y: box.y + box.height / 2 - scale * (y - ay) }
}

export async function dragOnPlate(page: Page, from: [number, number], to: [number, number]): Promise<void> {
  const a = await onPage(page, ...from)
  const b = await onPage(page, ...to)
  await page.mouse.move(a.x, a.y)
  await page.mouse.down()
  await page.mouse.move((a.x + b.x) / 2, (a.y + b.y) / 2, { steps: 3 })
  await page.mouse.move(b.x, b.y, { steps: 3 })
}

export const text = (page: Page, id: string) => page.getByTestId(id).innerText()
