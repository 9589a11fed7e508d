/** The built main bundle and preload, as Electron would load them, answer the page's requests. */
import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { beforeAll, expect, test, vi } from 'vitest'
import { writeSvg } from '../../src-core/drawing/writers/writeSvg.ts'
import { VERBS } from '../../src-core/bridge/verbs.ts'
import { writePng } from '../../src-main/png/writePng.ts'
import { SAMPLE } from '../helpers/sampleDrawing.ts'
import { loadPreload } from './builtPreload.ts'
import { jobText, ROOT } from './helpers.ts'
import { startDesktop } from './shells.ts'

vi.mock('electron', () => import('./fakeElectron.ts'))

const MAIN = join(ROOT, 'out/main/index.js')
const READER = join(ROOT, 'out/main/bookReader.js')
const PAINTER = join(ROOT, 'out/main/painter.js')
const PRELOAD = join(ROOT, 'out/preload/index.cjs')

beforeAll(() => {
  for (const path of [MAIN, READER, PAINTER, PRELOAD])
    if (!existsSync(path)) throw new Error(`${path} is missing: run "npm run build" before the tests`)
})

/** What a bundle imports, and what the bundles beside it that it is made of import. */
function importsOf(bundle: string): string[] {
  const imports = [...readFileSync(bundle, 'utf8').matchAll(/^import\b[^'"]*['"]([^'"]+)['"]/gm)].map(
    (m) => m[1]!,
  )
  return imports.flatMap((name) => (name.startsWith('.') ? importsOf(join(dirname(bundle), name)) : [name]))
}

test('the main bundle imports nothing but Electron and Node; the reader of the book and the painter nothing but Node', () => {
  const imports = importsOf(MAIN)
  expect(imports).toContain('electron')
  expect(imports.filter((name) => name !== 'electron' && !name.startsWith('node:'))).toEqual([])
  expect(importsOf(READER)).toContain('node:worker_threads')
  for (const program of [READER, PAINTER])
    expect(importsOf(program).filter((name) => !name.startsWith('node:'))).toEqual([])
})

test('a job goes out and comes back through both bundles', async () => {
  const started = await startDesktop(() => import(/* @vite-ignore */ MAIN))
  const host = loadPreload(started.electron, PRELOAD)
  expect(Object.keys(host).sort()).toEqual([...VERBS].sort())
  expect(await host.info()).toMatchObject({ ok: true, value: { shell: 'desktop', systemDialogs: true } })
  const examples = await host.listExamples()
  expect(examples.ok && examples.value.length).toBeGreaterThan(0)
  const file = await host.bookFile('built')
  if (!file.ok) throw new Error(file.fault.message)
  const saved = await host.writeJob(file.value, jobText('built'), null)
  expect(saved.ok).toBe(true)
  expect(await host.readJob(file.value)).toMatchObject({ ok: true, value: { text: jobText('built') } })
  expect(readFileSync(join(started.jobFolder, 'built.evenswing'), 'utf8')).toBe(jobText('built'))
  // Painted by the built painter, in its own process.
  const picture = join(started.jobFolder, 'picture.png')
  started.electron.state.dialogPath = picture
  expect(await host.exportPicture('picture', writeSvg(SAMPLE))).toMatchObject({ ok: true })
  expect(readFileSync(picture).equals(Buffer.from(writePng(SAMPLE)))).toBe(true)
  expect(started.electron.state.utilities.map((u) => u.program)).toEqual([PAINTER])
  // Read by the built reader, in its own thread.
  await vi.waitFor(async () => {
    const book = await host.listBook()
    expect(book).toMatchObject({
      ok: true,
      value: { waiting: 0, entries: [{ file: { name: file.value.name } }] },
    })
  })
})

test('the built page is served on the scheme of the window', async () => {
  const { electron } = await startDesktop(() => import(/* @vite-ignore */ MAIN))
  const serve = electron.state.protocols.get('app')!
  const page = await serve(new Request(electron.state.windows[0]!.loaded!))
  expect(page.status).toBe(200)
  expect(page.headers.get('content-type')).toBe('text/html; charset=utf-8')
  const script = /<script[^>]*\ssrc="([^"]+)"/.exec(await page.text())?.[1]
  const url = new URL(script!, electron.state.windows[0]!.loaded!)
  const code = await serve(new Request(url))
  expect([code.status, code.headers.get('content-type')]).toEqual([200, 'text/javascript; charset=utf-8'])
})
