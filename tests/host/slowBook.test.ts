/** The book on drives that are slow, lost or not there, with files that hold too much or are oddly named. */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { createBookPlace } from '../../src-main/services/book/bookPlace.ts'
import { createBook } from '../../src-main/services/book/listBook.ts'
import type { Answer, Order } from '../../src-main/services/book/readerMessages.ts'
import { startReader, type Reader } from '../../src-main/services/book/readerThread.ts'
import { createHostServices } from '../../src-main/services/hostServices.ts'
import { jobFolderOf } from '../../src-main/services/jobFolder.ts'
import { jobText, noPictures, ROOT, runProgram, scratchFolder, wholeBook } from './helpers.ts'

const EXAMPLE = readFileSync(join(ROOT, 'examples', 'flat-link.evenswing'), 'utf8')
const LIST_ONCE = fileURLToPath(new URL('./listOnce.ts', import.meta.url))
const FOLDER = '/book'
const jobs = (n: number) =>
  Array.from({ length: n }, (_, i) => `job-${String(i).padStart(4, '0')}.evenswing.json`)
const KNOWN = { summary: null, fault: 'read' } as const

/** A drive that a fake reader reads: some of its files never answer, some only after a word. */
class Drive {
  names: readonly string[]
  disk = 7
  readOnly = false
  readonly silent = new Set<string>()
  /** Each file comes in so many parts, ten seconds in all. */
  parts = 0
  namesAnswer = true
  /** What its folder waits for before it answers. */
  opening: Promise<void> = Promise.resolve()
  /** Reading waits for this many more files. */
  reads = Infinity
  readonly asked: string[] = []
  readers = 0
  #held: (() => void)[] = []

