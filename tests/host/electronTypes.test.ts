/** What the program and the stand-in for Electron take from Electron is there by Electron's own types, and nothing is `any`. */
import { join, relative } from 'node:path'
import type * as Electron from 'electron'
import ts from 'typescript'
import { beforeAll, expect, expectTypeOf, test } from 'vitest'
import type * as Fake from './fakeElectron.ts'
import { ROOT } from './helpers.ts'

const ENTRIES = ['src-main/index.ts', 'src-main/preload.ts', 'src-main/png/painterProgram.ts']
const OURS = /^src-main\/(desktop\/|index\.ts|preload\.ts|png\/)/

let files: readonly ts.SourceFile[]
let checker: ts.TypeChecker
let faults: readonly string[]

function look(entries: readonly string[], more?: { path: string; text: string }): void {
  const { config } = ts.readConfigFile(join(ROOT, 'tsconfig.json'), ts.sys.readFile) as { config: object }
  const { options } = ts.parseJsonConfigFileContent({ ...config, include: [], files: entries }, ts.sys, ROOT)
  options.types = ['node']
  const host = ts.createCompilerHost(options, true)
  const read = host.readFile
  host.readFile = (path) => (path === more?.path ? more.text : read(path))
  const exists = host.fileExists
  host.fileExists = (path) => path === more?.path || exists(path)
  const program = ts.createProgram(
    entries.map((e) => join(ROOT, e)),
    options,
    host,
  )
  checker = program.getTypeChecker()
  files = program.getSourceFiles().filter((f) => OURS.test(nameOf(f)))
  faults = files
    .flatMap((f) => program.getSemanticDiagnostics(f))
    .map((d) => `${nameOf(d.file!)}: ${ts.flattenDiagnosticMessageText(d.messageText, ' ')}`)
}
const nameOf = (file: ts.SourceFile) => relative(ROOT, file.fileName).replaceAll('\\', '/')

/** Places where something is `any`: written, or what a name, a call or a look-up turns out to be. */
function anys(): string[] {
  const found: string[] = []
  const visit = (node: ts.Node, file: ts.SourceFile): void => {
    const declares = ts.isVariableDeclaration(node) || ts.isParameter(node) || ts.isBindingElement(node)
    const isNamed = declares && ts.isIdentifier(node.name)
    // What is looked up in an `any` is one too, unless it is said at once what it is.
    const isTaken =
      ts.isPropertyAccessExpression(node) || (ts.isCallExpression(node) && !ts.isAsExpression(node.parent))
    if (node.kind === ts.SyntaxKind.AnyKeyword || ((isNamed || isTaken) && isAny(node))) {
      const { line } = file.getLineAndCharacterOfPosition(node.getStart())
      found.push(`${nameOf(file)}:${line + 1}: ${node.getText().slice(0, 60)}`)
    }
    ts.forEachChild(node, (child) => visit(child, file))
  }
  for (const file of files) visit(file, file)
  return found
}
const isAny = (node: ts.Node) => (checker.getTypeAtLocation(node).flags & ts.TypeFlags.Any) !== 0

beforeAll(() => look(ENTRIES), 120_000)

test('the desktop’s files agree with Electron’s own types', () => {
  expect(files.map(nameOf)).toEqual(expect.arrayContaining(['src-main/desktop/window.ts', ...ENTRIES]))
  expect(faults).toEqual([])
})

test('nothing in them is any', () => {
  expect(anys()).toEqual([])
})

test('a name that Electron lacks, and an any, would be seen', () => {
  const path = join(ROOT, 'src-main/desktop/tried.ts')
  const text = `import { app, noSuchThing } from 'electron'
    app.on('no-such-event', () => undefined)
    export const parsed = JSON.parse('1')
    export const other = noSuchThing`
  look(['src-main/desktop/tried.ts'], { path, text })
  expect(faults.map((f) => /'no\w+'|no-such-event/.exec(f)?.[0]).sort()).toEqual([
    "'noSuchThing'",
    'no-such-event',
  ])
  expect(anys().some((place) => /parsed/.test(place))).toBe(true)
})

test('the stand-in has no name that Electron lacks', () => {
  type Foreign<Ours, Theirs> = Exclude<keyof Ours, keyof Theirs>
  expectTypeOf<Foreign<typeof Fake.app, Electron.App>>().toBeNever()
  expectTypeOf<Foreign<typeof Fake.session.defaultSession, Electron.Session>>().toBeNever()
  expectTypeOf<Foreign<typeof Fake.ipcMain, Electron.IpcMain>>().toBeNever()
  expectTypeOf<Foreign<typeof Fake.ipcRenderer, Electron.IpcRenderer>>().toBeNever()
  expectTypeOf<Foreign<typeof Fake.webUtils, Electron.WebUtils>>().toBeNever()
  expectTypeOf<Foreign<typeof Fake.screen, Electron.Screen>>().toBeNever()
  expectTypeOf<Foreign<typeof Fake.contextBridge, Electron.ContextBridge>>().toBeNever()
  expectTypeOf<Foreign<typeof Fake.protocol, Electron.Protocol>>().toBeNever()
  expectTypeOf<Foreign<typeof Fake.dialog, Electron.Dialog>>().toBeNever()
  expectTypeOf<Foreign<typeof Fake.shell, Electron.Shell>>().toBeNever()
  expectTypeOf<Foreign<typeof Fake.Menu, typeof Electron.Menu>>().toBeNever()
  expectTypeOf<Foreign<typeof Fake.utilityProcess, typeof Electron.utilityProcess>>().toBeNever()
  expectTypeOf<Foreign<InstanceType<typeof Fake.UtilityProcess>, Electron.UtilityProcess>>().toBeNever()
})
