/** The side folder's old name: what lies there is taken over, by one host or several, or is read where it is. */
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { OLD_SIDE_FOLDER, SIDE_FOLDER } from '../../src-main/services/fileNames.ts'
import { listRevisions, readRevision, writeJobFile } from '../../src-main/services/jobStore.ts'
import { asOrdinaryUser, bundled, jobText, ROOT, runProgram, scratchFolder } from './helpers.ts'
import { versionText } from './savingVersions.ts'

const NAME = 'job.evenswing.json'
const fails = (work: Promise<unknown>) =>
  work.then(() => null).catch((e: { code: string; message: string }) => e)
const idOf = (n: number) => `2026-01-${String(n).padStart(2, '0')}T08-00-00-000Z-abc${n}`

/** A folder with a job and `count` versions of it in the old place. */
function withOld(count: number, folder = scratchFolder()) {
  const path = join(folder, NAME)
  const [old, side] = [join(folder, OLD_SIDE_FOLDER), join(folder, SIDE_FOLDER)]
  writeFileSync(path, jobText('before'))
  mkdirSync(join(old, NAME), { recursive: true })
  for (let n = 1; n <= count; n++) writeFileSync(join(old, NAME, `${idOf(n)}.json`), jobText(`v${n}`))
  return { folder, path, old, side }
}

test('the first save takes the old one over, versions of other jobs too', async () => {
  const { folder, path, old, side } = withOld(3)
  mkdirSync(join(old, 'other.evenswing.json'))
  writeFileSync(join(old, 'other.evenswing.json', `${idOf(9)}.json`), jobText('other'))
  expect((await listRevisions(path)).map((r) => r.id)).toEqual([3, 2, 1].map(idOf))
  await writeJobFile(path, jobText('after'), null)
  expect(existsSync(old)).toBe(false)
  const ids = (await listRevisions(path)).map((r) => r.id)
  expect(ids.slice(1)).toEqual([3, 2, 1].map(idOf))
  expect(await readRevision(path, ids[0]!)).toBe(jobText('before'))
  expect(await readRevision(path, idOf(2))).toBe(jobText('v2'))
  expect(await listRevisions(join(folder, 'other.evenswing.json'))).toHaveLength(1)
  expect(readdirSync(side).sort()).toEqual([NAME, 'other.evenswing.json'])
})

test('where the new one is there already both come together, and a version is in it once', async () => {
  const { path, old, side } = withOld(2)
  mkdirSync(join(old, 'other.evenswing.json'))
  mkdirSync(join(side, NAME), { recursive: true })
  writeFileSync(join(side, NAME, `${idOf(2)}.json`), jobText('v2'))
  writeFileSync(join(side, NAME, `${idOf(5)}.json`), jobText('v5'))
  expect((await listRevisions(path)).map((r) => r.id)).toEqual([5, 2, 1].map(idOf))
  expect(await readRevision(path, idOf(1))).toBe(jobText('v1'))
  await writeJobFile(path, jobText('after'), null)
  expect((await listRevisions(path)).map((r) => r.id).slice(1)).toEqual([5, 2, 1].map(idOf))
  expect(existsSync(old)).toBe(false)
})

test('what is no version stays where it is: nothing of somebody else’s is moved or removed', async () => {
  const { folder, path, old, side } = withOld(1)
  const elsewhere = scratchFolder()
  writeFileSync(join(elsewhere, `${idOf(7)}.json`), jobText('theirs'))
  writeFileSync(join(old, 'notes.txt'), 'mine')
  symlinkSync(elsewhere, join(old, 'linked.evenswing.json'))
  mkdirSync(join(side, 'linked.evenswing.json'), { recursive: true })
  await writeJobFile(path, jobText('after'), null)
  expect(readdirSync(old).sort()).toEqual(['linked.evenswing.json', 'notes.txt'])
  expect(readdirSync(elsewhere)).toHaveLength(1)
  expect(await listRevisions(join(folder, 'linked.evenswing.json'))).toEqual([])
})

