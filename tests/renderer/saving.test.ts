/** Saves take their turn: a held key, a slow disk or another job meanwhile accuses nobody and loses nothing. */
import { beforeEach, expect, test, vi } from 'vitest'
import type { Host } from '../../src-core/bridge/contract.ts'
import type { FileRef, Reply } from '../../src-core/bridge/reply.ts'
import { copyText } from '../../src-renderer/state/copyOut.ts'
import { Files } from '../../src-renderer/state/files.svelte.ts'
import { JobStore } from '../../src-renderer/state/document.svelte.ts'
import { Session } from '../../src-renderer/state/session.svelte.ts'
import { exampleJob } from './example.ts'

const REF: FileRef = { id: 'f', name: 'link.evenswing.json', folder: '/jobs' }
/** What is on the disk: each write takes a while, and is refused where the stamp is not the one there. */
let disk: { stamp: string; text: string; writes: number }
const later = <T>(value: T) => new Promise<T>((done) => setTimeout(() => done(value), 5))
const changed: Reply<never> = { ok: false, fault: { code: 'file.changed', message: 'changed' } }
const host = {
  writeJob: async (file: FileRef, text: string, stamp: string | null) => {
    if (stamp !== null && stamp !== disk.stamp) return later(changed)
    disk = { stamp: `${disk.writes + 1}`, text, writes: disk.writes + 1 }
    return later({ ok: true, value: { file, stamp: disk.stamp } })
  },
  readJob: async (file: FileRef) => ({ ok: true, value: { file, text: disk.text, stamp: disk.stamp } }),
  bookFile: async (name: string) => ({ ok: true, value: { ...REF, id: name, name } }),
  fileState: async () => ({ ok: true, value: { stamp: disk.stamp, readOnly: false } }),
} as unknown as Host

let jobs: JobStore
let session: Session
let files: Files
beforeEach(() => {
  disk = { stamp: '0', text: '', writes: 0 }
  jobs = new JobStore(exampleJob())
  session = new Session()
  files = new Files(host, jobs, session)
  jobs.load(exampleJob(), { ref: REF, stamp: '0' })
})
const rename = (title: string) => jobs.edit('Rename', (job) => ({ ...job, title }))

test('a held key saves once and accuses nobody', async () => {
  rename('mine')
  await Promise.all([files.save(), files.save(), files.save(), files.save()])
  await files.save()
  expect([session.dialog, jobs.isDirty, disk.writes]).toEqual([null, false, 1])
})

test('what was changed while a save was on its way is saved by the next', async () => {
  rename('one')
  const first = files.save()
  await Promise.resolve()
  rename('two')
  await Promise.all([first, files.save()])
  expect([session.dialog, jobs.isDirty, disk.text.includes('"two"')]).toEqual([null, false, true])
})

test('looking at the file in the middle of a save takes one’s own writing for nobody else’s', async () => {
  rename('mine')
  await Promise.all([files.save(), files.saving.lookAtFile()])
  expect(session.notice?.text).toBe('Saved as link.evenswing.json')
})

test.each([0, 1, 2, 3, 4, 50])(
  'another job on the plate %i turns after a save was asked for never gets into its file',
  async (turns) => {
    rename('mine')
    const save = files.save()
    for (let i = 0; i < turns; i++) await Promise.resolve()
    jobs.load({ ...exampleJob(), title: 'other' }, null, true)
    await save
    expect([jobs.file, jobs.isDirty, disk.text.includes('"other"')]).toEqual([null, true, false])
  },
)

test('a conflict found while somebody fills in a dialog waits until it is closed', async () => {
  rename('mine')
  disk.stamp = 'theirs'
  const save = files.save()
  session.dialog = 'run'
  await save
  expect(session.dialog).toBe('run')
  session.dialog = null
  expect(session.dialog).toBe('conflict')
})

test('what was asked for goes on once the job is saved, and once only', async () => {
  const then = vi.fn()
  rename('mine')
  await files.saving.saveThen(then)
  expect([then.mock.calls.length, jobs.isDirty]).toEqual([1, false])
  rename('more')
  await files.save()
  expect(then).toHaveBeenCalledTimes(1)
})

test('where a name is asked for it waits for the name, and is forgotten where none is given', async () => {
  const then = vi.fn()
  jobs.load(exampleJob(), null, true)
  await files.saving.saveThen(then)
  expect([session.dialog, then.mock.calls.length]).toEqual(['save', 0])
  session.dialog = null
  files.saving.goOn()
  await files.saving.saveInBook('link', true)
  files.saving.goOn()
  expect(then).not.toHaveBeenCalled()
  rename('again')
  jobs.load(exampleJob(), null, true)
  await files.saving.saveThen(then)
  expect(await files.saving.saveInBook('other', true)).toBe(true)
  session.dialog = null
  files.saving.goOn()
  expect(then).toHaveBeenCalledTimes(1)
})

test('where somebody else changed the file it waits for what is to be done', async () => {
  const then = vi.fn()
  rename('mine')
  disk.stamp = 'theirs'
  await files.saving.saveThen(then)
  expect([session.dialog, then.mock.calls.length]).toEqual(['conflict', 0])
  await files.saving.settle('replace')
  expect([then.mock.calls.length, disk.text.includes('"mine"')]).toEqual([1, true])
})

test('theirs is taken as a step that undo takes back, and mine then saves over theirs knowingly', async () => {
  const then = vi.fn()
  rename('mine')
  disk = { ...disk, stamp: 'theirs', text: JSON.stringify({ ...exampleJob(), title: 'Theirs' }) }
  await files.saving.saveThen(then)
  await files.saving.settle('open')
  expect([jobs.job.title, jobs.isDirty, then.mock.calls.length]).toEqual(['Theirs', false, 0])
  jobs.undo()
  expect([jobs.job.title, jobs.isDirty]).toEqual(['mine', true])
  await files.save()
  expect([session.dialog, disk.text.includes('"mine"')]).toEqual([null, true])
})

test('theirs that is no job leaves mine on the plate', async () => {
  rename('mine')
  disk = { ...disk, stamp: 'theirs', text: '{' }
  await files.save()
  await files.saving.settle('open')
  expect([jobs.job.title, jobs.isDirty]).toEqual(['mine', true])
  expect(session.notice?.text).toMatch(/not a job any more/)
})

test('a copy taken out of one window is unsaved work of the same name in the next, faults and all', () => {
  const good = exampleJob()
  const faulty = { ...good, plate: { ...good.plate, bore: good.plate.diameter } }
  for (const job of [good, faulty]) {
    files.openText(copyText(job), 'link.evenswing.json')
    session.afterDiscard?.()
    expect([jobs.job.plate.bore, jobs.isDirty]).toEqual([job.plate.bore, true])
    expect(files.suggestedName('')).toBe('link')
  }
})
