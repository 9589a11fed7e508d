/** The command line's bundle: made anew exactly when what it is made of has changed. */
import {
  cpSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { beforeEach, expect, test } from 'vitest'
import { ROOT, runProgram, scratchFolder } from './helpers.ts'

const ENTRY = 'src-main/cli/main.ts'
const WORD = 'src-core/word.ts'
const says = (word: string) => `export const word: string = '${word}'\n`

/** A unit and an error that only the library knows, whatever a builder does to its names. */
const MATHEMATICS = /fluidounce|Too many arguments in function/

let root = ''
const put = (path: string, text: string) => writeFileSync(join(root, path), text)
const call = () => runProgram(process.execPath, [join(root, 'scripts/evenswing.mjs')])
const bundles = () => readdirSync(join(root, 'out/cli')).sort()

/** A small program beside the true scripts. */
beforeEach(() => {
  root = scratchFolder()
  for (const folder of ['src-core', 'src-main/cli', 'scripts'])
    mkdirSync(join(root, folder), { recursive: true })
  for (const name of ['evenswing.mjs', 'cliBundle.mjs'])
    cpSync(join(ROOT, 'scripts', name), join(root, 'scripts', name))
  symlinkSync(join(ROOT, 'node_modules'), join(root, 'node_modules'), 'junction')
  put('package.json', '{ "type": "module" }')
  put('package-lock.json', '{}')
  put('tsconfig.json', '{}')
  put(WORD, says('one'))
  put(
    ENTRY,
    `import { word } from '../../src-core/word.ts'\nexport const main = (root: string) => console.log(word, root)\n`,
  )
})

test('a second run takes what the first has made; a change of content is seen whatever its time says', async () => {
  const first = await call()
  expect([first.code, first.out, first.err]).toEqual([0, `one ${root}/\n`, ''])
  const made = bundles()
  expect(made).toHaveLength(1)
  expect((await call()).out).toBe(`one ${root}/\n`)
  expect(bundles()).toEqual(made)
  // As long as before, and older than the bundle.
  put(WORD, says('two'))
  utimesSync(join(root, WORD), 1000, 1000)
  expect((await call()).out).toBe(`two ${root}/\n`)
  expect(bundles()).toHaveLength(2)
  put(WORD, says('one'))
  expect((await call()).out).toBe(`one ${root}/\n`)
  expect(bundles()).toHaveLength(2)
})

test.each(['package-lock.json', 'package.json', 'tsconfig.json', 'scripts/cliBundle.mjs'])(
  'a change of %s makes a new bundle',
  async (path) => {
    await call()
    put(path, `${readFileSync(join(root, path), 'utf8')}\n`)
    expect((await call()).code).toBe(0)
    expect(bundles()).toHaveLength(2)
  },
)

test('a source that is gone or does not parse is told in one line, and what was made before is not run', async () => {
  await call()
  put(WORD, 'export const = 1\n')
  for (const spoil of [() => undefined, () => rmSync(join(root, WORD))]) {
    spoil()
    const ended = await call()
    expect([ended.code, ended.out]).toEqual([2, ''])
    expect(ended.err).toMatch(/^evenswing: the program could not be built: [^\n]*word\.ts[^\n]*\n$/)
    expect(bundles()).toHaveLength(1)
  }
})

test('commands at once make one whole bundle', async () => {
  const ended = await Promise.all([call(), call(), call()])
  for (const { code, out, err } of ended) expect([code, out, err]).toEqual([0, `one ${root}/\n`, ''])
  expect(bundles()).toHaveLength(1)
})

test('what a killed command left and bundles of long ago are cleared away when a new one is made', async () => {
  for (const name of ['making-left', 'old', 'making-now']) {
    mkdirSync(join(root, 'out/cli', name), { recursive: true })
    if (name !== 'making-now') utimesSync(join(root, 'out/cli', name), 1000, 1000)
  }
  await call()
  expect(bundles()).toHaveLength(2)
  expect(bundles()).toContain('making-now')
})

test('the program’s own bundle carries no mathematics library, which would double the time of a start', async () => {
  const asked = await runProgram(process.execPath, [
    '--input-type=module',
    '--eval',
    `import { cliBundle } from ${JSON.stringify(pathToFileURL(join(ROOT, 'scripts/cliBundle.mjs')).href)}
    console.log(await cliBundle(${JSON.stringify(ROOT)}))`,
  ])
  expect(asked.err).toBe('')
  const folder = dirname(asked.out.trim())
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.js'),
  )
  expect(files.length).toBeGreaterThan(5)
  for (const name of files) expect(readFileSync(join(folder, name), 'utf8'), name).not.toMatch(MATHEMATICS)
})
