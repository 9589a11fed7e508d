import fc from 'fast-check'
import { expect, it } from 'vitest'
import { base64OfBytes, bytesOfBase64 } from '../../../src-core/picture/base64.ts'

it('writes what Node writes and reads it back', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
      const text = base64OfBytes(bytes)
      expect(text).toBe(Buffer.from(bytes).toString('base64'))
      expect([...bytesOfBase64(text)!]).toEqual([...bytes])
    }),
  )
  const long = Uint8Array.from({ length: 20_000 }, (_, i) => (i * 97) & 255)
  expect(base64OfBytes(long)).toBe(Buffer.from(long).toString('base64'))
})

it('reads nothing from what is not base64', () => {
  for (const text of ['A', 'AAA', 'A===', 'AA=A', 'AA AA===', 'ÄAAA', 'AAA\n', '-_-_', '===='])
    expect(bytesOfBase64(text)).toBeNull()
})
