/** Drafts: when they are kept and dropped, and that none is given up before another stands. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Draft, KeptDraft } from '../../src-core/bridge/bookContract.ts'
import type { Host } from '../../src-core/bridge/contract.ts'
import type { Reply } from '../../src-core/bridge/reply.ts'
import { Autosave } from '../../src-renderer/state/autosave.svelte.ts'
import { Files } from '../../src-renderer/state/files.svelte.ts'
import { JobStore } from '../../src-renderer/state/document.svelte.ts'
import { Session } from '../../src-renderer/state/session.svelte.ts'
import { exampleJob } from './example.ts'

const drafts = new Map<string, Draft>()
let isFull = false
const host = {
  keepDraft: async (draft: Draft): Promise<Reply<null>> => {
    if (isFull) return { ok: false, fault: { code: 'file.full', message: 'the disk is full' } }
    drafts.set(draft.id, draft)
    return { ok: true, value: null }
  },
  readDraft: async (id: string): Promise<Reply<string>> => ({ ok: true, value: drafts.get(id)!.text }),
  dropDraft: async (id: string): Promise<Reply<null>> => {
    drafts.delete(id)
    return { ok: true, value: null }
  },
} as unknown as Host

let jobs: JobStore
let session: Session
let autosave: Autosave
const left: KeptDraft = {
  id: 'gone',
  name: 'Link',
  file: null,
  stamp: null,
  kept: '2026-01-01T00:00:00Z',
}
const leftText = JSON.stringify({ ...exampleJob(), title: 'From the draft' })
beforeEach(() => {
  vi.useFakeTimers()
  drafts.clear()
  isFull = false
  jobs = new JobStore(exampleJob())
  session = new Session()
  autosave = new Autosave(host, jobs, session, new Files(host, jobs, session))
  drafts.set(left.id, { ...left, text: leftText })
})
afterEach(() => {
  vi.useRealTimers()
})
const rename = (title: string) => {
  jobs.edit('Rename', (job) => ({ ...job, title }))
  autosave.note(jobs.isDirty)
}
const own = () => [...drafts.values()].filter((d) => d.id !== left.id).map((d) => d.name)

test('a change is a draft within five seconds, however steadily one goes on changing', async () => {
  for (let second = 0; second < 5; second++) {
    rename(`after ${second}`)
    await vi.advanceTimersByTimeAsync(990)
  }
  expect(own()).toHaveLength(1)
  await vi.advanceTimersByTimeAsync(5000)
  expect(own()).toEqual(['after 4'])
})

test('saved: the draft goes, and one that was only due never comes', async () => {
  rename('one')
  await vi.advanceTimersByTimeAsync(5000)
  expect(own()).toEqual(['one'])
  rename('two')
  jobs.markSaved(jobs.job, { ref: { id: 'f', name: 'f', folder: '' }, stamp: 's' })
  autosave.note(jobs.isDirty)
  await vi.advanceTimersByTimeAsync(10_000)
  expect(own()).toEqual([])
})

test('a recovered draft is given up once it stands in this window’s own', async () => {
  void autosave.recover(left)
  await vi.advanceTimersByTimeAsync(0)
  expect(jobs.job.title).toBe('From the draft')
  expect([drafts.has('gone'), own()]).toEqual([false, ['From the draft']])
})

test('a draft that is discarded goes when the question is closed; until then it is brought back', async () => {
  autosave.left = [left]
  autosave.discard(left)
  await vi.advanceTimersByTimeAsync(0)
  expect([drafts.has(left.id), autosave.discarded.has(left.id)]).toEqual([true, true])
  autosave.discard(left)
  autosave.dropDiscarded()
  await vi.advanceTimersByTimeAsync(0)
  expect([drafts.has(left.id), autosave.left]).toEqual([true, [left]])
  autosave.discard(left)
  autosave.dropDiscarded()
  await vi.advanceTimersByTimeAsync(0)
  expect([drafts.has(left.id), autosave.left]).toEqual([false, []])
})

test('where it cannot be kept again it stays as it was', async () => {
  isFull = true
  void autosave.recover(left)
  await vi.advanceTimersByTimeAsync(0)
  expect(drafts.has('gone')).toBe(true)
  expect(session.notice?.text).toMatch(/not kept: the disk is full/)
})

test('a draft that cannot be read is told and kept', async () => {
  drafts.set(left.id, { ...left, text: '{ "format": ' })
  void autosave.recover(left)
  await vi.advanceTimersByTimeAsync(0)
  expect(session.notice?.text).toMatch(/damaged/)
  expect(drafts.has('gone')).toBe(true)
})

test('a draft is named by its job: title, else part number, else part, else file', async () => {
  const job = { ...exampleJob(), title: '' }
  const bare = { ...job, partNumber: '', part: { ...job.part, name: '' } }
  for (const [open, name] of [
    [{ ...bare, partNumber: 'P-1' }, 'P-1'],
    [{ ...bare, part: { ...bare.part, name: 'Arm' } }, 'Arm'],
    [bare, 'file.evenswing.json'],
  ] as const) {
    jobs.load(open, { ref: { id: 'f', name: 'file.evenswing.json', folder: '' }, stamp: 's' }, true)
    autosave.note(jobs.isDirty)
    await vi.advanceTimersByTimeAsync(5000)
    expect(own()).toEqual([name])
  }
})
