// Pictures of the built window, for README.md: node scripts/screenshots.mjs FOLDER (after npx electron-vite build).
import { existsSync } from 'node:fs'
import { mkdir, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { chromium } from 'playwright-core'
import { fillBook } from './bookPictures.mjs'
import { register } from 'tsx/esm/api'

register()
const { startLoopback } = await import('../src-main/loopback/server.ts')
const { createPainter } = await import('../src-main/png/painter.ts')
const { startPainter } = await import('../src-main/start/painterProcess.ts')
const { createHostServices } = await import('../src-main/services/hostServices.ts')
const { sheetPictures } = await import('./sheetPictures.mjs')

const folder = resolve(process.argv[2] ?? 'docs/pictures')
const rendererFolder = resolve('out/renderer')
if (!existsSync(join(rendererFolder, 'index.html'))) {
  console.error('Build first: npx electron-vite build')
  process.exit(1)
}

/** Each makes its own view of the example; what is not said is 1280 by 800, light. */
const PICTURES = [
  { name: 'window-light-1280' },
  { name: 'window-dark-1280', dark: true },
  { name: 'window-light-1920', width: 1920, height: 1080 },
  { name: 'window-dark-1920', width: 1920, height: 1080, dark: true },
  { name: 'clamps-light-1280', steps: openClamp },
  { name: 'drawing-light-1280', steps: openDrawing },
  { name: 'planner-light-1280', steps: openPlanner },
  { name: 'sheet-light-1280', steps: openSheet },
  { name: 'sheet-dark-1920', width: 1920, height: 1080, dark: true, steps: openSheet },
  { name: 'turning-dark-1280', dark: true, steps: turnByHand },
  { name: 'book-light-1280', steps: openBook },
  { name: 'compare-dark-1920', width: 1920, height: 1080, dark: true, steps: compareJobs },
]

async function openClamp(page) {
  await page.getByRole('button', { name: /^4 Clamps/ }).click()
  await page.getByRole('button', { name: /^c3/ }).first().click()
}
async function openDrawing(page) {
  await page.getByRole('button', { name: 'Draw the part' }).click()
  await page.getByTestId('plate').focus()
  await page.keyboard.press('.')
  await page.keyboard.press('.')
}
async function openPlanner(page) {
  await page.keyboard.press('Control+b')
  await page.getByRole('dialog').getByRole('button', { name: 'Plan', exact: true }).click()
  await page.getByRole('button', { name: 'Plan again' }).waitFor()
}
async function openSheet(page) {
  await page.keyboard.press('Control+p')
  await page.getByRole('img', { name: /^Setup sheet/ }).waitFor()
}
async function openBook(page) {
  await page.keyboard.press('Control+o')
  await page.getByText('3 jobs').waitFor()
  await page.getByRole('option').filter({ hasText: 'Crank link' }).click()
  // Where this machine keeps the pictures' jobs is nobody's business.
  await page.getByTestId('book-place').evaluate((element) => (element.textContent = ''))
}
async function compareJobs(page) {
  await openBook(page)
  await page.getByRole('button', { name: 'Compare', exact: true }).click()
  await page.getByRole('option').filter({ hasText: 'Rocker arm' }).click()
  await page.getByRole('button', { name: /^Compare with/ }).click()
  await page.getByTestId('changes').waitFor()
}
async function turnByHand(page) {
  await page.getByRole('button', { name: 'Turn by hand' }).click()
  await page.getByRole('button', { name: /^Next: part/ }).click()
}

const jobFolder = await mkdtemp(join(tmpdir(), 'evenswing-'))
await fillBook(jobFolder)
const services = createHostServices({
  userData: join(jobFolder, '.user'),
  version: '0.0.0',
  shell: 'browser',
  dialogs: null,
  examplesFolder: resolve('examples'),
  jobFolder,
  paint: createPainter(startPainter),
})
const host = await startLoopback({ rendererFolder, services, report: (error) => console.error(error) })
const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: [
    '--no-sandbox',
    '--disable-gpu',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
  ],
})
let failed = false
try {
  await mkdir(folder, { recursive: true })
  for (const path of await sheetPictures(folder)) console.log(path)
  for (const { name, width = 1280, height = 800, dark = false, steps } of PICTURES) {
    const page = await browser.newPage({
      viewport: { width, height },
      colorScheme: dark ? 'dark' : 'light',
      reducedMotion: 'reduce',
    })
    page.on('pageerror', (error) => {
      failed = true
      console.error(`${name}: ${error}`)
    })
    await page.goto(host.newAddress())
    await page.getByTestId('mass').waitFor()
    await page.getByTestId('start').waitFor()
    await page.keyboard.press('Escape')
    await page.evaluate(() => document.fonts.ready.then(() => undefined))
    await steps?.(page)
    await page.mouse.move(2, height - 2)
    await page.waitForTimeout(300)
    await page.screenshot({ path: join(folder, `${name}.png`) })
    console.log(join(folder, `${name}.png`))
    await page.close()
  }
} finally {
  await browser.close()
  await host.close()
  await rm(jobFolder, { recursive: true, force: true })
}
process.exitCode = failed ? 1 : 0
