/** How far a setup has come at the machine, kept in the user's own folder. */
import { readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { createProgress } from '../../src-main/services/progress.ts'
import { scratchFolder } from './helpers.ts'

const KEY = '0123456789abcdef'

test('is there again in another program, until it is dropped', async () => {
  const folder = scratchFolder()
  await createProgress(folder).keep(KEY, '{"step":"hold:c1"}')
  const later = createProgress(folder)
  expect(await later.read(KEY)).toBe('{"step":"hold:c1"}')
  expect(await later.read('fedcba9876543210')).toBeNull()
  await later.drop(KEY)
  expect(await later.read(KEY)).toBeNull()
  await later.drop(KEY)
})

test('a damaged one is set aside and counts as none; a key that is a path is refused', async () => {
  const folder = scratchFolder()
  const progress = createProgress(folder)
  await progress.keep(KEY, 'x')
  writeFileSync(join(folder, 'progress', `${KEY}.json`), '{"text":')
  expect(await progress.read(KEY)).toBeNull()
  expect(readdirSync(join(folder, 'progress')).join()).toMatch(/damaged/)
  await expect(async () => progress.read('../../settings')).rejects.toThrow(/no place/)
})
