/**
 * The packager's own work: the program is packaged on a stand-in for Electron's runtime, the archive is opened, and
 * what lies in it is started and asked. The archive is laid out as a folder of its own name, for only Electron reads
 * archives as folders; nothing of the sources or of the developers' packages lies beside it.
 */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join, relative } from 'node:path'
import { build, Platform, type AfterPackContext, type Configuration } from 'electron-builder'
import { afterAll, beforeAll, expect, onTestFinished, test, vi } from 'vitest'
import type { Host } from '../../src-core/bridge/contract.ts'
import { writeSvg } from '../../src-core/drawing/writers/writeSvg.ts'
import { writePng } from '../../src-main/png/writePng.ts'
import { SAMPLE } from '../helpers/sampleDrawing.ts'
import { loadPreload } from './builtPreload.ts'
import { jobText, ROOT } from './helpers.ts'
import { startDesktop, type FakeElectron } from './shells.ts'

vi.mock('electron', () => import('./fakeElectron.ts'))

// The packager's own libraries, found as it finds them.
const builder = createRequire(createRequire(import.meta.url).resolve('electron-builder/package.json'))
const fromBuilder = createRequire(builder.resolve('app-builder-lib/package.json'))
const asar = fromBuilder('@electron/asar') as {
  listPackage(path: string, options: { isPack: boolean }): string[]
  statFile(path: string, name: string): { unpacked?: boolean; files?: object }
  extractAll(path: string, folder: string): void
}
const { load } = builder('js-yaml') as { load: (text: string) => unknown }
const { LinuxTargetHelper } = builder('app-builder-lib/out/targets/LinuxTargetHelper.js') as {
  LinuxTargetHelper: new (packager: unknown) => {
    computeDesktopEntry(options: object, exec: string): Promise<string>
    mimeTypeFiles: Promise<string | null>
  }
}

/** What stands before the fuses in Electron's program; then a version, how many there are, and one letter for each. */
const SENTINEL = 'dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX'
const FUSES = [
  'runAsNode',
  'enableCookieEncryption',
  'enableNodeOptionsEnvironmentVariable',
  'enableNodeCliInspectArguments',
  'enableEmbeddedAsarIntegrityValidation',
  'onlyLoadAppFromAsar',
  'loadBrowserProcessSpecificV8Snapshot',
  'grantFileProtocolExtraPrivileges',
] as const

/** As much of Electron's runtime as the packager touches. */
function standIn(folder: string): string {
  const fuses = Buffer.concat([Buffer.from([1, FUSES.length]), Buffer.from('01'.repeat(4))])
  const program = Buffer.concat([Buffer.from(`#!/bin/sh\nexit 1\n${SENTINEL}`), fuses])
  mkdirSync(join(folder, 'locales'), { recursive: true })
  mkdirSync(join(folder, 'resources'))
  writeFileSync(join(folder, 'electron'), program, { mode: 0o755 })
  for (const name of ['version', 'LICENSE', 'LICENSES.chromium.html', 'locales/en-US.pak'])
    writeFileSync(join(folder, name), '')
  return folder
}

const skipped = process.platform !== 'linux'
const configuration = load(readFileSync(join(ROOT, 'electron-builder.yml'), 'utf8')) as Configuration
let place = ''
let unpacked = ''
/** What the packager writes for the system about the program and its files. */
let entry = ''
let mimeTypes = ''
const inside = () => join(unpacked, 'resources', 'app.asar')

beforeAll(async () => {
  if (skipped) return
  place = mkdtempSync(join(tmpdir(), 'evenswing-packaged-'))
  const afterPack = async ({ packager, appOutDir }: AfterPackContext) => {
    unpacked = appOutDir
    const helper = new LinuxTargetHelper(packager)
    entry = await helper.computeDesktopEntry(configuration.linux ?? {}, 'evenswing %U')
    const file = await helper.mimeTypeFiles
    mimeTypes = file === null ? '' : readFileSync(file, 'utf8')
  }
  await build({
    projectDir: ROOT,
    targets: Platform.LINUX.createTarget('dir'),
    publish: 'never',
    // Beside what stands in the configuration.
    config: {
      electronDist: standIn(join(place, 'runtime')),
      directories: { output: join(place, 'dist') },
      afterPack,
    },
  })
}, 300_000)
afterAll(() => {
  if (place !== '') rmSync(place, { recursive: true, force: true })
})

const listed = () => asar.listPackage(inside(), { isPack: false }).map((name) => name.slice(1))
const stat = (name: string) => asar.statFile(inside(), name)

