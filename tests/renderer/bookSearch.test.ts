import { expect, test } from 'vitest'
import type { BookEntry } from '../../src-core/bridge/bookContract.ts'
import { bookSearch, setupOfSum } from '../../src-renderer/state/bookSearch.ts'
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

test('the check sum of a sheet finds its job, however it is typed, and nothing that is only like it', () => {
  const withSums = (title: string, ...sums: string[]): BookEntry => {
    const entry = job(title)
    const setups = sums.map((checkSum, i) => ({ id: `op${i}`, title: '', checkSum }))
    return { ...entry, summary: { ...entry.summary!, setups } }
  }
  const one = withSums('Bracket', 'V8MRW-R2PX0', '7DE7Z-TTKDW')
  const search = bookSearch([
    withSums('Flange', 'V8MRW-R2PX1'),
    one,
    withSums('V8MRW-R2PX0 scrapped', '00000-00000'),
  ])
  for (const typed of ['V8MRW-R2PX0', 'v8mrwr2pxo', '7de7z ttkdw']) expect(search.find(typed)).toEqual([one])
  expect(setupOfSum(one, '7DE7Z-TTKDW')).toBe('op1')
  expect(search.find('V8MRW-R2PX9')).not.toContain(one)
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
