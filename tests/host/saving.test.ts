/** Saves that are cut off, and saves that meet: a job is always one whole version. */
import { spawn } from 'node:child_process'
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { machine } from '../../src-main/services/processes.ts'
import { SIDE_FOLDER } from '../../src-main/services/fileNames.ts'
import { readJobFile, writeJobFile } from '../../src-main/services/jobStore.ts'
import { figure } from './figure.ts'
import { bundled, jobText, runProgram, scratchFolder } from './helpers.ts'
import { isWhole, versionText } from './savingVersions.ts'

const SAVE_FOREVER = fileURLToPath(new URL('./saveForever.ts', import.meta.url))
const SAVE_COUNT = fileURLToPath(new URL('./saveCount.ts', import.meta.url))
const KILLS = Math.max(1, Number(process.env['EVENSWING_KILLS'] ?? 25))

/** Minutes where seconds do: how long it takes says nothing about saving. */
const UNHURRIED = 600_000 + KILLS * 20_000

/** Saves in a process that kills itself right before its `dieAt`-th file operation; says when it is dead. */
function saveUntil(program: string, path: string, dieAt: number): Promise<void> {
  return new Promise((done, fail) => {
    const child = spawn(process.execPath, [program, path, '1', String(dieAt)], {
      stdio: ['ignore', 'ignore', 'inherit'],
    })
    child.once('error', fail)
    child.once('exit', (code, signal) => {
      if (signal === 'SIGKILL') done()
      else fail(new Error(`the saving process ended by itself: ${code}`))
    })
  })
}

/** File operations of one save that replaces a job. */
async function operationsOfOneSave(program: string): Promise<number> {
  const path = join(scratchFolder(), 'job.evenswing.json')
  writeFileSync(path, versionText(0))
  const { out } = await runProgram(process.execPath, [program, path, '1', 'count'])
  return Number(out)
}

const leftovers = (folder: string) =>
  readdirSync(join(folder, SIDE_FOLDER)).filter((n) => /\.(tmp|lock)$/.test(n))

test(
  `a process killed at any step of a save leaves one whole version (${KILLS} kills)`,
  async () => {
    const folder = scratchFolder()
    const path = join(folder, 'job.evenswing.json')
    writeFileSync(path, versionText(0))
    const program = await bundled(SAVE_FOREVER)
    const operations = await operationsOfOneSave(program)
    expect(operations).toBeGreaterThan(10)
    const versions = new Set<string>()
    let cutOff = 0
    for (let i = 0; i < KILLS; i++) {
      // The kills are spread evenly over two saves.
      await saveUntil(program, path, 1 + Math.floor((2 * operations * (i + 0.5)) / KILLS))
      const text = readFileSync(path, 'utf8')
      expect(isWhole(text)).toBe(true)
      versions.add(text)
      if (existsSync(join(folder, SIDE_FOLDER)) && leftovers(folder).length > 0) cutOff++
    }
    figure(
      `${KILLS} kills: ${cutOff} left something in the middle, ${versions.size} versions seen, none torn`,
    )
    // Without this nothing would have been cut off, or nothing saved, and nothing would have been tested.
    if (KILLS >= 10) expect([cutOff > 0, versions.size > 1]).toEqual([true, true])
    await writeJobFile(path, versionText(7), null)
    expect(isWhole(readFileSync(path, 'utf8'))).toBe(true)
    expect(JSON.parse(readFileSync(path, 'utf8'))).toMatchObject({ n: 7 })
    expect(leftovers(folder)).toEqual([])
    expect(readdirSync(folder).sort()).toEqual([SIDE_FOLDER, 'job.evenswing.json'])
    const revisions = join(folder, SIDE_FOLDER, 'job.evenswing.json')
    const kept = readdirSync(revisions)
    expect(kept.length).toBeLessThanOrEqual(10)
    for (const name of kept) expect(isWhole(readFileSync(join(revisions, name), 'utf8'))).toBe(true)
  },
  UNHURRIED,
)