test.skipIf(skipped)(
  'the archive holds the built program and its pictures, and nothing of its making',
  () => {
    const names = listed().filter((name) => !stat(name).files)
    const built = (folder: string) =>
      readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
        .filter((e) => e.isFile())
        .map((e) => relative(ROOT, join(e.parentPath, e.name)))
    const program = ['out/main', 'out/preload', 'out/renderer'].flatMap(built)
    expect(program.length).toBeGreaterThan(10)
    expect(names).toEqual(expect.arrayContaining([...program, 'package.json']))
    const others = names.filter((name) => !program.includes(name) && name !== 'package.json')
    expect(others.filter((name) => !/^node_modules\/(@resvg|dejavu-fonts-ttf)\//.test(name))).toEqual([])
    for (const wanted of [
      /import\.worker.*\.js$/,
      /planner\.worker.*\.js$/,
      /picture\.worker.*\.js$/,
      /DejaVuSans-\w+\.ttf$/,
    ])
      expect(
        names.filter((name) => name.startsWith('out/renderer/') && wanted.test(name)).length,
      ).toBeGreaterThan(0)
  },
)

test.skipIf(skipped)('machine code and what it reads lie beside the archive as plain files', () => {
  const names = listed().filter((name) => !stat(name).files)
  const plain = names.filter((name) => stat(name).unpacked)
  const machineCode = names.filter((name) => name.endsWith('.node'))
  expect(machineCode.length).toBeGreaterThan(0)
  const fonts = names.filter((name) => name.startsWith('node_modules/') && name.endsWith('.ttf'))
  expect(fonts).toHaveLength(2)
  expect(plain).toEqual(expect.arrayContaining([...machineCode, ...fonts]))
  for (const name of [...machineCode, ...fonts])
    expect(
      readFileSync(join(`${inside()}.unpacked`, name)).equals(readFileSync(join(ROOT, name))),
      name,
    ).toBe(true)
  expect(readdirSync(join(unpacked, 'resources/examples')).sort()).toEqual(
    readdirSync(join(ROOT, 'examples')).sort(),
  )
})

test.skipIf(skipped)('the runtime carries the name and the fuses of the configuration', () => {
  const program = readFileSync(join(unpacked, 'evenswing'), 'latin1')
  const wire = program.slice(program.indexOf(SENTINEL) + SENTINEL.length + 2)
  for (const [i, name] of FUSES.entries())
    expect([name, wire[i] === '1']).toEqual([name, configuration.electronFuses![name]])
})

test.skipIf(skipped)('the system is told of one kind of file, by an ending that every system knows', () => {
  expect(configuration.fileAssociations).toMatchObject([{ ext: expect.stringMatching(/^[a-z]+$/) }])
  const [{ ext, mimeType }] = configuration.fileAssociations as [{ ext: string; mimeType: string }]
  expect(mimeTypes).toContain(`<mime-type type="${mimeType}">`)
  expect([...mimeTypes.matchAll(/<glob pattern="([^"]*)"/g)].map((m) => m[1])).toEqual([`*.${ext}`])
  expect(entry).toMatch(new RegExp(`^MimeType=(.*;)?${mimeType.replace('+', '\\+')};`, 'm'))
  expect(entry).toMatch(/^Exec=.*%U/m)
  for (const example of readdirSync(join(unpacked, 'resources/examples')))
    expect(example.endsWith(`.${ext}`)).toBe(true)
})

test.skipIf(skipped)(
  'what lies in the archive starts and answers: jobs, the book, a picture, the page',
  async () => {
    const resources = join(place, 'started', 'resources')
    const root = join(resources, 'app.asar')
    asar.extractAll(inside(), root)
    // What machine code opens is found beside the archive only.
    const beside = listed().filter((name) => name.endsWith('.ttf') && stat(name).unpacked)
    for (const name of beside) {
      mkdirSync(join(`${root}.unpacked`, name, '..'), { recursive: true })
      writeFileSync(join(`${root}.unpacked`, name), readFileSync(join(`${inside()}.unpacked`, name)))
      rmSync(join(root, name))
    }
    mkdirSync(join(resources, 'examples'))
    for (const name of readdirSync(join(unpacked, 'resources/examples')))
      writeFileSync(
        join(resources, 'examples', name),
        readFileSync(join(unpacked, 'resources/examples', name)),
      )
    const before = Object.getOwnPropertyDescriptor(process, 'resourcesPath')
    Object.defineProperty(process, 'resourcesPath', { value: resources, configurable: true })
    onTestFinished(
      () =>
        void (before
          ? Object.defineProperty(process, 'resourcesPath', before)
          : Reflect.deleteProperty(process, 'resourcesPath')),
    )

    const { main } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { main: string }
    const { electron, jobFolder } = await startDesktop(async () => {
      const electron = (await import('electron')) as unknown as FakeElectron
      electron.app.isPackaged = true
      electron.state.appPath = root
      await import(/* @vite-ignore */ join(root, main))
    })
    const host: Host = loadPreload(
      electron,
      electron.state.windows[0]!.options.webPreferences['preload'] as string,
    )
    const examples = await host.listExamples()
    expect(examples.ok && examples.value.length).toBe(readdirSync(join(ROOT, 'examples')).length)
    const file = await host.bookFile('packaged')
    if (!file.ok) throw new Error(file.fault.message)
    expect(await host.writeJob(file.value, jobText('packaged'), null)).toMatchObject({ ok: true })
    await vi.waitFor(async () =>
      expect(await host.listBook()).toMatchObject({
        ok: true,
        value: { waiting: 0, entries: [{ file: { name: file.value.name } }] },
      }),
    )
    electron.state.dialogPath = join(jobFolder, 'picture.png')
    expect(await host.exportPicture('picture', writeSvg(SAMPLE))).toMatchObject({ ok: true })
    expect(readFileSync(electron.state.dialogPath).equals(Buffer.from(writePng(SAMPLE)))).toBe(true)
    const page = await electron.state.protocols.get('app')!(new Request(electron.state.windows[0]!.loaded!))
    expect([page.status, await page.text()]).toEqual([
      200,
      readFileSync(join(root, 'out/renderer/index.html'), 'utf8'),
    ])
  },
)
