import { expect, test } from 'vitest'
import { jobEndingOf, jobNames, jobStem } from '../../../src-core/job/fileEnding.ts'

test.each([
  ['link.evenswing', '.evenswing', 'link'],
  ['link.evenswing.json', '.evenswing.json', 'link'],
  ['LINK.EVENSWING', '.EVENSWING', 'LINK'],
  ['two.evenswing.evenswing', '.evenswing', 'two.evenswing'],
  ['.hidden.evenswing', '.evenswing', '.hidden'],
  ['.evenswing', null, '.evenswing'],
  ['.evenswing.json', null, '.evenswing.json'],
  ['link.json', null, 'link.json'],
  ['shop.evenswing-library.json', null, 'shop.evenswing-library.json'],
  ['', null, ''],
])('%s', (name, ending, stem) => {
  expect([jobEndingOf(name), jobStem(name)]).toEqual([ending, stem])
})

test('a new job’s name comes first; one of before is looked for too', () => {
  expect(jobNames('link')).toEqual(['link.evenswing', 'link.evenswing.json'])
})
