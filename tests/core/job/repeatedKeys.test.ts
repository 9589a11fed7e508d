/** A key that stands twice hides a value: it is refused with its place, and nothing else is. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { parseJob } from '../../../src-core/job/parse.ts'
import { repeatedKey } from '../../../src-core/job/repeatedKeys.ts'
import { exampleText } from '../../helpers/jobs.ts'

test('a job file with a repeated key is refused with place and line', () => {
  const text = exampleText('flat-link')
  const lines = text.split('\n')
  const at = lines.findIndex((line) => /^\s*"diameter":/.test(line))
  lines.splice(at + 1, 0, lines[at]!.replace(/:.*/, ': 1,'))
  const read = parseJob(lines.join('\n'))
  expect(read.ok ? [] : read.faults).toEqual([
    {
      path: expect.stringMatching(/(^|\.)diameter$/) as string,
      message: `stands twice, again in line ${at + 2}; remove one`,
    },
  ])
})

test.each([
  ['{"a":1,"a":2}', ['a'], 1],
  ['{"a":1,\n"\\u0061":2}', ['a'], 2],
  ['{"x":[{},{"b":[1,2],\n\n"b":0}]}', ['x', 1, 'b'], 3],
  ['{"x":{"k":1},"y":{"k":1,"z":"\\"k\\":","k":1}}', ['y', 'k'], 1],
  ['{"":1,"":2}', [''], 1],
  ['{"__proto__":1,"__proto__":2}', ['__proto__'], 1],
])('%s: its place is %j in line %i', (text, path, line) => {
  expect(repeatedKey(text)).toEqual({ path, line })
})

test('no text that the language itself writes has one', () => {
  fc.assert(fc.property(fc.jsonValue(), (value) => repeatedKey(JSON.stringify(value)) === null))
})

test('any object whose text gets one of its own keys again is found out', () => {
  const object = fc.dictionary(fc.string(), fc.jsonValue(), { minKeys: 1 })
  fc.assert(
    fc.property(object, fc.jsonValue(), (value, other) => {
      const key = Object.keys(value)[0]!
      const text = `${JSON.stringify(value).slice(0, -1)},${JSON.stringify(key)}:${JSON.stringify(other)}}`
      expect(repeatedKey(text)?.path).toEqual([key])
    }),
  )
})

test('a text that is no JSON throws nothing', () => {
  fc.assert(
    fc.property(fc.string({ unit: fc.constantFrom(...'{}[],:"\\ab1 ') }), (text) => void repeatedKey(text)),
  )
})