test.skipIf(process.platform === 'win32')(
  'a link in its place is refused, and nothing is saved',
  async () => {
    const folder = scratchFolder()
    const { old: elsewhere } = withOld(1)
    const path = join(folder, NAME)
    writeFileSync(path, jobText('before'))
    symlinkSync(elsewhere, join(folder, OLD_SIDE_FOLDER))
    const fault = await fails(writeJobFile(path, jobText('after'), null))
    expect(fault).toMatchObject({ code: 'file.notPlain' })
    expect(fault?.message).toContain('is a link')
    expect(await fails(listRevisions(path))).toMatchObject({ code: 'file.notPlain' })
    expect(readFileSync(path, 'utf8')).toBe(jobText('before'))
    expect(readdirSync(join(elsewhere, NAME))).toHaveLength(1)
  },
)

test('a file in its place is not ours: it stays, and the job is saved', async () => {
  const folder = scratchFolder()
  const path = join(folder, NAME)
  for (const name of [NAME, OLD_SIDE_FOLDER]) writeFileSync(join(folder, name), jobText('before'))
  await writeJobFile(path, jobText('after'), null)
  expect(await listRevisions(path)).toHaveLength(1)
  expect(readFileSync(join(folder, OLD_SIDE_FOLDER), 'utf8')).toBe(jobText('before'))
})

test.skipIf(process.platform === 'win32')(
  'in a read-only folder the old one is read, and that is said',
  async () => {
    const { folder, path, old } = withOld(2)
    for (const each of [join(old, NAME), old, folder]) chmodSync(each, 0o555)
    const [listed, text, fault] = await asOrdinaryUser(async () => [
      await listRevisions(path),
      await readRevision(path, idOf(1)),
      await fails(writeJobFile(path, jobText('after'), null)),
    ])
    for (const each of [folder, old, join(old, NAME)]) chmodSync(each, 0o755)
    expect(listed.map((r) => r.id)).toEqual([2, 1].map(idOf))
    expect(text).toBe(jobText('v1'))
    expect(fault).toMatchObject({ code: 'file.denied', message: expect.stringMatching(/may only be read/) })
    expect(existsSync(join(folder, SIDE_FOLDER))).toBe(false)
  },
)

test.skipIf(process.platform === 'win32' || process.geteuid?.() !== 0)(
  'one that belongs to somebody else and may not be moved is read where it is; saving goes on',
  async () => {
    const { folder, path, old } = withOld(2)
    // Everybody may write there, and move only what is his own.
    chmodSync(folder, 0o1777)
    chmodSync(path, 0o666)
    const ids = await asOrdinaryUser(async () => {
      const mine = join(folder, 'mine.evenswing')
      await writeJobFile(mine, jobText('mine'), null)
      await writeJobFile(mine, jobText('again'), null)
      return [(await listRevisions(path)).map((r) => r.id), (await listRevisions(mine)).length]
    })
    expect(ids).toEqual([[2, 1].map(idOf), 1])
    expect(readdirSync(join(old, NAME))).toHaveLength(2)
  },
)

test('two hosts that take it over at once lose no version', async () => {
  const program = await bundled(join(ROOT, 'tests/host/saveCount.ts'))
  for (let round = 0; round < 4; round++) {
    const { folder, path, old } = withOld(4)
    const others = Array.from({ length: 30 }, (_, i) => `other-${i}.evenswing.json`)
    for (const name of others) {
      mkdirSync(join(old, name))
      for (const n of [1, 2, 3]) writeFileSync(join(old, name, `${idOf(n)}.json`), jobText(`${name} ${n}`))
    }
    // One of them finds the new folder there already.
    if (round % 2) mkdirSync(join(folder, SIDE_FOLDER, others[0]!), { recursive: true })
    const hosts = [1, 2, 3].map((n) => join(folder, `own-${n}.evenswing`))
    for (const own of hosts) writeFileSync(own, versionText(0))
    const runs = await Promise.all(
      hosts.map((own, n) => runProgram(process.execPath, [program, own, '3', String(n)])),
    )
    expect(runs.map((run) => [run.code, run.err])).toEqual(Array(3).fill([0, '']))
    for (const name of others)
      expect((await listRevisions(join(folder, name))).map((r) => r.id)).toEqual([3, 2, 1].map(idOf))
    expect((await listRevisions(path)).map((r) => r.id)).toEqual([4, 3, 2, 1].map(idOf))
    for (const own of hosts) expect(await listRevisions(own)).toHaveLength(3)
    expect(existsSync(old)).toBe(false)
  }
}, 600_000)
