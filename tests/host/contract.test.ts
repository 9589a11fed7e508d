/** What the page may rely on, run against the desktop's main side and preload, and against the loopback host. */
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test, vi } from 'vitest'
import type { FileRef, Reply } from '../../src-core/bridge/reply.ts'
import { writeSvg } from '../../src-core/drawing/writers/writeSvg.ts'
import { writePng } from '../../src-main/png/writePng.ts'
import { SIDE_FOLDER } from '../../src-main/services/fileNames.ts'
import { jobText, scratchFolder } from './helpers.ts'
import { desktopShell, loopbackShell, type Shell } from './shells.ts'

vi.mock('electron', () => import('./fakeElectron.ts'))

function value<T>(reply: Reply<T>): T {
  if (!reply.ok) throw new Error(`${reply.fault.code}: ${reply.fault.message}`)
  return reply.value
}
const code = (reply: Reply<unknown>) => (reply.ok ? 'ok' : reply.fault.code)

async function newJob(shell: Shell, name: string): Promise<FileRef> {
  return value(await shell.host.bookFile(name))
}

describe.each([
  { name: 'desktop', start: desktopShell },
  { name: 'loopback', start: loopbackShell },
])('$name', ({ name, start }) => {
  test('says what it is', async () => {
    const { host } = await start()
    const info = value(await host.info())
    expect(info).toEqual({
      version: '0.0.0-test',
      shell: name === 'desktop' ? 'desktop' : 'browser',
      systemDialogs: name === 'desktop',
      versions: { node: process.versions.node },
    })
  })

  test('gives bundled examples by name, and no other file', async () => {
    const { host } = await start()
    const names = value(await host.listExamples())
    expect(names).toContain('flat-link')
    expect(JSON.parse(value(await host.readExample('flat-link')))).toMatchObject({ format: 'evenswing-job' })
    expect(code(await host.readExample('../package'))).toBe('file.gone')
    expect(code(await host.readExample('none'))).toBe('file.gone')
  })

  test('an empty job folder, a first save, reading it back', async () => {
    const shell = await start()
    expect(value(await shell.host.listBook())).toMatchObject({
      folder: shell.jobFolder,
      entries: [],
      waiting: 0,
    })
    const file = await newJob(shell, 'bracket')
    expect(file.name).toBe('bracket.evenswing')
    expect(code(await shell.host.readJob(file))).toBe('file.gone')
    const saved = value(await shell.host.writeJob(file, jobText('one'), null))
    const opened = value(await shell.host.readJob(file))
    expect(opened).toEqual({ file, text: jobText('one'), stamp: saved.stamp })
    expect(readFileSync(join(shell.jobFolder, 'bracket.evenswing'), 'utf8')).toBe(jobText('one'))
    const [entry, ...others] = value(await shell.host.listBook()).entries
    expect(entry?.file.name).toBe('bracket.evenswing')
    expect(Number.isNaN(Date.parse(entry?.modified ?? ''))).toBe(false)
    expect(others).toEqual([])
  })

  test('lists jobs only, newest first', async () => {
    const shell = await start()
    mkdirSync(join(shell.jobFolder, 'folder.evenswing'), { recursive: true })
    writeFileSync(join(shell.jobFolder, 'notes.txt'), 'x')
    await shell.host.writeJob(await newJob(shell, 'first'), jobText('1'), null)
    await new Promise((done) => setTimeout(done, 20))
    await shell.host.writeJob(await newJob(shell, 'second'), jobText('2'), null)
    const names = value(await shell.host.listBook()).entries.map((e) => e.file.name)
    expect(names).toEqual(['second.evenswing', 'first.evenswing'])
  })

  test('a change by another program is noticed before it is overwritten', async () => {
    const shell = await start()
    const file = await newJob(shell, 'job')
    const first = value(await shell.host.writeJob(file, jobText('mine'), null))
    const second = value(await shell.host.writeJob(file, jobText('mine too'), first.stamp))
    const path = join(shell.jobFolder, file.name)
    writeFileSync(path, jobText('theirs'))
    expect(code(await shell.host.writeJob(file, jobText('mine again'), second.stamp))).toBe('file.changed')
    expect(readFileSync(path, 'utf8')).toBe(jobText('theirs'))
    expect(code(await shell.host.writeJob(file, jobText('knowingly'), null))).toBe('ok')
    expect(readFileSync(path, 'utf8')).toBe(jobText('knowingly'))
  })

  test('a file that went away is said to be gone, not made anew in silence', async () => {
    const shell = await start()
    const file = await newJob(shell, 'job')
    expect(code(await shell.host.writeJob(file, jobText('x'), 'a stamp of before'))).toBe('file.gone')
    expect(existsSync(join(shell.jobFolder, file.name))).toBe(false)
  })

  test('earlier versions are kept beside the job, the last ten', async () => {
    const shell = await start()
    const file = await newJob(shell, 'job')
    for (let i = 0; i < 14; i++) {
      value(await shell.host.writeJob(file, jobText(`version ${i}`), null))
      await new Promise((done) => setTimeout(done, 2))
    }
    const folder = join(shell.jobFolder, SIDE_FOLDER, file.name)
    const kept = readdirSync(folder)
      .sort()
      .map((n) => JSON.parse(readFileSync(join(folder, n), 'utf8')).title as string)
    expect(kept).toEqual(Array.from({ length: 10 }, (_, i) => `version ${i + 3}`))
    expect(readdirSync(join(shell.jobFolder, SIDE_FOLDER))).toEqual([file.name])
  })

  test('a damaged file does not push a good version out', async () => {
    const shell = await start()
    const file = await newJob(shell, 'job')
    value(await shell.host.writeJob(file, jobText('good'), null))
    value(await shell.host.writeJob(file, jobText('better'), null))
    writeFileSync(join(shell.jobFolder, file.name), '{ cut off')
    value(await shell.host.writeJob(file, jobText('again'), null))
    const folder = join(shell.jobFolder, SIDE_FOLDER, file.name)
    expect(readdirSync(folder).map((n) => JSON.parse(readFileSync(join(folder, n), 'utf8')).title)).toEqual([
      'good',
    ])
  })

  test.each([
    '../x',
    '/etc/passwd',
    'a/b',
    'a\\b',
    '..',
    '.',
    '',
    ' ',
    '.hidden',
    'nul',
    'a\0b',
    'a\nb',
    'c:x',
    'x'.repeat(300),
  ])('the name %j is refused', async (bad) => {
    const { host } = await start()
    expect(code(await host.bookFile(bad))).toBe('name.refused')
  })

  test('a reference that this session did not make opens and writes nothing', async () => {
    const { host } = await start()
    const made = { id: 'x'.repeat(24), name: 'passwd', folder: '/etc' }
    expect(code(await host.readJob(made))).toBe('file.unknown')
    expect(code(await host.writeJob(made, jobText('x'), null))).toBe('file.unknown')
  })

  test('what is not a job is not saved over one', async () => {
    const shell = await start()
    const file = await newJob(shell, 'job')
    value(await shell.host.writeJob(file, jobText('good'), null))
    for (const text of ['', 'hello', '{"format":"other"}', '[]'])
      expect(code(await shell.host.writeJob(file, text, null))).toBe('request.refused')
    expect(readFileSync(join(shell.jobFolder, file.name), 'utf8')).toBe(jobText('good'))
  })

  test('a file that is no text, and a folder, are refused in words', async () => {
    const shell = await start()
    mkdirSync(join(shell.jobFolder, 'folder.evenswing'), { recursive: true })
    writeFileSync(join(shell.jobFolder, 'binary.evenswing'), Buffer.from([0x7b, 0x0a, 0xff, 0x7d]))
    expect(code(await shell.host.readJob(await newJob(shell, 'folder')))).toBe('file.notPlain')
    const reply = await shell.host.readJob(await newJob(shell, 'binary'))
    expect(reply).toMatchObject({ ok: false, fault: { code: 'file.notText' } })
    expect(reply.ok ? '' : reply.fault.message).toContain('line 2')
    expect(code(await shell.host.writeJob(await newJob(shell, 'folder'), jobText('x'), null))).toBe(
      'file.notPlain',
    )
  })

  test.skipIf(process.platform === 'win32')(
    'a link out of the book is read, and never written through',
    async () => {
      const shell = await start()
      const elsewhere = join(scratchFolder(), 'real.evenswing')
      writeFileSync(elsewhere, jobText('old'))
      mkdirSync(shell.jobFolder, { recursive: true })
      symlinkSync(elsewhere, join(shell.jobFolder, 'link.evenswing'))
      const link = await newJob(shell, 'link')
      expect(value(await shell.host.readJob(link)).text).toBe(jobText('old'))
      expect(code(await shell.host.writeJob(link, jobText('new'), null))).toBe('file.denied')
      expect(readFileSync(elsewhere, 'utf8')).toBe(jobText('old'))
    },
  )

  test('bytes are exported whole, and an export never replaces another unasked', async () => {
    const shell = await start()
    const bytes = Uint8Array.from({ length: 70_000 }, (_, i) => (i * 7) & 255)
    const paths: string[] = []
    for (const n of [1, 2]) {
      shell.choose(join(scratchFolder(), `chosen-${n}.pdf`))
      const file = value(await shell.host.exportFile('../sheet: one', 'pdf', bytes))
      expect(file).not.toBeNull()
      paths.push(join(file!.folder, file!.name))
    }
    expect(new Set(paths).size).toBe(2)
    for (const path of paths) expect(new Uint8Array(readFileSync(path))).toEqual(bytes)
  })

  test('a sheet becomes a picture, the same as the command line paints; other SVG is refused', async () => {
    const shell = await start()
    shell.choose(join(scratchFolder(), 'picture.png'))
    const drawing = { title: 't', width: 30, height: 20, primitives: [] }
    const file = value(await shell.host.exportPicture('one', writeSvg(drawing)))!
    const written = new Uint8Array(readFileSync(join(file.folder, file.name)))
    expect(file.name.endsWith('.png')).toBe(true)
    expect(written).toEqual(new Uint8Array(writePng(drawing)))
    const foreign = writeSvg(drawing).replace('</svg>', '<image href="/etc/passwd"/></svg>')
    for (const svg of ['<svg/>', foreign, writeSvg({ ...drawing, width: 1e6 })])
      expect(code(await shell.host.exportPicture('one', svg))).toBe('request.refused')
  })

  test.each([
    ['readJob', []],
    ['readJob', ['/etc/passwd']],
    ['readJob', [{ id: 7, name: 'x', folder: 'y' }]],
    ['readJob', [{ id: 'x', name: 'x', folder: 'y', path: '/etc/passwd' }]],
    ['writeJob', [{ id: 'x', name: 'x', folder: 'y' }, 5, null]],
    ['writeJob', [{ id: 'x', name: 'x', folder: 'y' }, 'text']],
    ['info', ['extra']],
    ['bookFile', [null]],
    ['exportFile', ['x', 'exe', new Uint8Array([1])]],
    ['exportFile', ['x', 'pdf', 'text']],
    ['exportFile', ['x', 'pdf', new Uint8Array()]],
  ] as [string, unknown[]][])('%s with arguments %j is refused', async (verb, args) => {
    const { raw } = await start()
    expect(code(await raw(verb, args))).toBe('request.refused')
  })

  test('dialogs: what is chosen can be used, cancelling gives null, and without dialogs they are refused', async () => {
    const shell = await start()
    const folder = scratchFolder()
    writeFileSync(join(folder, 'mine.evenswing'), jobText('mine'))
    shell.choose(join(folder, 'mine.evenswing'))
    const opened = await shell.host.chooseOpen()
    if (name === 'loopback') {
      expect(code(opened)).toBe('request.refused')
      expect(code(await shell.host.chooseSave('x'))).toBe('request.refused')
      return
    }
    expect(value(await shell.host.readJob(value(opened)!)).text).toBe(jobText('mine'))
    shell.choose(join(folder, 'new'))
    const target = value(await shell.host.chooseSave('new'))!
    expect(target.name).toBe('new.evenswing')
    value(await shell.host.writeJob(target, jobText('new'), null))
    // The dialog asked about "new" only, so the longer name that is taken now is not replaced in silence.
    expect(code(await shell.host.chooseSave('new'))).toBe('name.refused')
    shell.choose(null)
    expect(value(await shell.host.chooseOpen())).toBeNull()
    expect(value(await shell.host.chooseSave('x'))).toBeNull()
    expect(value(await shell.host.exportFile('x', 'svg', new Uint8Array([60])))).toBeNull()
  })
})
