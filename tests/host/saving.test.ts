/** Saves that are cut off, and saves that meet: a job is always one whole version. */
import { spawn } from 'node:child_process'
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { hostname } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { readJobFile, writeJobFile } from '../../src-main/services/jobStore.ts'
import { jobText, runProgram, scratchFolder, typeScript } from './helpers.ts'
import { isWhole, versionText } from './savingVersions.ts'

const SAVE_FOREVER = fileURLToPath(new URL('./saveForever.ts', import.meta.url))
const SAVE_SOME = fileURLToPath(new URL('./saveSome.ts', import.meta.url))
const KILLS = Math.max(1, Number(process.env['EVENSWING_KILLS'] ?? 25))

/** Starts a process that saves without end, kills it a moment after its first save, and says when it is dead. */
function saveAndKill(path: string, after: number): Promise<void> {
  return new Promise((done, fail) => {
    const child = spawn(process.execPath, [...typeScript(SAVE_FOREVER), path], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    let begun = false
    child.stdout.once('data', () => {
      begun = true
      setTimeout(() => child.kill('SIGKILL'), after)
    })
    child.once('error', fail)
    child.once('exit', (code, signal) => {
      if (begun && signal === 'SIGKILL') done()
      else fail(new Error(`the saving process ended by itself: ${code}`))
    })
  })
}

const leftovers = (folder: string) =>
  readdirSync(join(folder, '.evenswing')).filter((n) => /\.(tmp|lock)$/.test(n))

test(
  `a process killed at any moment of a save leaves one whole version (${KILLS} kills)`,
  async () => {
    const folder = scratchFolder()
    const path = join(folder, 'job.evenswing.json')
    writeFileSync(path, versionText(0))
    let cutOff = 0
    for (let i = 0; i < KILLS; i++) {
      await saveAndKill(path, Math.random() * 30)
      expect(isWhole(readFileSync(path, 'utf8'))).toBe(true)
      if (leftovers(folder).length > 0) cutOff++
    }
    // Without this the kills could all have fallen between saves, and nothing would have been tested.
    if (KILLS >= 10) expect(cutOff).toBeGreaterThan(0)
    await writeJobFile(path, versionText(7), null)
    expect(readFileSync(path, 'utf8')).toBe(versionText(7))
    expect(leftovers(folder)).toEqual([])
    expect(readdirSync(folder).sort()).toEqual(['.evenswing', 'job.evenswing.json'])
    const revisions = join(folder, '.evenswing', 'job.evenswing.json')
    const kept = readdirSync(revisions).filter((n) => n.endsWith('.json'))
    expect(kept.length).toBe(10)
    for (const name of kept) expect(isWhole(readFileSync(join(revisions, name), 'utf8'))).toBe(true)
  },
  30_000 + KILLS * 3000,
)

test('two processes that save the same job at once never mix their versions', async () => {
  const folder = scratchFolder()
  const path = join(folder, 'job.evenswing.json')
  writeFileSync(path, versionText(0))
  const writers = ['1', '2'].map((k) =>
    runProgram(process.execPath, [...typeScript(SAVE_SOME), path, 'overwrite', '60', k]),
  )
  let running = true
  const ends = Promise.all(writers).finally(() => (running = false))
  let looks = 0
  while (running) {
    expect(isWhole(readFileSync(path, 'utf8'))).toBe(true)
    looks++
    await new Promise((done) => setTimeout(done, 1))
  }
  for (const end of await ends) expect([end.code, end.err]).toEqual([0, ''])
  expect(looks).toBeGreaterThan(20)
  expect(leftovers(folder)).toEqual([])
})

test('two processes that change the same job by turns lose no change', async () => {
  const path = join(scratchFolder(), 'job.evenswing.json')
  writeFileSync(path, versionText(0))
  const ends = await Promise.all(
    ['1', '2'].map((k) => runProgram(process.execPath, [...typeScript(SAVE_SOME), path, 'count', '25', k])),
  )
  for (const end of ends) expect([end.code, end.err]).toEqual([0, ''])
  expect(readFileSync(path, 'utf8')).toBe(versionText(50))
})

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
  mkdirSync(join(folder, '.evenswing'))
  writeFileSync(join(folder, '.evenswing', 'job.evenswing.json.lock'), `${process.pid} ${hostname()} other`)
  await expect(writeJobFile(path, jobText('after'), null, { patience: 50 })).rejects.toMatchObject({
    code: 'file.busy',
  })
  expect(readFileSync(path, 'utf8')).toBe(jobText('before'))
})

test('a lock older than any save is taken over, whoever its owner seems to be', async () => {
  const folder = scratchFolder()
  const path = join(folder, 'job.evenswing.json')
  const lock = join(folder, '.evenswing', 'job.evenswing.json.lock')
  for (const owner of [`${process.pid} ${hostname()} other`, '1 another-machine x', '']) {
    mkdirSync(join(folder, '.evenswing'), { recursive: true })
    writeFileSync(lock, owner)
    const hourAgo = Date.now() / 1000 - 3600
    utimesSync(lock, hourAgo, hourAgo)
    await writeJobFile(path, jobText(owner), null, { patience: 0 })
    expect(readFileSync(path, 'utf8')).toBe(jobText(owner))
    expect(existsSync(lock)).toBe(false)
  }
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
