/** A document newer than the program is refused when it is opened and when something would be saved over it. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { parseJob } from '../../src-core/job/parse.ts'
import { readJobFile, writeJobFile } from '../../src-main/services/jobStore.ts'
import { jobText, scratchFolder } from './helpers.ts'

test.each([
  ['evenswing-job', jobText('mine')],
  ['evenswing-library', '{"format":"evenswing-library","version":1}\n'],
])('a newer %s stays as it is, byte for byte', async (format, mine) => {
  const folder = scratchFolder()
  const path = join(folder, 'newer.json')
  const newer = `{"format": "${format}",\r\n "version": 99, "unheard": [1, 2.50]}`
  writeFileSync(path, newer)
  const { text, stamp } = await readJobFile(path)
  if (format === 'evenswing-job') {
    const opened = parseJob(text)
    expect(opened).toMatchObject({ ok: false, faults: [{ path: 'version' }] })
    expect(JSON.stringify(opened)).toMatch(/newer than this program knows/)
  }
  for (const expected of [stamp, null])
    await expect(writeJobFile(path, mine, expected, { format })).rejects.toMatchObject({ code: 'file.newer' })
  await expect(writeJobFile(path, mine, '', { format })).rejects.toMatchObject({ code: 'file.exists' })
  expect(readFileSync(path, 'utf8')).toBe(newer)
  expect(readdirSync(folder)).toEqual(['newer.json'])
})

test('an older or damaged file may be saved over', async () => {
  const path = join(scratchFolder(), 'old.json')
  for (const there of ['{"format":"evenswing-job","version":1}', '{"format":"evenswing-job","ver']) {
    writeFileSync(path, there)
    await writeJobFile(path, jobText('mine'), null)
    expect(readFileSync(path, 'utf8')).toBe(jobText('mine'))
  }
})
