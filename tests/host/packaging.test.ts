/** What would be packaged. The packager itself cannot run where Electron's runtime cannot be fetched. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join, sep } from 'node:path'
import { Resvg } from '@resvg/resvg-js'
import { expect, test } from 'vitest'
import { programFiles } from '../../src-main/desktop/programFiles.ts'
import { asPlainFile, fontFiles } from '../../src-main/services/fonts.ts'
import { ROOT } from './helpers.ts'

interface FileSet {
  from: string
  to: string
  filter: string[]
}
interface Configuration {
  [key: string]: unknown
  files: (string | FileSet)[]
  asarUnpack: string[]
  extraResources: FileSet[]
  electronFuses: Record<string, boolean>
  fileAssociations: { ext: string }[]
  extraMetadata: { main: string }
  icon: string
}

// The packager's own reader of YAML and its own check, found as it finds them.
const builder = createRequire(createRequire(import.meta.url).resolve('electron-builder/package.json'))
const { load } = builder('js-yaml') as { load: (text: string) => unknown }
const { validateConfiguration } = builder('app-builder-lib/out/util/config/config.js') as {
  validateConfiguration: (config: unknown, log: { add: () => void; isEnabled: boolean }) => Promise<void>
}
const read = () => load(readFileSync(join(ROOT, 'electron-builder.yml'), 'utf8')) as Configuration
const check = (config: unknown) => validateConfiguration(config, { add: () => undefined, isEnabled: false })
const packageFile = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
  dependencies?: object
  devDependencies: Record<string, string>
  main: string
}

test('the configuration is one that the packager takes', async () => {
  await expect(check(read())).resolves.toBeUndefined()
  await expect(check({ ...read(), electronFuses: { runAsNode: 'maybe' } })).rejects.toThrow(
    /electronFuses|runAsNode/,
  )
  await expect(check({ ...read(), fuse: {} })).rejects.toThrow(/fuse/)
})

test('every file set names files that are there after a build', () => {
  const { files, extraResources } = read()
  const sets = [...files.filter((f) => typeof f !== 'string'), ...extraResources]
  expect(sets.length).toBeGreaterThan(2)
  for (const { from, filter } of sets) {
    expect(existsSync(join(ROOT, from)), from).toBe(true)
    for (const name of filter.filter((f) => !/[*!]/.test(f)))
      expect(existsSync(join(ROOT, from, name)), name).toBe(true)
  }
  for (const part of ['main', 'preload', 'renderer']) expect(files).toContain(`out/${part}/**`)
  for (const path of Object.values(programFiles(ROOT, null))) expect(existsSync(path), path).toBe(true)
  expect(read().extraMetadata.main).toBe(packageFile.main)
  expect(existsSync(join(ROOT, packageFile.main))).toBe(true)
})

test('what the bundle asks for by name at run time is in the package, unpacked where machine code reads it', () => {
  const main = readdirSync(join(ROOT, 'out/main'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.js'))
    .map((name) => readFileSync(join(ROOT, 'out/main', name), 'utf8'))
    .join('\n')
  const asked = [
    ...main.matchAll(/createRequire\(import\.meta\.url\)(?:\.resolve)?\(\s*["'`]([^"'`]+)/g),
  ].map((m) => m[1]!)
  const packages = asked.map((name) =>
    name
      .split('/')
      .slice(0, name.startsWith('@') ? 2 : 1)
      .join('/'),
  )
  expect(packages.sort()).toEqual(['@resvg/resvg-js', 'dejavu-fonts-ttf'])
  const { files, asarUnpack } = read()
  for (const name of packages) {
    const covers = (folder: string) => `node_modules/${name}/`.startsWith(`${folder}/`)
    expect(
      files.some((f) => typeof f !== 'string' && covers(f.to)),
      name,
    ).toBe(true)
    expect(
      asarUnpack.some((pattern) => covers(pattern.replace(/\/\*\*$/, ''))),
      name,
    ).toBe(true)
  }
  // The painter's machine code for this system is beside it.
  const scope = readdirSync(join(ROOT, 'node_modules/@resvg'))
  expect(scope.filter((name) => name !== 'resvg-js').length).toBeGreaterThan(0)
  const fontSet = files.find((f): f is FileSet => typeof f !== 'string' && f.to.endsWith('dejavu-fonts-ttf'))
  for (const path of fontFiles()) expect(fontSet!.filter.some((f) => path.endsWith(join('/', f)))).toBe(true)
})

test('no library is left for the package to install', () => {
  expect(packageFile.dependencies ?? {}).toEqual({})
})

test('a path in the archive becomes the plain file beside it; other paths stay', () => {
  const inside = ['', 'x', 'resources', 'app.asar', 'node_modules', 'a.ttf'].join(sep)
  expect(asPlainFile(inside)).toBe(
    ['', 'x', 'resources', 'app.asar.unpacked', 'node_modules', 'a.ttf'].join(sep),
  )
  expect(asPlainFile(join(ROOT, 'a.ttf'))).toBe(join(ROOT, 'a.ttf'))
  expect(programFiles('/r/app.asar', '/r')).toEqual({
    preload: join('/r/app.asar/out/preload/index.cjs'),
    renderer: join('/r/app.asar/out/renderer'),
    examples: join('/r/examples'),
  })
})

test('jobs are associated by their ending', () => {
  expect(read().fileAssociations.map((a) => a.ext)).toEqual(['evenswing'])
})

test('the fuses leave nothing to start the program as something else', () => {
  expect(read().electronFuses).toEqual({
    runAsNode: false,
    enableCookieEncryption: false,
    enableNodeOptionsEnvironmentVariable: false,
    enableNodeCliInspectArguments: false,
    enableEmbeddedAsarIntegrityValidation: true,
    onlyLoadAppFromAsar: true,
    loadBrowserProcessSpecificV8Snapshot: false,
    grantFileProtocolExtraPrivileges: false,
    resetAdHocDarwinSignature: true,
  })
  expect(read()['asar']).toBe(true)
})

test('Electron and its packager are pinned to one version each', () => {
  for (const name of ['electron', 'electron-builder', '@resvg/resvg-js'])
    expect(packageFile.devDependencies[name]).toMatch(/^\d+\.\d+\.\d+$/)
})

test('the icon is what its drawing says, large enough for every system', () => {
  const { icon } = read()
  const bytes = readFileSync(join(ROOT, icon))
  expect([bytes.readUInt32BE(16), bytes.readUInt32BE(20)]).toEqual([1024, 1024])
  const painted = new Resvg(readFileSync(join(ROOT, 'build/icon.svg'), 'utf8'), {
    fitTo: { mode: 'width', value: 1024 },
    font: { loadSystemFonts: false },
  })
  expect(painted.render().asPng().equals(bytes), 'run "npm run icon"').toBe(true)
})
