/** What the system's menu and the system's files do in the window. */
import { flushSync } from 'svelte'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Shell, ShellEvent } from '../../src-core/bridge/bookContract.ts'
import { COMMANDS, type CommandName } from '../../src-core/bridge/commands.ts'
import { editJob } from '../../src-renderer/editor/edits/edit.ts'
import { fetchHost } from '../../src-renderer/bridge/fetchHost.ts'
import { createActions, type Actions } from '../../src-renderer/state/actions.ts'
import { createApp, type App } from '../../src-renderer/state/app.svelte.ts'
import { obeyShell } from '../../src-renderer/state/shellEvents.svelte.ts'
import { takeDropped } from '../../src-renderer/state/dropped.ts'
import { exampleJob } from './example.ts'
import { noWorkers } from './fakeWorkers.ts'

const FILE = { id: 'a', name: 'link.evenswing.json', folder: '/jobs' }
let tell: (event: ShellEvent) => void
let app: App
let actions: Actions
let stop: () => void

const shell: Shell = {
  subscribe: (listener) => {
    tell = listener
    return () => void (tell = () => undefined)
  },
  adoptDropped: async () => ({ ok: true, value: FILE }),
}

/** What a given file holds is read before anyone is asked. */
const host: typeof fetchHost = {
  ...fetchHost,
  readJob: async (file) => ({ ok: true, value: { file, text: JSON.stringify(exampleJob()), stamp: '1' } }),
}

beforeEach(() => {
  app = createApp(host, noWorkers, shell)
  actions = createActions(app)
  stop = obeyShell(app, actions)
})
afterEach(() => {
  stop()
  vi.restoreAllMocks()
  document.body.replaceChildren()
})

const edit = () =>
  app.jobs.edit('Rename', (job) =>
    editJob(job, (d) => {
      d.title = 'renamed'
    }),
  )

test('every command of the menu is an action of the same words and keys', () => {
  for (const name of Object.keys(COMMANDS) as CommandName[])
    expect({ label: actions[name].label, keys: actions[name].keys }).toEqual(COMMANDS[name])
})

test('no key means two things', () => {
  const keys = Object.values(actions).flatMap((action) => [...action.keys])
  expect(keys.filter((key, i) => keys.indexOf(key) !== i)).toEqual([])
})

test('a command is done, but not behind an open question, and an unknown one not at all', () => {
  tell({ kind: 'command', name: 'about' })
  expect(app.session.dialog).toBe('about')
  tell({ kind: 'command', name: 'keys' })
  expect(app.session.dialog).toBe('about')
  app.session.dialog = null
  for (const name of ['constructor', 'toString', '', 'remove']) tell({ kind: 'command', name })
  expect(app.session.dialog).toBeNull()
})

test('undo goes to the text field that has the focus, else to the job', () => {
  edit()
  const field = document.body.appendChild(document.createElement('input'))
  const inField = vi.fn(() => true)
  document.execCommand = inField
  field.focus()
  tell({ kind: 'command', name: 'undo' })
  expect(inField).toHaveBeenCalledWith('undo')
  expect(app.jobs.job.title).toBe('renamed')
  field.blur()
  tell({ kind: 'command', name: 'undo' })
  expect(app.jobs.job.title).not.toBe('renamed')
})

test('a file of the system opens, after asking where changes would be lost', async () => {
  const opened = vi.spyOn(app.files, 'openFile').mockResolvedValue(true)
  const give = () => {
    tell({ kind: 'open', file: FILE })
    flushSync()
  }
  app.book.shown = true
  give()
  await vi.waitFor(() => expect(opened).toHaveBeenCalledWith(FILE))
  expect(app.book.shown).toBe(false)
  edit()
  give()
  await vi.waitFor(() => expect(app.session.dialog).toBe('discard'))
  expect(opened).toHaveBeenCalledTimes(1)
  app.session.afterDiscard?.()
  expect(opened).toHaveBeenCalledTimes(2)
})

test('a file of the system waits for an open question to be answered', async () => {
  const opened = vi.spyOn(app.files, 'openFile').mockResolvedValue(true)
  app.session.dialog = 'recover'
  tell({ kind: 'open', file: FILE })
  flushSync()
  expect([app.session.dialog, opened.mock.calls.length]).toEqual(['recover', 0])
  app.session.dialog = null
  flushSync()
  await vi.waitFor(() => expect(opened).toHaveBeenCalledTimes(1))
})

test.each(['link.evenswing', 'link.evenswing.json'])(
  '%s dropped opens as its file where the shell knows it, else as text',
  async (name) => {
    const opened = vi.spyOn(app.files, 'openFile').mockResolvedValue(true)
    const text = vi.spyOn(app.files, 'openText').mockReturnValue()
    const file = new File(['{}'], name)
    await takeDropped(app, file)
    await vi.waitFor(() => expect([opened.mock.calls, text.mock.calls]).toEqual([[[FILE]], []]))
    await takeDropped(
      { ...app, shell: { ...shell, adoptDropped: async () => ({ ok: true, value: null }) } },
      file,
    )
    await vi.waitFor(() => expect(text).toHaveBeenCalledWith('{}', name))
  },
)

test('saving before closing closes only what was saved', async () => {
  const closed = vi.spyOn(window, 'close').mockReturnValue()
  const saved = vi.spyOn(app.files.saving, 'save').mockResolvedValue()
  edit()
  tell({ kind: 'command', name: 'saveAndClose' })
  await vi.waitFor(() => expect(saved).toHaveBeenCalledTimes(1))
  await new Promise((done) => setTimeout(done))
  expect(closed).not.toHaveBeenCalled()
  saved.mockImplementation(async () => app.jobs.undo())
  tell({ kind: 'command', name: 'saveAndClose' })
  await vi.waitFor(() => expect(closed).toHaveBeenCalledTimes(1))
})
