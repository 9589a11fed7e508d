import { expect, test } from 'vitest'
import type { BookEntry } from '../../src-core/bridge/bookContract.ts'
import { bookSearch } from '../../src-renderer/state/bookSearch.ts'
import { namesIn } from '../../src-renderer/state/bookWords.ts'

const job = (title: string, more: { partNumber?: string; notes?: string } = {}): BookEntry => ({
  file: { id: title, name: `${title}.evenswing.json`, folder: '' },
  modified: '2026-01-01T00:00:00Z',
  fault: null,
  waiting: false,
  mayOpen: true,
  readOnly: false,
  conflictOf: null,
  summary: {
    title, partNumber: '', partName: '', material: 'grey cast iron', machine: 'Bench lathe', plate: '', notes: '',
    setups: [], lastRun: null, picture: [], ...more,
  }, // prettier-ignore
})
const { find } = bookSearch([
  job('Pump flange', { partNumber: 'EV-1399' }),
  job('Bearing bracket', { notes: 'two heel blocks' }),
  job('Rocker arm'),
])
const titles = (query: string) => find(query).map((e) => e.summary?.title)

test.each([
  ['a part of a word', 'flan', 'Pump flange'],
  ['a letter left out', 'flnge', 'Pump flange'],
  ['a letter too many', 'brackett', 'Bearing bracket'],
  ['a wrong letter', 'rockar', 'Rocker arm'],
  ['two letters swapped', 'flagne', 'Pump flange'],
  ['two letters swapped in a word not finished', 'rokce', 'Rocker arm'],
  ['a part number', '1399', 'Pump flange'],
  ['words of two fields', 'hael bearing', 'Bearing bracket'],
])('%s: %s', (_, query, title) => {
  expect(titles(query)[0]).toBe(title)
})

test('every word must be there; what is nowhere finds nothing', () => {
  expect(titles('bearing rocker')).toEqual([])
  expect(titles('zzzz')).toEqual([])
  expect(titles('lathe')).toHaveLength(3)
})

test('two jobs of one name but for the ending are called by their whole names', () => {
  const names = ['link.evenswing', 'link.evenswing.json', 'arm.evenswing.json']
  const call = namesIn(names.map((name) => ({ ...job(name), file: { id: name, name, folder: '' } })))
  expect(names.map((name) => call({ name }))).toEqual(['link.evenswing', 'link.evenswing.json', 'arm'])
})
