/** The job book's services on real folders: what a listing shows, and what damage and strangers do to it. */
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test, vi } from 'vitest'
import { CURRENT_VERSION } from '../../src-core/job/parse.ts'
import { createBookPlace } from '../../src-main/services/book/bookPlace.ts'
import { createBook } from '../../src-main/services/book/listBook.ts'
import { createHostServices } from '../../src-main/services/hostServices.ts'
import { writeJobFile } from '../../src-main/services/jobStore.ts'
import { userDataFolder } from '../../src-main/services/userData.ts'
import { jobText, noPictures, ROOT, scratchFolder, wholeBook } from './helpers.ts'

const EXAMPLE = readFileSync(join(ROOT, 'examples', 'flat-link.evenswing'), 'utf8')
const titled = (title: string) => JSON.stringify({ ...(JSON.parse(EXAMPLE) as object), title })

function place() {
  const folder = scratchFolder()
  const jobs = join(folder, 'jobs')
  const userData = join(folder, 'user')
  mkdirSync(jobs)
  const put = (name: string, text: string) => writeFileSync(join(jobs, name), text)
  const services = () =>
    createHostServices({
      version: '0',
      shell: 'browser',
      dialogs: null,
      examplesFolder: join(ROOT, 'examples'),
      jobFolder: jobs,
      userData,
      paint: noPictures,
    })
  return { folder, jobs, userData, put, services, list: () => wholeBook(userData, jobs) }
}

describe('listing', () => {
  test('jobs come with their summaries, others with their fault, copies with their original', async () => {
    const { put, list } = place()
    put('link.evenswing.json', titled('Link'))
    put('link (conflicted copy 2026-11-02).evenswing.json', titled('Link'))
    put('link.sync-conflict-20261102-101112-ABC.evenswing.json', titled('Link'))
    put('link (1).evenswing.json', titled('Link'))
    put('alone (1).evenswing.json', titled('Alone'))
    put('cut.evenswing.json', '{ cut off')
    put('newer.evenswing.json', JSON.stringify({ format: 'evenswing-job', version: 99 }))
    put('notes.txt', 'x')
    const by = new Map((await list()).map((f) => [f.name, f]))
    expect(by.size).toBe(7)
    expect(by.get('link.evenswing.json')).toMatchObject({ summary: { title: 'Link' }, conflictOf: null })
    expect([...by.values()].filter((f) => f.conflictOf === 'link.evenswing.json')).toHaveLength(3)
    expect(by.get('alone (1).evenswing.json')?.conflictOf).toBeNull()
    expect(by.get('cut.evenswing.json')?.summary).toBeNull()
    expect(by.get('cut.evenswing.json')?.fault).toBeTruthy()
    const may = [...by.values()].filter((f) => f.mayOpen)
    expect(may.map((f) => f.summary !== null)).toEqual(Array(5).fill(true))
    expect(by.get('newer.evenswing.json')?.fault).toMatch(/version|newer/)
  })

  test('copies are known by either ending, their mark before it, in it or behind it', async () => {
    const { put, list } = place()
    const copies: Record<string, string | null> = {
      'link.evenswing': null,
      'link.evenswing.json': null,
      'link (1).evenswing': 'link.evenswing',
      'link (1).evenswing.json': 'link.evenswing.json',
      'link.evenswing (conflicted copy).json': 'link.evenswing',
      'link.evenswing (2)': 'link.evenswing',
      'link.sync-conflict-20261102-101112-ABC.evenswing': 'link.evenswing',
      'old.evenswing.json': null,
      'old - Copy.evenswing': 'old.evenswing.json',
    }
    for (const name of [...Object.keys(copies), 'link.evenswing.bak', 'link.evenswing~', '.evenswing'])
      put(name, titled('Link'))
    const listed = await list()
    expect(Object.fromEntries(listed.map((f) => [f.name, f.conflictOf]))).toEqual(copies)
    expect(listed.every((f) => f.summary)).toBe(true)
  })

  test('a job is read anew when its size or time changed, and only then', async () => {
    const { jobs, put, list } = place()
    const path = join(jobs, 'a.evenswing.json')
    const day = new Date('2026-01-02T03:04:05Z')
    put('a.evenswing.json', titled('One'))
    utimesSync(path, day, day)
    expect((await list())[0]?.summary?.title).toBe('One')
    put('a.evenswing.json', titled('Two'))
    utimesSync(path, day, day)
    expect((await list())[0]?.summary?.title).toBe('One')
    utimesSync(path, day, new Date('2026-01-02T03:04:06Z'))
    expect((await list())[0]?.summary?.title).toBe('Two')
  })

  test.skipIf(process.platform === 'win32')(
    'a file that cannot be looked at does not hide the others',
    async () => {
      const { jobs, put, list } = place()
      put('good.evenswing.json', titled('Good'))
      symlinkSync('loop.evenswing.json', join(jobs, 'loop.evenswing.json'))
      const [good, loop] = await list()
      expect(good?.summary?.title).toBe('Good')
      expect(loop).toMatchObject({ name: 'loop.evenswing.json', summary: null })
      expect(loop?.fault).toContain('circle')
    },
  )

  test('a damaged cache is set aside; it is kept away from the shared folder', async () => {
    const { jobs, userData, put, list } = place()
    put('a.evenswing.json', titled('One'))
    await list()
    const [cache] = readdirSync(join(userData, 'book'))
    writeFileSync(join(userData, 'book', cache!), '{ cut off')
    expect((await list())[0]?.summary?.title).toBe('One')
    expect(readdirSync(join(userData, 'book')).some((n) => n.includes('.damaged-'))).toBe(true)
    expect(readdirSync(jobs)).toEqual(['a.evenswing.json'])
  })

  test('a listing that found nothing new writes nothing', async () => {
    const { userData, put, list } = place()
    put('a.evenswing', titled('One'))
    await list()
    const [cache] = readdirSync(join(userData, 'book'))
    const written = () => statSync(join(userData, 'book', cache!)).ino
    const before = written()
    await list()
    expect(written()).toBe(before)
    put('b.evenswing', titled('Two'))
    await list()
    expect(written()).not.toBe(before)
  })

  test('what another version of the program read is read anew, and that jobs were there is still known', async () => {
    const { userData, jobs, put, list } = place()
    put('a.evenswing', titled('One'))
    await list()
    const file = join(userData, 'book', readdirSync(join(userData, 'book'))[0]!)
    const cache = JSON.parse(readFileSync(file, 'utf8')) as { form: number; disk: number; entries: object }
    expect(cache.form % 100).toBe(CURRENT_VERSION)
    const known = { summary: null, fault: 'version 3 is newer than this program knows' }
    const old = Object.fromEntries(Object.entries(cache.entries).map(([n, e]) => [n, { ...e, known }]))
    writeFileSync(file, JSON.stringify({ ...cache, form: cache.form - 1, entries: old }))
    await expect(createBookPlace(userData, null).empty(jobs, cache.disk + 1)).rejects.toMatchObject({
      code: 'book.gone',
    })
    expect((await list())[0]).toMatchObject({ summary: { title: 'One' }, fault: null })
  })

  test('a book that vanished is said to be gone; the usual one may be missing', async () => {
    const { folder, userData } = place()
    const gone = join(folder, 'gone')
    const elsewhere = createBook(userData, createBookPlace(userData, 'elsewhere'))
    await expect(elsewhere.list(gone)).rejects.toMatchObject({ code: 'book.gone' })
    expect(await wholeBook(userData, gone)).toEqual([])
  })
})

