/** Saves take their turn: a held key, a slow disk or another job meanwhile accuses nobody and loses nothing. */
import { beforeEach, expect, test } from 'vitest'
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