test(
  'two processes that save the same job at once never mix their versions',
  async () => {
    const folder = scratchFolder()
    const path = join(folder, 'job.evenswing.json')
    writeFileSync(path, versionText(0))
    const program = await bundled(SAVE_FOREVER)
    const writers = ['1', '2'].map((own) =>
      spawn(process.execPath, [program, path, own], {
        stdio: ['ignore', 'ignore', 'inherit'],
      }),
    )
    const ends = writers.map(
      (w) => new Promise((done) => w.once('exit', (code, signal) => done(signal ?? code))),
    )
    const seen = { '1': new Set<string>(), '2': new Set<string>() }
    while (seen['1'].size < 10 || seen['2'].size < 10) {
      const text = readFileSync(path, 'utf8')
      expect(isWhole(text)).toBe(true)
      const { n } = JSON.parse(text) as { n: number }
      if (n > 0) seen[n < 2_000_000 ? '1' : '2'].add(text)
      expect(writers.map((w) => w.exitCode)).toEqual([null, null])
      await new Promise((done) => setTimeout(done, 1))
    }
    for (const writer of writers) writer.kill('SIGKILL')
    expect(await Promise.all(ends)).toEqual(['SIGKILL', 'SIGKILL'])
    await writeJobFile(path, versionText(0), null)
    expect(leftovers(folder)).toEqual([])
  },
  UNHURRIED,
)

test(
  'two processes that change the same job by turns lose no change',
  async () => {
    const path = join(scratchFolder(), 'job.evenswing.json')
    const program = await bundled(SAVE_COUNT)
    writeFileSync(path, versionText(0))
    const ends = await Promise.all(
      ['1', '2'].map((own) => runProgram(process.execPath, [program, path, '25', own])),
    )
    for (const end of ends) expect([end.code, end.err]).toEqual([0, ''])
    expect(JSON.parse(readFileSync(path, 'utf8'))).toMatchObject({ n: 50 })
  },
  UNHURRIED,
)

test('of many saves on the same stamp exactly one goes through', async () => {
  const path = join(scratchFolder(), 'job.evenswing.json')
  writeFileSync(path, jobText('start'))
  const { stamp } = await readJobFile(path)
  const results = await Promise.allSettled(
    Array.from({ length: 12 }, (_, i) => writeJobFile(path, jobText(`w${i}`), stamp)),
  )
  const done = results.flatMap((r, i) => (r.status === 'fulfilled' ? [i] : []))
  const faults = results.flatMap((r) =>
    r.status === 'rejected' ? [(r.reason as { code: string }).code] : [],
  )
  expect(done).toHaveLength(1)
  expect(faults).toEqual(Array(11).fill('file.changed'))
  expect(readFileSync(path, 'utf8')).toBe(jobText(`w${done[0]}`))
})

test('a lock of a process that lives is waited for, then given up in words', async () => {
  const folder = scratchFolder()
  const path = join(folder, 'job.evenswing.json')
  writeFileSync(path, jobText('before'))
  mkdirSync(join(folder, SIDE_FOLDER))
  writeFileSync(join(folder, SIDE_FOLDER, 'job.evenswing.json.lock'), `${process.pid} ${machine()} other 1`)
  await expect(writeJobFile(path, jobText('after'), null, { patience: 50 })).rejects.toMatchObject({
    code: 'file.busy',
  })
  expect(readFileSync(path, 'utf8')).toBe(jobText('before'))
})

test('a first save leaves the job and nothing else', async () => {
  const folder = scratchFolder()
  await writeJobFile(join(folder, 'new.evenswing.json'), jobText('new'), null)
  expect(readdirSync(folder)).toEqual(['new.evenswing.json'])
})

test.skipIf(process.platform === 'win32')("a job's permissions stay as they are", async () => {
  const path = join(scratchFolder(), 'job.evenswing.json')
  writeFileSync(path, jobText('before'))
  chmodSync(path, 0o640)
  await writeJobFile(path, jobText('after'), null)
  expect(statSync(path).mode & 0o777).toBe(0o640)
})

test('a folder that is not there is said, not made', async () => {
  const folder = join(scratchFolder(), 'none')
  await expect(writeJobFile(join(folder, 'a.evenswing.json'), jobText('x'), null)).rejects.toMatchObject({
    code: 'file.gone',
  })
  expect(existsSync(folder)).toBe(false)
})
