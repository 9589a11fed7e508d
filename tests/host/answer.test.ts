/** A service that breaks must not break the request that asked it. */
import { expect, test } from 'vitest'
import { answer } from '../../src-main/requests/answer.ts'
import { VERBS } from '../../src-core/bridge/verbs.ts'
import { HostError } from '../../src-main/services/hostError.ts'
import type { HostServices } from '../../src-main/services/hostServices.ts'

const ref = { id: 'x', name: 'x', folder: 'x' }
const GOOD: Record<string, unknown[]> = {
  info: [],
  listExamples: [],
  readExample: ['x'],
  chooseOpen: [],
  chooseSave: ['x'],
  listBook: [],
  bookFile: ['x'],
  freeBookFile: ['x'],
  chooseBookFolder: [],
  readSettings: [],
  writeSettings: [{ theme: 'dark', person: 'x', owner: '' }],
  listRecent: [],
  clearRecent: [],
  listRevisions: [ref],
  readRevision: [ref, 'x'],
  fileState: [ref],
  keepDraft: [{ id: 'd1', name: 'x', file: ref, stamp: null, text: '{}' }],
  dropDraft: ['d1'],
  listDrafts: [],
  readDraft: ['a'],
  readProgress: ['0123456789abcdef'],
  keepProgress: ['0123456789abcdef', ''],
  dropProgress: ['0123456789abcdef'],
  bookNews: [0],
  readLibrary: [],
  writeLibrary: ['{}', null],
  showLog: [],
  readJob: [ref],
  writeJob: [ref, 'text', null],
  exportFile: ['x', 'svg', new Uint8Array([1])],
  exportPicture: ['x', '<svg/>'],
}

const throwing = (error: unknown) =>
  new Proxy({} as HostServices, {
    get: () => () => {
      throw error
    },
  })

test.each(VERBS)('%s: a service that throws becomes a fault and is reported', async (verb) => {
  const reported: unknown[] = []
  const error = new Error('a defect')
  const reply = await answer(throwing(error), verb, GOOD[verb], (e) => void reported.push(e))
  expect(reply).toEqual({ ok: false, fault: { code: 'request.failed', message: `${verb}: a defect` } })
  expect(reported).toEqual([error])
})

test.each(VERBS)('%s: a foreseen fault keeps its code and is not reported', async (verb) => {
  const reported: unknown[] = []
  const error = new HostError('file.denied', 'not allowed')
  const reply = await answer(throwing(error), verb, GOOD[verb], (e) => void reported.push(e))
  expect(reply).toEqual({ ok: false, fault: { code: 'file.denied', message: 'not allowed' } })
  expect(reported).toEqual([])
})

test.each(VERBS)('%s: reaches the service of its own name with its arguments', async (verb) => {
  const calls: unknown[] = []
  const services = new Proxy({} as HostServices, {
    get:
      (_, name) =>
      async (...args: unknown[]) => {
        calls.push([name, args])
        return 'value'
      },
  })
  expect(await answer(services, verb, GOOD[verb], () => undefined)).toEqual({ ok: true, value: 'value' })
  expect(calls).toEqual([[verb, GOOD[verb]]])
})

test.each([null, undefined, 5, 'text', {}, [1, 2, 3, 4, 5], [null], [[]]])(
  'arguments %j never reach a service',
  async (args) => {
    for (const verb of VERBS) {
      const reply = await answer(throwing(new Error('reached')), verb, args, () => undefined)
      expect(reply).toMatchObject({ ok: false, fault: { code: 'request.refused' } })
    }
  },
)
