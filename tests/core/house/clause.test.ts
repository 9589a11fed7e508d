import { expect, test } from 'vitest'
import { clause } from '../../../src-core/words/clause.ts'

test('a sentence of somebody else ends by the sentence it is put into', () => {
  const words = ['The source image could not be decoded.', 'No room.. ', 'plain']
  expect(words.map((w) => `It failed: ${clause(w)}.`)).toEqual([
    'It failed: The source image could not be decoded.',
    'It failed: No room.',
    'It failed: plain.',
  ])
})
