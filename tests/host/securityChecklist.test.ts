/**
 * Electron's security checklist, as far as it is about what the program's text must never say. What the guards do is
 * tested in `desktopSecurity.test.ts`; the fuses and the pinned version in `packaging.test.ts`.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import ts from 'typescript'
import { describe, expect, test } from 'vitest'
import { SECURITY_HEADERS } from '../../src-main/web/securityHeaders.ts'
import { ROOT } from './helpers.ts'

interface Source {
  readonly path: string
  readonly text: string
}

const sources = (folder: string, ending: RegExp): Source[] =>
  readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && ending.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => ({ path: relative(ROOT, path).replaceAll('\\', '/'), text: readFileSync(path, 'utf8') }))

/** Every name, property with its value, and text in a file's code; comments are no code. */
function words({ path, text }: Source): { names: Set<string>; properties: Set<string>; texts: string[] } {
  const found = { names: new Set<string>(), properties: new Set<string>(), texts: [] as string[] }
  const visit = (node: ts.Node): void => {
    if (ts.isIdentifier(node)) found.names.add(node.text)
    if (ts.isStringLiteralLike(node)) found.texts.push(node.text)
    if (ts.isPropertyAssignment(node))
      found.properties.add(`${node.name.getText()}: ${node.initializer.getText()}`)
    ts.forEachChild(node, visit)
  }
  visit(ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true))
  return found
}

const main = sources('src-main', /\.ts$/)
const renderer = sources('src-renderer', /\.(ts|svelte|html)$/)
const naming = (name: string) => main.filter((s) => words(s).names.has(name)).map((s) => s.path)

test('both sides are looked at, and the looking finds things', () => {
  expect(main.length).toBeGreaterThan(40)
  expect(renderer.length).toBeGreaterThan(80)
  const seen = words({ path: 'x.ts', text: 'a({ nodeIntegration: true }) // shell.openExternal' })
  expect([...seen.properties]).toEqual(['nodeIntegration: true'])
  expect(seen.names.has('openExternal')).toBe(false)
})

describe('main process', () => {
  test.each([
    'nodeIntegration: true',
    'nodeIntegrationInWorker: true',
    'nodeIntegrationInSubFrames: true',
    'contextIsolation: false',
    'sandbox: false',
    'webSecurity: false',
    'allowRunningInsecureContent: true',
    'experimentalFeatures: true',
    'webviewTag: true',
    'enableRemoteModule: true',
    'bypassCSP: true',
    'allowServiceWorkers: true',
  ])('never says %s', (property) => {
    expect(main.filter((s) => words(s).properties.has(property)).map((s) => s.path)).toEqual([])
  })

  test.each([
    'openExternal',
    'openPath',
    'executeJavaScript',
    'enableBlinkFeatures',
    'loadFile',
    'remote',
    'appendSwitch',
    'eval',
    'Function',
    'setCertificateVerifyProc',
    'ignoreCertificateErrors',
    'registerFileProtocol',
    'setAsDefaultProtocolClient',
    'WebContentsView',
    'BrowserView',
    'safeStorage',
  ])('never names %s', (name) => {
    expect(naming(name)).toEqual([])
  })

  test('one place each makes the window, hears the page, reaches into the page, loads a page and starts a process', () => {
    expect(main.filter((s) => /new BrowserWindow\(/.test(s.text)).map((s) => s.path)).toEqual([
      'src-main/desktop/window.ts',
    ])
    expect(naming('ipcMain')).toEqual(['src-main/desktop/ipc.ts'])
    expect(naming('contextBridge')).toEqual(['src-main/preload.ts'])
    expect(naming('ipcRenderer')).toEqual(['src-main/preload.ts'])
    expect(naming('loadURL')).toEqual(['src-main/desktop/start.ts'])
    // It paints, and is given nothing but drawings that were looked at.
    expect(naming('utilityProcess')).toEqual(['src-main/desktop/painterProcess.ts'])
  })

  test('no code names a page on a wire or on the disk', () => {
    const texts = main.flatMap((s) => words(s).texts)
    expect(texts.filter((t) => /^(https|file|ftp|wss?):/i.test(t))).toEqual([])
  })

  test('the program starts no other program in the window', () => {
    const starters = main.filter((s) => words(s).texts.some((t) => /^(node:)?child_process$/.test(t)))
    expect(starters.map((s) => s.path).filter((path) => !/^src-main\/start(\.ts|\/)/.test(path))).toEqual([])
  })

  test('the preload knows nothing but Electron, names and types', () => {
    const imports = [
      ...main
        .find((s) => s.path === 'src-main/preload.ts')!
        .text.matchAll(/^import (?!type)[^\n]*'([^'\n]+)'/gm),
    ]
    expect(imports.map((m) => m[1]!).sort()).toEqual([
      '../src-core/bridge/verbs.ts',
      './desktop/channels.ts',
      'electron',
    ])
  })
})

describe('page', () => {
  test.each([
    ['a webview', /<webview/i],
    ['pop-ups', /allowpopups/i],
    ['other windows', /\bwindow\.open\(/],
    ['frames', /<iframe/i],
    ['HTML from text', /\{@html|\.innerHTML\s*=|insertAdjacentHTML|document\.write/],
    ['code from text', /\beval\(|new Function\(/],
    ['things from elsewhere', /(src|href|url\()\s*=?\s*["']?https?:/i],
    ['styles in attributes, which its policy refuses', /<[a-z][^>]*\sstyle="/i],
    ['style elements of its own making, which its policy refuses', /createElement\('style'\)/],
  ])('has no %s', (_, pattern) => {
    expect(renderer.filter((s) => pattern.test(s.text)).map((s) => s.path)).toEqual([])
  })

  test('its own policy has every directive that the header has, but for frames, which only a header can say', () => {
    const inPage = /content="(default-src[^"]*)"/.exec(
      readFileSync(join(ROOT, 'src-renderer/index.html'), 'utf8'),
    )![1]!
    const directives = (policy: string) =>
      new Map(policy.split(';').map((d) => d.trim().split(/ (.*)/s) as [string, string]))
    const header = directives(SECURITY_HEADERS['content-security-policy']!)
    const page = directives(inPage)
    expect(header.get('frame-ancestors')).toBe("'none'")
    header.delete('frame-ancestors')
    // A development server puts its styles into the page.
    expect(page.get('style-src')).toBe("'self' 'unsafe-inline'")
    page.set('style-src', header.get('style-src')!)
    expect([...page]).toEqual([...header])
    for (const sources of header.values()) expect(sources).not.toMatch(/unsafe|https?:|\*/)
  })
})

test('every answer tells the browser to take it as it is and to keep it apart', () => {
  expect(SECURITY_HEADERS).toMatchObject({
    'x-content-type-options': 'nosniff',
    'x-frame-options': 'DENY',
    'referrer-policy': 'no-referrer',
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-resource-policy': 'same-origin',
    'cache-control': 'no-store',
  })
})
