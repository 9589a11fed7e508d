/** Trouble around the job book told in clear words: read-only files, full disks, a shared library, the log. */
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { readLibraryFile, writeLibraryFile } from '../../src-main/services/book/shopLibrary.ts'
import { fileError, HostError } from '../../src-main/services/hostError.ts'
import { createLog } from '../../src-main/services/log.ts'
import { createRecent } from '../../src-main/services/recent.ts'
import { jobText, scratchFolder, wholeBook } from './helpers.ts'
import { loopbackShell } from './shells.ts'

const system = (code: string) => Object.assign(new Error(code), { code })

test.each([
  ['ENOSPC', 'file.failed', /disk is full; nothing was changed/],
  ['EDQUOT', 'file.failed', /disk is full/],
  ['EROFS', 'file.denied', /disk is read-only; save somewhere else/],
  ['EACCES', 'file.denied', /does not allow it; check the permissions/],
  ['ENAMETOOLONG', 'name.refused', /the name is too long/],
  ['ENOENT', 'file.gone', /there is no such file/],
])('%s is told as %s', (code, wanted, words) => {
  const fault = fileError(system(code), 'link.evenswing.json')
  expect(fault.code).toBe(wanted)
  expect(fault.message).toMatch(words)
  expect(fault.message).toMatch(/^link\.evenswing\.json/)
})

test('a fault ends without a full stop: it is put into sentences that have their own', () => {
  expect(new HostError('book.gone', 'It is gone. Connect its drive.').message).toBe(
    'It is gone. Connect its drive',
  )
  expect(fileError(new Error('It broke.'), 'a').message).toBe('a: It broke')
})

test('a file that nobody may write is marked read-only in the list', async () => {
  const folder = scratchFolder()
  for (const [name, mode] of [
    ['open', 0o644],
    ['closed', 0o444],
  ] as const) {
    writeFileSync(join(folder, `${name}.evenswing.json`), jobText(name))
    chmodSync(join(folder, `${name}.evenswing.json`), mode)
  }
  const files = await wholeBook(join(folder, 'user'), folder)
  expect(Object.fromEntries(files.map((f) => [f.name.split('.')[0], f.readOnly]))).toEqual({
    open: false,
    closed: true,
  })
})

test('the shop library, and a copy of it, are no jobs; a job with a mark between its endings is one', async () => {
  const folder = scratchFolder()
  await writeLibraryFile(folder, JSON.stringify({ format: 'evenswing-library' }), null)
  for (const name of [
    'shop.evenswing-library (conflicted copy).json',
    'a.evenswing.json',
    'a.evenswing (conflicted copy).json',
  ])
    writeFileSync(join(folder, name), jobText('x'))
  const files = await wholeBook(join(folder, 'user'), folder)
  expect(files.map((f) => [f.name, f.conflictOf]).sort()).toEqual([
    ['a.evenswing (conflicted copy).json', 'a.evenswing.json'],
    ['a.evenswing.json', null],
  ])
})

describe('the shop library', () => {
  const text = (name: string) => JSON.stringify({ format: 'evenswing-library', version: 1, mark: name })

  test('is none at first, comes back as it was written, and a stranger’s change is noticed', async () => {
    const folder = scratchFolder()
    expect(await readLibraryFile(folder)).toEqual({ text: null, stamp: null })
    const stamp = await writeLibraryFile(folder, text('mine'), null)
    expect(await readLibraryFile(folder)).toEqual({ text: text('mine'), stamp })
    // Someone else, who also believes that there is none yet.
    await expect(writeLibraryFile(folder, text('theirs'), null)).rejects.toMatchObject({
      code: 'file.exists',
    })
    const second = await writeLibraryFile(folder, text('second'), stamp)
    await expect(writeLibraryFile(folder, text('late'), stamp)).rejects.toMatchObject({
      code: 'file.changed',
    })
    expect(await readLibraryFile(folder)).toEqual({ text: text('second'), stamp: second })
  })

  test('takes no job, and jobs take no library', async () => {
    const folder = scratchFolder()
    await expect(writeLibraryFile(folder, jobText('x'), null)).rejects.toMatchObject({
      code: 'request.refused',
    })
    expect(existsSync(join(folder, 'shop.evenswing-library.json'))).toBe(false)
  })
})

test('the log keeps one line an event and at most two files', () => {
  const folder = scratchFolder()
  const log = createLog(folder)
  log.write(new Error('one\ntwo'))
  expect(readFileSync(log.path, 'utf8').trimEnd().split('\n')).toHaveLength(1)
  writeFileSync(log.path, 'x'.repeat(1024 * 1024 + 1))
  log.write('after')
  expect(readFileSync(log.path, 'utf8')).toMatch(/Z after\n$/)
  expect(readFileSync(`${log.path}.1`, 'utf8')).toHaveLength(1024 * 1024 + 1)
  // A folder where the log should be: nothing is thrown.
  const blocked = createLog(join(folder, 'blocked'))
  mkdirSync(blocked.path, { recursive: true })
  expect(() => blocked.write('x')).not.toThrow()
})

test('a damaged list of recent jobs is set aside and begun anew; the newest stands first, once', async () => {
  const folder = scratchFolder()
  writeFileSync(join(folder, 'recent.json'), '{')
  const recent = createRecent(folder)
  const paths = ['a', 'b'].map((name) => join(folder, name))
  for (const path of paths) writeFileSync(path, 'x')
  for (const path of [...paths, paths[0]!, join(folder, 'gone')]) await recent.add(path)
  expect(await recent.list()).toEqual([paths[0], paths[1]])
  await recent.clear()
  expect(await recent.list()).toEqual([])
})

test.each([
  ['listBook', ['x']],
  ['bookNews', [-1]],
  ['bookFile', [7]],
  ['freeBookFile', []],
  ['writeSettings', [{ theme: 'pink', person: '', owner: '' }]],
  ['writeSettings', [{ theme: 'dark', person: 'x'.repeat(201), owner: '' }]],
  ['writeSettings', [{ theme: 'dark', person: '', owner: '', bookFolder: '/' }]],
  ['readRevision', [{ id: 'x', name: 'x', folder: 'x' }, 7]],
  ['keepDraft', [{ id: '../x', name: 'x', file: null, stamp: null, text: '{}' }]],
  ['dropDraft', ['a/b']],
  ['writeLibrary', [7, null]],
  ['fileState', ['a path']],
])('%s with bad arguments is refused before a service sees it', async (verb, args) => {
  const shell = await loopbackShell()
  const reply = await shell.raw(verb, args)
  expect(reply.ok ? 'ok' : reply.fault.code).toBe('request.refused')
})
