/** Unsaved work is found again, whoever has its process number by now, and is nobody else's to read. */
import { mkdirSync, readdirSync, readFileSync, statSync, utimesSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { createDrafts } from '../../src-main/services/drafts.ts'
import { writeJobFile } from '../../src-main/services/jobStore.ts'
import { machine } from '../../src-main/services/processes.ts'
import { createRecent } from '../../src-main/services/recent.ts'
import { createSettings } from '../../src-main/services/settings.ts'
import { jobText, scratchFolder } from './helpers.ts'

const asIs = async (): Promise<void> => undefined
const draft = (id: string, text = id) => ({ id, name: id, file: null, stamp: null, text })

interface Left {
  readonly process?: { readonly id: number; readonly host: string }
  readonly session?: string
  readonly path?: string
  readonly text?: string
}

/** A folder of drafts that other runs left. */
function place() {
  const userData = scratchFolder()
  const folder = join(userData, 'drafts')
  mkdirSync(folder)
  const put = (id: string, { text = id, path, ...more }: Left) =>
    writeFileSync(
      join(folder, `${id}.json`),
      JSON.stringify({
        name: id,
        path: path ?? null,
        stamp: null,
        text,
        kept: '2026-01-02T03:04:05.000Z',
        process: { id: process.ppid, host: machine() },
        ...more,
      }),
    )
  const beat = (session: string, text = '7') => writeFileSync(join(folder, `${session}.running`), text)
  const ids = async (pause = asIs) => (await createDrafts(userData, pause).left()).map((d) => d.id).sort()
  return { userData, folder, put, beat, ids }
}

test('a draft is offered whose process number belongs to another process by now, or whose machine was renamed', async () => {
  const { put, beat, ids } = place()
  put('reused', { session: 'a1' })
  beat('a1')
  put('renamed', { session: 'b2', process: { id: 7, host: 'its-name-of-before' } })
  beat('b2')
  put('neither', { session: 'c3' })
  put('older', {})
  put('olderRenamed', { process: { id: 7, host: 'its-name-of-before' } })
  expect(await ids()).toEqual(['neither', 'older', 'olderRenamed', 'renamed', 'reused'])
})

test('a draft that another run has in hand is not offered, on this machine or another', async () => {
  const { put, beat, ids } = place()
  put('here', { session: 'a1' })
  put('there', { session: 'b2', process: { id: 7, host: 'another-machine' } })
  let beats = 0
  const all = () => ['a1', 'b2'].forEach((session) => beat(session, String(++beats)))
  all()
  expect(await ids(async () => all())).toEqual([])
})

test('a run beats as long as it has a draft', async () => {
  const { userData, folder } = place()
  const drafts = createDrafts(userData)
  await drafts.keep(draft('mine'), null)
  const beats = () => readdirSync(folder).filter((n) => n.endsWith('.running'))
  expect(beats()).toHaveLength(1)
  const read = () => readFileSync(join(folder, beats()[0]!), 'utf8')
  const first = read()
  await expect.poll(read, { timeout: 100_000 }).not.toBe(first)
  expect((await drafts.left()).map((d) => d.id)).toEqual(['mine'])
  await drafts.drop('mine')
  expect(readdirSync(folder)).toEqual([])
})

test('a dead process of this machine needs no second look', async () => {
  const { put, beat, ids } = place()
  put('dead', { session: 'a1', process: { id: 2 ** 30, host: machine() } })
  beat('a1')
  expect(await ids(() => Promise.reject(new Error('it waited')))).toEqual(['dead'])
})

test('every draft is found, however many; each text is read when it is wanted', async () => {
  const { userData, put, ids } = place()
  const names = Array.from({ length: 620 }, (_, i) => `d${String(i).padStart(3, '0')}`)
  for (const name of names) put(name, {})
  expect(await ids()).toEqual(names)
  expect(await createDrafts(userData).read('d619')).toBe('d619')
  await expect(createDrafts(userData).read('none')).rejects.toMatchObject({ code: 'file.gone' })
})

test('stale ones go: what the file holds already, long damaged ones, beats of the dead', async () => {
  const { userData, folder, put, beat, ids } = place()
  const path = join(userData, 'job.evenswing.json')
  await writeJobFile(path, jobText('saved'), null)
  put('saved', { path, text: JSON.stringify(JSON.parse(jobText('saved')), null, 1) })
  put('changed', { path, text: jobText('changed') })
  put('gone', { path: join(userData, 'gone.evenswing.json'), text: jobText('gone') })
  beat('dead')
  for (const name of ['x.json.damaged-old', 'x.json.damaged-new']) writeFileSync(join(folder, name), '{')
  const yearAgo = Date.now() / 1000 - 365 * 86_400
  for (const name of ['x.json.damaged-old', 'dead.running']) utimesSync(join(folder, name), yearAgo, yearAgo)
  expect(await ids()).toEqual(['changed', 'gone'])
  const names = readdirSync(folder)
  expect(names).toContain('x.json.damaged-new')
  expect(names).not.toContain('x.json.damaged-old')
  expect(names).not.toContain('dead.running')
})

test('damaged ones are set aside; an id is no path', async () => {
  const { userData, folder, ids } = place()
  writeFileSync(join(folder, 'damaged.json'), '{')
  expect(await ids()).toEqual([])
  expect(readdirSync(folder).some((n) => n.startsWith('damaged.json.damaged-'))).toBe(true)
  for (const work of [createDrafts(userData).drop('../settings'), createDrafts(userData).read('../settings')])
    await expect(work).rejects.toMatchObject({ code: 'request.refused' })
})

test.skipIf(process.platform === 'win32')('drafts and settings are their owner’s alone to read', async () => {
  const userData = join(scratchFolder(), 'new')
  const drafts = createDrafts(userData)
  await drafts.keep(draft('mine'), null)
  const settings = createSettings({ userData, fixedBook: null, usualBook: '/b' })
  writeFileSync(join(userData, 'settings.json'), '{}', { mode: 0o644 })
  await settings.write({ theme: 'dark', person: 'A', owner: 'B' })
  await createRecent(userData).add('/x')
  const bits = (...parts: string[]) => (statSync(join(userData, ...parts)).mode & 0o777).toString(8)
  expect([bits('drafts'), bits('drafts', 'mine.json')]).toEqual(['700', '600'])
  expect([bits('settings.json'), bits('recent.json')]).toEqual(['600', '600'])
  await drafts.drop('mine')
})