  constructor(names: readonly string[]) {
    this.names = names
  }
  release(): void {
    this.reads = Infinity
    for (const go of this.#held.splice(0)) go()
  }
  readonly start = (): Reader => {
    this.readers++
    let isStopped = false
    const reader: Reader = {
      onanswer: () => undefined,
      onend: () => undefined,
      stop: () => (isStopped = true),
      ask: (order) => void this.#serve(order, (answer) => isStopped || reader.onanswer(answer)),
    }
    queueMicrotask(() => reader.onanswer({ kind: 'ready' }))
    return reader
  }
  async #serve(order: Order, tell: (answer: Answer) => void): Promise<void> {
    await Promise.resolve()
    if (order.kind === 'names') {
      await this.opening
      if (this.namesAnswer)
        tell({ kind: 'names', names: this.names, odd: [], disk: this.disk, readOnly: this.readOnly })
      return
    }
    for (const name of order.names) {
      if (order.kind === 'read') {
        if (this.reads-- <= 0) await new Promise<void>((go) => this.#held.push(go))
        this.asked.push(name)
      }
      if (order.kind === 'read')
        for (let n = 0; n < this.parts; n++) {
          await new Promise((done) => setTimeout(done, 10_000 / this.parts))
          tell({ kind: 'part' })
        }
      if (this.silent.has(name)) return
      const time = 1_700_000_000_000 - this.names.indexOf(name)
      if (order.kind === 'look') tell({ kind: 'look', name, look: { size: 1, time, readOnly: false } })
      else tell({ kind: 'read', name, known: KNOWN, isSure: true })
    }
  }
}

const bookOn = (drive: Drive, userData: string) =>
  createBook(userData, createBookPlace(userData, null), drive.start)

describe('with a drive that is slow or lost', () => {
  beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] }))
  afterEach(() => void vi.useRealTimers())
  /** Lets hung files run out of patience until the work is over. */
  async function patiently<T>(work: Promise<T>): Promise<{ value: T; waits: number }> {
    let isOver = false
    let waits = 0
    void work.finally(() => (isOver = true)).catch(() => undefined)
    while (!isOver) {
      // Files are written meanwhile: the loop turns until they are.
      for (let i = 0; i < 20 && !isOver; i++) await new Promise((done) => setImmediate(done))
      if (isOver || vi.getTimerCount() === 0) continue
      waits++
      await vi.advanceTimersByTimeAsync(8000)
    }
    return { value: await work, waits }
  }

  test('what answers is listed, what does not is said, and is tried again', async () => {
    const userData = scratchFolder()
    const drive = new Drive(jobs(40))
    drive.silent.add(drive.names[3]!)
    const book = bookOn(drive, userData)
    const { value } = await patiently(book.whole(FOLDER))
    expect(value.files).toHaveLength(40)
    expect(value.files.filter((f) => f.fault === 'read')).toHaveLength(39)
    const bad = value.files.find((f) => f.fault !== 'read')
    expect(bad).toMatchObject({ name: drive.names[3], waiting: false, mayOpen: true })
    expect(bad?.fault).toMatch(/does not answer/)
    drive.silent.clear()
    drive.asked.length = 0
    const again = await patiently(book.whole(FOLDER))
    expect(again.value.files.every((f) => f.fault === 'read')).toBe(true)
    expect(drive.asked).toEqual([drive.names[3]])
  })

  test('jobs with photographs that each take longer than patience are listed, part by part', async () => {
    const drive = new Drive(jobs(40))
    drive.parts = 4
    const whole = bookOn(drive, scratchFolder()).whole(FOLDER)
    let isOver = false
    void whole.finally(() => (isOver = true))
    while (!isOver) {
      for (let i = 0; i < 20; i++) await new Promise((done) => setImmediate(done))
      await vi.advanceTimersByTimeAsync(500)
    }
    expect((await whole).files.filter((f) => f.fault === 'read')).toHaveLength(40)
  })

  test('a lost drive is given up after some files, and what was read before is kept', async () => {
    const userData = scratchFolder()
    const drive = new Drive(jobs(200))
    const book = bookOn(drive, userData)
    await patiently(book.whole(FOLDER))
    for (const name of drive.names) drive.silent.add(name)
    const { value, waits } = await patiently(book.whole(FOLDER))
    expect(waits).toBeLessThan(8)
    expect(value.files).toHaveLength(200)
    expect(value.waiting).toBe(0)
    expect(value.files.every((f) => /does not answer/.test(f.fault ?? '') && f.modified !== '')).toBe(true)
  })

  test('a folder that may only be read says so with its list', async () => {
    const drive = new Drive(jobs(3))
    drive.readOnly = true
    expect((await patiently(bookOn(drive, scratchFolder()).list(FOLDER))).value.readOnly).toBe(true)
  })

  test('a folder that does not answer is said', async () => {
    const drive = new Drive([])
    drive.namesAnswer = false
    const work = bookOn(drive, scratchFolder()).list(FOLDER)
    await expect(patiently(work)).rejects.toMatchObject({ code: 'book.gone', message: /does not answer/ })
  })

  test('the list is there before its jobs are read; news bring the rest', async () => {
    const drive = new Drive(jobs(50))
    drive.reads = 10
    const book = bookOn(drive, scratchFolder())
    const listed = book.list(FOLDER)
    await vi.waitUntil(() => drive.asked.length === 10, 100_000)
    await vi.advanceTimersByTimeAsync(600)
    const first = await listed
    expect(first.files.map((f) => f.name)).toEqual(drive.names)
    expect(first.waiting).toBe(40)
    // Newest first, so that what stands on the screen is read first.
    expect(first.files.slice(0, 10).every((f) => !f.waiting)).toBe(true)
    drive.release()
    await patiently(book.whole(FOLDER))
    const news = book.news(FOLDER, first.mark)
    expect(news.waiting).toBe(0)
    expect(news.files.map((f) => f.name).sort()).toEqual([...drive.names].slice(10))
  })

  test('the wait for the first list counts from when it is asked for', async () => {
    const drive = new Drive(jobs(50))
    drive.reads = 0
    let open!: () => void
    drive.opening = new Promise((done) => (open = done))
    const listed = bookOn(drive, scratchFolder()).list(FOLDER)
    await new Promise((done) => setImmediate(done))
    await vi.advanceTimersByTimeAsync(600)
    open()
    // No timer goes on any more: it comes without waiting for a job, though not before their dates.
    const { files } = await listed
    expect(files.map((f) => [f.name, f.modified !== ''])).toEqual(drive.names.map((name) => [name, true]))
  })

  test('a listing that was cut off goes on where it was', async () => {
    const userData = scratchFolder()
    const drive = new Drive(jobs(1200))
    drive.reads = 1100
    await patiently(bookOn(drive, userData).list(FOLDER))
    await vi.waitUntil(() => readdirSync(userData).includes('book') && keptIn(userData) >= 1000, 100_000)
    const next = new Drive(drive.names)
    const { value } = await patiently(bookOn(next, userData).whole(FOLDER))
    expect(value.files).toHaveLength(1200)
    expect(next.asked.length).toBeLessThanOrEqual(200)
  })

  test('the place where a drive would be is not shown as an empty book', async () => {
    const userData = scratchFolder()
    const drive = new Drive(jobs(3))
    await patiently(bookOn(drive, userData).whole(FOLDER))
    drive.names = []
    // Emptied by its owner.
    expect((await patiently(bookOn(drive, userData).list(FOLDER))).value.files).toEqual([])
  })

  test('an empty folder on another disk than its jobs were on is said', async () => {
    const userData = scratchFolder()
    const drive = new Drive(jobs(3))
    await patiently(bookOn(drive, userData).whole(FOLDER))
    drive.names = []
    drive.disk = 8
    await expect(patiently(bookOn(drive, userData).list(FOLDER))).rejects.toMatchObject({ code: 'book.gone' })
  })
})

function keptIn(userData: string): number {
  const [name] = readdirSync(join(userData, 'book')).filter((n) => n.endsWith('.json'))
  if (!name) return 0
  const { entries } = JSON.parse(readFileSync(join(userData, 'book', name), 'utf8')) as { entries: object }
  return Object.keys(entries).length
}

