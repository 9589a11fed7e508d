/** Saving beside others: shared folders, links, locks of the dead, what cut-off saves leave. */
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { describe, expect, onTestFinished, test } from 'vitest'
import { exportBeside, exportTo } from '../../src-main/services/exports.ts'
import { withLock } from '../../src-main/services/fileLock.ts'
import { SIDE_FOLDER } from '../../src-main/services/fileNames.ts'
import { listRevisions, readJobFile, writeJobFile } from '../../src-main/services/jobStore.ts'
import { asOrdinaryUser, jobText, scratchFolder } from './helpers.ts'

const NAME = 'job.evenswing.json'
const bits = (path: string) => (statSync(path).mode & 0o7777).toString(8)
const fails = (work: Promise<unknown>) =>
  work.then(() => null).catch((e: { code: string; message: string }) => e)

/** A folder with one job; `side` is its side folder, not made yet. */
function withJob() {
  const folder = scratchFolder()
  const path = join(folder, NAME)
  writeFileSync(path, jobText('before'))
  const side = join(folder, SIDE_FOLDER)
  return { folder, path, side, lock: join(side, `${NAME}.lock`) }
}

const asIs = async () => undefined

describe.skipIf(process.platform === 'win32')('a folder of a common group', () => {
  const umask = process.umask(0o022)
  process.umask(umask)

  test('the first saver does not lock the others out: all that is made takes the folder’s mode', async () => {
    onTestFinished(() => void process.umask(umask))
    process.umask(0o022)
    const folder = scratchFolder()
    chmodSync(folder, 0o2775)
    const path = join(folder, NAME)
    for (const mark of ['one', 'two', 'three']) await writeJobFile(path, jobText(mark), null)
    const revisions = join(folder, SIDE_FOLDER, NAME)
    expect([join(folder, SIDE_FOLDER), revisions].map(bits)).toEqual(['2775', '2775'])
    const kept = readdirSync(revisions)
    expect(kept).toHaveLength(2)
    for (const file of [path, ...kept.map((name) => join(revisions, name))]) expect(bits(file)).toBe('664')
    expect(bits(await exportBeside(join(folder, 'sheets'), 'a.pdf', Buffer.from('x')))).toBe('664')
    expect(bits(join(folder, 'sheets'))).toBe('2775')
  })

  test('a side folder of before that locks others out is mended by its owner’s next save', async () => {
    const { folder, path, side } = withJob()
    chmodSync(folder, 0o2770)
    mkdirSync(side, { mode: 0o700 })
    await writeJobFile(path, jobText('after'), null)
    expect(bits(side)).toBe('2770')
  })

  test('a folder that may only be read says so, and keeps the job', async () => {
    const { folder, path } = withJob()
    chmodSync(folder, 0o555)
    const fault = await asOrdinaryUser(() => fails(writeJobFile(path, jobText('after'), null)))
    expect(fault).toMatchObject({ code: 'file.denied' })
    expect(fault?.message).toMatch(/may only be read.*save it somewhere else/i)
    expect(readFileSync(path, 'utf8')).toBe(jobText('before'))
  })
})

describe.skipIf(process.platform === 'win32')('links', () => {
  test('a link out of its folder is never written through, nor are its locks put there', async () => {
    const elsewhere = scratchFolder()
    const outside = join(elsewhere, 'real.evenswing.json')
    writeFileSync(outside, jobText('theirs'))
    const { folder } = withJob()
    const path = join(folder, 'link.evenswing.json')
    symlinkSync(outside, path)
    for (const stamp of [null, '', (await readJobFile(path)).stamp]) {
      const fault = await fails(writeJobFile(path, jobText('mine'), stamp))
      expect(fault).toMatchObject({ code: 'file.denied' })
      expect(fault?.message).toContain('outside its folder')
    }
    expect(await fails(exportTo(path, Buffer.from('x')))).toMatchObject({ code: 'file.denied' })
    expect(readFileSync(outside, 'utf8')).toBe(jobText('theirs'))
    expect(readdirSync(elsewhere)).toEqual(['real.evenswing.json'])
  })

  test('a link to a job of the same folder stays a link', async () => {
    const { folder, path } = withJob()
    symlinkSync(NAME, join(folder, 'link.evenswing.json'))
    await writeJobFile(join(folder, 'link.evenswing.json'), jobText('after'), null)
    expect(readFileSync(path, 'utf8')).toBe(jobText('after'))
    expect(readFileSync(join(folder, 'link.evenswing.json'), 'utf8')).toBe(jobText('after'))
  })

  test('a link to nothing is refused, and stays', async () => {
    const { folder } = withJob()
    symlinkSync('gone.evenswing.json', join(folder, 'link.evenswing.json'))
    for (const stamp of [null, ''])
      expect(
        await fails(writeJobFile(join(folder, 'link.evenswing.json'), jobText('x'), stamp)),
      ).toMatchObject({
        code: 'file.denied',
      })
    expect(readdirSync(folder).sort()).toEqual([NAME, 'link.evenswing.json'])
  })

  test('a side folder, or a folder of earlier versions, that is a link is refused', async () => {
    for (const which of ['side', 'revisions']) {
      const { path, side } = withJob()
      const elsewhere = scratchFolder()
      if (which === 'revisions') mkdirSync(side)
      symlinkSync(elsewhere, which === 'side' ? side : join(side, NAME))
      const fault = await fails(writeJobFile(path, jobText('after'), null))
      expect(fault).toMatchObject({ code: 'file.notPlain' })
      expect(fault?.message).toContain('is a link')
      expect(await fails(listRevisions(path))).toMatchObject({ code: 'file.notPlain' })
      expect(readdirSync(elsewhere)).toEqual([])
      expect(readFileSync(path, 'utf8')).toBe(jobText('before'))
    }
  })
})

