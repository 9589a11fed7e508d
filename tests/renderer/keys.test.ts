import { beforeEach, expect, test } from 'vitest'
import { handleKey, keyName } from '../../src-renderer/editor/keys.ts'
import { fetchHost } from '../../src-renderer/bridge/fetchHost.ts'
import { createActions } from '../../src-renderer/state/actions.ts'
import { createApp, type App } from '../../src-renderer/state/app.svelte.ts'
import { exampleJob } from './example.ts'
import { noWorkers } from './fakeWorkers.ts'

let app: App
beforeEach(() => {
  app = createApp(fetchHost, noWorkers)
  app.jobs.load(exampleJob(), null)
  app.session.setupId = 'op10'
  document.body.innerHTML =
    '<button id="b"></button><input id="i"><div role="radiogroup"><button id="r"></button></div><div data-plate tabindex="0" id="p"></div>'
})
function press(id: string | null, key: string, more: KeyboardEventInit = {}, inDialog = false): void {
  const actions = createActions(app)
  const listen = (event: KeyboardEvent) => handleKey(event, actions, inDialog)
  addEventListener('keydown', listen)
  const target = id === null ? document.body : document.getElementById(id)!
  target.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...more }))
  removeEventListener('keydown', listen)
}

test.each([null, 'b', 'p'])('with the focus on %s the plate’s keys hold', (id) => {
  press(id, '.')
  expect(app.session.selection).not.toBeNull()
})

test('arrows move what is chosen, but neither in a field nor where they are another thing’s own', () => {
  app.session.selection = { kind: 'part' }
  for (const id of ['i', 'b', 'r']) press(id, 'ArrowRight')
  expect(app.jobs.undoLabel).toBeNull()
  press(null, 'ArrowRight')
  expect(app.jobs.undoLabel).toBe('Move the part')
})

test('undo is the field\u2019s while something is typed there, and the job\u2019s once it is settled', () => {
  app.jobs.edit('Something', (job) => ({ ...job, title: 'other' }))
  press('i', 'z', { ctrlKey: true })
  expect(app.jobs.undoLabel).toBe('Something')
  document.getElementById('i')!.setAttribute('data-settled', '')
  press('i', 'z', { ctrlKey: true })
  expect([app.jobs.undoLabel, app.jobs.redoLabel]).toEqual([null, 'Something'])
  press('i', 'z', { ctrlKey: true, shiftKey: true })
  expect(app.jobs.undoLabel).toBe('Something')
})

test('letters typed into a field are letters', () => {
  press('i', '.')
  press('i', 'd')
  expect([app.session.selection, app.draw.active]).toEqual([null, false])
})

test.each(['machine', 'part', 'mounting', 'clamps', 'counterweights', 'speed', 'sheet'])(
  'Alt and its digit opens %s, from a field too, and not behind a dialog',
  (name) => {
    const order = ['machine', 'part', 'mounting', 'clamps', 'counterweights', 'speed', 'sheet']
    const digit = String(order.indexOf(name) + 1)
    press('i', digit, { altKey: true }, true)
    expect(app.session.step).toBeNull()
    press('i', digit, { altKey: true })
    expect(app.session.step).toBe(name)
  },
)

test('a keyboard that writes another sign with Alt still means the digit', () => {
  const event = { ctrlKey: false, metaKey: false, shiftKey: false, altKey: true }
  expect(keyName({ ...event, key: '£', code: 'Digit3' })).toBe('Alt+3')
})