test('a job that bursts the reader’s memory is said; the others are listed', async () => {
  const folder = scratchFolder()
  const jobFolder = join(folder, 'jobs')
  mkdirSync(jobFolder)
  const job = JSON.parse(EXAMPLE) as object
  for (const name of jobs(3)) writeFileSync(join(jobFolder, name), EXAMPLE)
  writeFileSync(
    join(jobFolder, 'big.evenswing.json'),
    JSON.stringify({ ...job, notes: 'x\n'.repeat(20_000_000) }),
  )
  const start = () => startReader(64)
  const book = createBook(join(folder, 'user'), createBookPlace(join(folder, 'user'), null), start)
  const { files } = await book.whole(jobFolder)
  expect(files.filter((f) => f.summary)).toHaveLength(3)
  expect(files.find((f) => !f.summary)).toMatchObject({
    name: 'big.evenswing.json',
    fault: /too much/,
    mayOpen: true,
  })
}, 600_000)

test('a program that has listed a book and has nothing else to do ends by itself, not before', async () => {
  const folder = scratchFolder()
  const jobFolder = join(folder, 'jobs')
  mkdirSync(jobFolder)
  for (const name of jobs(3)) writeFileSync(join(jobFolder, name), EXAMPLE)
  const args = ['--import', import.meta.resolve('tsx'), LIST_ONCE, jobFolder, join(folder, 'user')]
  expect(await runProgram(process.execPath, args)).toEqual({ code: 0, signal: null, out: '3\n', err: '' })
})

test.skipIf(process.platform === 'win32')('a job with an odd name is listed, or said', async () => {
  const folder = scratchFolder()
  const jobFolder = mkdtempSync(join(folder, 'jobs-'))
  const odd = [
    'LINK.EVENSWING.JSON',
    '.hidden.evenswing.json',
    'plain.json',
    'a\nb.evenswing.json',
    'a:b.evenswing.json',
  ]
  for (const name of odd) writeFileSync(join(jobFolder, name), EXAMPLE)
  writeFileSync(
    Buffer.concat([Buffer.from(`${jobFolder}/caf`), Buffer.from([0xe9]), Buffer.from('.evenswing.json')]),
    EXAMPLE,
  )
  for (const name of ['._link.evenswing.json', 'other.json', 'shop.evenswing-library.json', 'notes.txt'])
    writeFileSync(join(jobFolder, name), '{"format":"other"}')
  const files = await wholeBook(join(folder, 'user'), jobFolder)
  expect(
    files
      .filter((f) => f.summary)
      .map((f) => f.name)
      .sort(),
  ).toEqual([...odd].sort())
  expect(files.filter((f) => f.fault).map((f) => [f.name, f.mayOpen])).toEqual([
    ['caf\ufffd.evenswing.json', false],
  ])
})

describe('a folder that is not there', () => {
  const services = (userData: string, jobFolder: string, jobFolderIsFixed: boolean) =>
    createHostServices({
      version: '0',
      shell: 'browser',
      dialogs: null,
      examplesFolder: join(ROOT, 'examples'),
      jobFolder,
      jobFolderIsFixed,
      userData,
      paint: noPictures,
    })

  test('one that the environment names is neither made nor shown as an empty book', async () => {
    const folder = scratchFolder()
    const gone = join(folder, 'drive')
    const s = services(join(folder, 'user'), gone, true)
    await expect(s.listBook()).rejects.toMatchObject({ code: 'book.gone' })
    const works = [
      () => s.bookFile('job').then((file) => s.writeJob(file, jobText('x'), null)),
      () => s.writeLibrary(JSON.stringify({ format: 'evenswing-library' }), null),
      () => s.exportFile('sheet', 'pdf', new Uint8Array([1])),
    ]
    for (const work of works) await expect(work()).rejects.toMatchObject({ code: 'book.gone' })
    expect(readdirSync(folder).filter((n) => n !== 'user')).toEqual([])
  })

  test('the usual one is made at its first use, and not again once it held jobs', async () => {
    const folder = scratchFolder()
    const usual = join(folder, 'Evenswing')
    const s = services(join(folder, 'user'), usual, false)
    const file = await s.bookFile('job')
    await s.writeJob(file, EXAMPLE, null)
    await vi.waitFor(
      async () => expect(await s.listBook()).toMatchObject({ waiting: 0, entries: [{}] }),
      100_000,
    )
    await vi.waitUntil(() => keptIn(join(folder, 'user')) === 1, 100_000)
    rmSync(usual, { recursive: true })
    await expect(s.writeJob(file, jobText('x'), null)).rejects.toMatchObject({ code: 'book.gone' })
    await expect(s.listBook()).rejects.toMatchObject({ code: 'book.gone' })
    expect(readdirSync(folder)).toEqual(['user'])
  })

  test('a stroke at the end of its name changes nothing', async () => {
    const folder = scratchFolder()
    const { jobFolder } = jobFolderOf({ EVENSWING_JOBS: `${folder}//` })
    expect(jobFolder).toBe(folder)
    const s = services(join(folder, '.user'), `${folder}/`, true)
    expect((await s.readSettings()).bookFolder).toBe((await s.bookFile('job')).folder)
  })
})
