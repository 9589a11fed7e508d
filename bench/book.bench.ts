/** The job book at 5,000 jobs: listed cold, warm from the cache on disk, listed again, and indexed for search. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createBookPlace } from '../src-main/services/book/bookPlace.ts'
import { createBook } from '../src-main/services/book/listBook.ts'
import { bookSearch } from '../src-renderer/state/bookSearch.ts'
import { times, type BenchRow } from './timing.ts'

const JOBS = 5000

export async function bookBench(): Promise<BenchRow[]> {
  const folder = mkdtempSync(join(tmpdir(), 'evenswing-book-'))
  const userData = mkdtempSync(join(tmpdir(), 'evenswing-user-'))
  try {
    const example = new URL('../examples/flat-link.evenswing', import.meta.url)
    const job = JSON.parse(readFileSync(example, 'utf8')) as object
    for (let i = 0; i < JOBS; i++)
      writeFileSync(
        join(folder, `job-${i}.evenswing`),
        JSON.stringify({ ...job, title: `Job ${i}`, partNumber: `P-${i * 7919}` }),
      )
    const newBook = () => createBook(userData, createBookPlace(userData, folder))
    const book = newBook()
    const [usable] = await timed(() => book.list(folder))
    const [rest] = await timed(() => book.whole(folder))
    const cold = usable + rest
    const next = newBook()
    const [soon] = await timed(() => next.list(folder))
    const [warm, { files }] = await timed(() => next.whole(folder))
    const [again] = await timed(() => book.whole(folder))
    const entries = files.map((f) => ({ ...f, file: { id: f.name, name: f.name, folder } }))
    const [index, search] = await timed(() => bookSearch(entries))
    const words = ['crnk link', 'P-7919', 'job 4321', 'mild stel', 'bench lathe', 'flame cut', 'zzzz', 'j']
    const found: number[] = []
    for (const word of words) found.push((await timed(() => search.find(word)))[0])
    const of = `${JOBS} jobs`
    return [
      { name: `book: ${of} usable for the first time`, ms: usable, ratio: times(cold, usable) },
      { name: `book: ${of} all read for the first time`, ms: cold },
      { name: `book: ${of} usable at the next start`, ms: soon, ratio: times(cold, soon) },
      { name: `book: ${of} listed at the next start`, ms: soon + warm, ratio: times(cold, soon + warm) },
      { name: `book: ${of} listed again`, ms: again, ratio: times(cold, again) },
      { name: `book: ${of} indexed for search`, ms: index },
      { name: `book: slowest of ${words.length} searches in ${of}`, ms: Math.max(...found) },
    ]
  } finally {
    rmSync(folder, { recursive: true, force: true })
    rmSync(userData, { recursive: true, force: true })
  }
}

/** ms of one call, and what it gave. */
async function timed<T>(run: () => T | Promise<T>): Promise<[number, T]> {
  const start = performance.now()
  const value = await run()
  return [performance.now() - start, value]
}