test('a file in the side folder’s place is said, and the job stays', async () => {
  const { path, side } = withJob()
  writeFileSync(side, 'x')
  const fault = await fails(writeJobFile(path, jobText('after'), null))
  expect(fault).toMatchObject({ code: 'file.notPlain' })
  expect(fault?.message).toMatch(/is a file where Evenswing keeps earlier versions/)
  expect(readFileSync(path, 'utf8')).toBe(jobText('before'))
  expect(readFileSync(side, 'utf8')).toBe('x')
})

test('what cut-off saves left goes with any later save, of another job too; what is in use stays', async () => {
  const { folder, path, side } = withJob()
  const revisions = join(side, NAME)
  const sheets = join(folder, 'sheets')
  for (const made of [revisions, sheets]) mkdirSync(made, { recursive: true })
  const old = [
    join(side, 'other.evenswing.json.abcdefghijkl.tmp'),
    join(side, 'other.evenswing.json.lock.abcdefgh'),
    join(sheets, '.evenswing-abcdefghijkl.tmp'),
    join(folder, '.evenswing-abcdefghijkl.tmp'),
  ]
  const own = [
    join(side, `${NAME}.abcdefghijkl.tmp`),
    join(revisions, '2026-01-01T00-00-00-000Z-abc.json.tmp'),
  ]
  const inUse = [
    join(side, 'other.evenswing.json.ABCDEFGHIJKL.tmp'),
    join(sheets, '.evenswing-ABCDEFGHIJKL.tmp'),
  ]
  for (const file of [...old, ...own, ...inUse]) writeFileSync(file, 'x')
  const then = Date.now() / 1000 - 7200
  for (const file of old) utimesSync(file, then, then)
  await writeJobFile(path, jobText('after'), null)
  await exportBeside(sheets, 'a.pdf', Buffer.from('x'))
  await exportTo(join(folder, 'b.pdf'), Buffer.from('x'))
  for (const file of [...old, ...own]) expect(existsSync(file), file).toBe(false)
  for (const file of inUse) expect(existsSync(file), file).toBe(true)
})

describe('locks', () => {
  test.each([
    ['a machine that crashed', 'crashed-machine', 0],
    ['a machine whose clock is a day ahead', 'fast-machine', 86_400],
    ['nobody: it was cut off before it wrote its name', null, 0],
  ])('a lock of %s gives way', async (_, host, ahead) => {
    const { path, side, lock } = withJob()
    mkdirSync(side)
    writeFileSync(lock, host === null ? '' : `1 ${host} abc 000000007`)
    const time = Date.now() / 1000 + ahead
    utimesSync(lock, time, time)
    await writeJobFile(path, jobText('after'), null, { silence: 0, pause: asIs })
    expect(readFileSync(path, 'utf8')).toBe(jobText('after'))
    expect(existsSync(lock)).toBe(false)
  })

  test('a lock that beats is waited for, however often one looks', async () => {
    const { path, side, lock } = withJob()
    mkdirSync(side)
    let looks = 0
    const beat = () => writeFileSync(lock, `1 another-machine abc ${String(looks).padStart(9, '0')}`)
    beat()
    await writeJobFile(path, jobText('after'), null, {
      silence: 0,
      pause: async () => {
        expect(readFileSync(path, 'utf8')).toBe(jobText('before'))
        if (++looks < 200) beat()
        else rmSync(lock)
      },
    })
    expect(looks).toBe(200)
    expect(readFileSync(path, 'utf8')).toBe(jobText('after'))
  })

  test('a lock beats while its owner works', async () => {
    const lock = join(scratchFolder(), 'x.lock')
    await withLock(lock, 'x', asIs, async () => {
      const first = readFileSync(lock, 'utf8')
      await expect.poll(() => readFileSync(lock, 'utf8'), { timeout: 100_000 }).not.toBe(first)
    })
    expect(existsSync(lock)).toBe(false)
  })

  test('who lost his lock, asleep say, notices before he writes, and leaves the other’s lock', async () => {
    const lock = join(scratchFolder(), 'x.lock')
    const work = withLock(lock, 'x', asIs, async (stillMine) => {
      await stillMine()
      rmSync(lock)
      writeFileSync(lock, '1 another-machine abc 000000000')
      await stillMine()
    })
    await expect(work).rejects.toMatchObject({ code: 'file.busy' })
    expect(readFileSync(lock, 'utf8')).toContain('another-machine')
  })
})

test('saves of one program are put in turn: the last one asked for stands', async () => {
  const { path } = withJob()
  const marks = Array.from({ length: 12 }, (_, i) => `m${i}`)
  await Promise.all(marks.map((mark) => writeJobFile(path, jobText(mark), null)))
  expect(readFileSync(path, 'utf8')).toBe(jobText('m11'))
})

test('the same save twice, on the stamp of before, accuses nobody', async () => {
  const { path } = withJob()
  const { stamp } = await readJobFile(path)
  const stamps = await Promise.all([1, 2].map(() => writeJobFile(path, jobText('after'), stamp)))
  expect(stamps[0]).toBe(stamps[1])
  expect(await listRevisions(path)).toHaveLength(1)
  expect(await fails(writeJobFile(path, jobText('other'), stamp))).toMatchObject({ code: 'file.changed' })
})
