import { expect, test } from 'vitest'
import { faultWords } from '../../../src-core/job/fault.ts'
import { parseJob } from '../../../src-core/job/parse.ts'
import { shippedText } from '../../helpers/jobs.ts'

test('what is wrong with the bend of an edge is said without the name that the file has for it', () => {
  const wrong = shippedText('flat-link').replace(/"bulge": ?[-\d.]+/, '"bulge": "round"')
  const read = parseJob(wrong)
  const words = read.ok ? [] : read.faults.map(faultWords)
  expect(words).toEqual([expect.stringMatching(/\[\d+\], the bend of the edge after it, must be a number/)])
})

test('a fault of the whole file says so', () => {
  expect(faultWords({ path: '', message: 'is empty' })).toBe('the file is empty')
})
