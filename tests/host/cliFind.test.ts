/** A job found by the check sum of its sheet. */
import { execFileSync } from 'node:child_process'
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { EXAMPLE, evenswing, exampleJob, expectRefused } from './cli.ts'
import { scratchFolder } from './helpers.ts'

const SUM = /Check sum ([0-9A-Z]{5}-[0-9A-Z]{5})/
const sumOf = async (cwd: string, ...args: string[]) =>
  SUM.exec((await evenswing(['check', ...args], { cwd })).out)![1]!

test('the sum of a sheet finds the job and the setup, also where the job was changed since', async () => {
  const cwd = scratchFolder()
  mkdirSync(join(cwd, 'book'))
  const other = exampleJob()
  other.plate.mass += 1
  for (const [name, job] of [
    ['link', exampleJob()],
    ['other', other],
  ] as const)
    writeFileSync(join(cwd, `book/${name}.evenswing`), JSON.stringify(job))
  writeFileSync(join(cwd, 'book/broken.evenswing'), '{')
  const link = join('book', 'link.evenswing')
  const sum = await sumOf(cwd, link, '--setup', 'op20')

  await evenswing(['sheet', link, '--setup', 'op20', '--out', 'x', '--format', 'pdf'], { cwd })
  const text = execFileSync('pdftotext', ['-layout', join(cwd, 'x/EV-0417-op20.pdf'), '-'], {
    encoding: 'utf8',
  })
  for (const words of [sum, 'link.evenswing']) expect(text).toContain(words)

  const environment = {
    ...process.env,
    EVENSWING_JOBS: join(cwd, 'book'),
    EVENSWING_SETTINGS: join(cwd, 'own'),
  }
  const found = await evenswing(['find', sum.toLowerCase().replace('-', ' ')], { cwd, env: environment })
  expect([found.code, found.out]).toEqual([0, `${link}: setup op20\n`])

  const changed = await evenswing(['plan', link, '--setup', 'op20', '--apply', '1', '--out', link], { cwd })
  expect(changed.code).toBeLessThan(2)
  const report = JSON.parse((await evenswing(['find', sum, '--in', 'book', '--json'], { cwd })).out)
  expect(report).toMatchObject({ check_sum: sum, unread: 1, found: [{ setup: 'op20' }] })
  expect(report.found[0].until).toMatch(/^\d{4}-/)

  expectRefused(
    await evenswing(['find', '00000-00000', '--in', 'book'], { cwd }),
    /no job in .*00000-00000 \(1 file could not be read\)/,
  )
}, 60_000)

test('each example has sums of its own', async () => {
  const cwd = scratchFolder()
  expect(await sumOf(cwd, EXAMPLE)).not.toBe(await sumOf(cwd, EXAMPLE, '--setup', 'op20'))
})