test('two people who save the same new name: one is told, neither is lost', async () => {
  const { jobs } = place()
  const path = join(jobs, 'new.evenswing.json')
  const done = await Promise.allSettled(['one', 'two'].map((who) => writeJobFile(path, jobText(who), '')))
  const refused = done.filter((d) => d.status === 'rejected')
  expect(refused.map((d) => (d.reason as { code: string }).code)).toEqual(['file.exists'])
  const winner = done[0]!.status === 'fulfilled' ? 'one' : 'two'
  expect(readFileSync(path, 'utf8')).toBe(jobText(winner))
})

test('a free name, recent jobs and earlier versions', async () => {
  const { jobs, services } = place()
  const s = services()
  const first = await s.bookFile('job')
  await s.writeJob(first, jobText('old'), null)
  await s.writeJob(first, jobText('new'), null)
  expect(first.name).toBe('job.evenswing')
  expect((await s.freeBookFile('job')).name).toBe('job-2.evenswing')
  // One of the old ending has the name as well.
  writeFileSync(join(jobs, 'job-2.evenswing.json'), jobText('before'))
  expect((await s.freeBookFile('job')).name).toBe('job-3.evenswing')
  const [revision] = await s.listRevisions(first)
  expect(await s.readRevision(first, revision!.id)).toBe(jobText('old'))
  await expect(s.readRevision(first, '../../job')).rejects.toMatchObject({ code: 'request.refused' })
  await vi.waitFor(async () =>
    expect((await services().listRecent()).map((f) => f.name)).toEqual([first.name]),
  )
  rmSync(join(jobs, first.name))
  expect(await s.listRecent()).toEqual([])
  expect(await s.fileState(first)).toEqual({ stamp: null, readOnly: false })
})

test('damaged settings are set aside and said so; what is written is read by the next start', async () => {
  const { userData, services } = place()
  mkdirSync(userData)
  writeFileSync(join(userData, 'settings.json'), '{"theme":"purple"}')
  const read = await services().readSettings()
  expect(read.settings.theme).toBe('system')
  expect(existsSync(read.setAside!)).toBe(true)
  await services().writeSettings({ theme: 'dark', person: 'A', owner: 'B' })
  const next = await services().readSettings()
  expect(next).toMatchObject({ settings: { theme: 'dark', person: 'A', owner: 'B' }, setAside: null })
})

test.each([
  [{ EVENSWING_SETTINGS: '/s' }, 'linux', '/s'],
  [{}, 'linux', '/h/.config/evenswing'],
  [{ XDG_CONFIG_HOME: '/x' }, 'linux', '/x/evenswing'],
  [{}, 'darwin', '/h/Library/Application Support/Evenswing'],
] as const)('own things with %j on %s lie in %s', (env, platform, folder) => {
  expect(userDataFolder(env, platform, '/h')).toBe(folder)
})
