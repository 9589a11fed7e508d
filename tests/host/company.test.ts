/** Two hosts on one book: no edit of either is lost, nothing is torn, nobody is told a system's error. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { parseJob } from '../../src-core/job/parse.ts'
import { SIDE_FOLDER } from '../../src-main/services/fileNames.ts'
import { figure } from './figure.ts'
import { ROOT, runProgram, scratchFolder } from './helpers.ts'
import { SEED } from '../helpers/seed.ts'

const SAVE_TOGETHER = fileURLToPath(new URL('./saveTogether.ts', import.meta.url))
const SECONDS = Number(process.env['EVENSWING_COMPANY_SECONDS'] ?? 4)

interface Did {
  readonly counted: Readonly<Record<string, number>>
  readonly made: readonly string[]
  readonly listed: number
  readonly revisions: number
  readonly turnedAway: number
  readonly wrong: readonly string[]
}

test(
  `two hosts edit one book at random for ${SECONDS} s`,
  async () => {
    const folder = scratchFolder()
    const book = join(folder, 'book')
    mkdirSync(book)
    const job = JSON.parse(readFileSync(join(ROOT, 'examples/flat-link.evenswing'), 'utf8')) as object
    for (const n of [0, 1, 2, 3])
      writeFileSync(
        join(book, `counter-${n}.evenswing`),
        `${JSON.stringify({ ...job, notes: '0 by nobody' })}\n`,
      )
    // The book's reader is started from a file beside the program, or from the sources.
    const ends = await Promise.all(
      ['1', '2'].map((own) =>
        runProgram(process.execPath, [
          ...['--import', import.meta.resolve('tsx'), SAVE_TOGETHER],
          ...[book, join(folder, `user-${own}`), own, String(SEED), String(SECONDS)],
        ]),
      ),
    )
    for (const end of ends) expect([end.code, end.err], `EVENSWING_SEED=${SEED}`).toEqual([0, ''])
    const did = ends.map((end) => JSON.parse(end.out) as Did)
    for (const { wrong } of did) expect(wrong, `EVENSWING_SEED=${SEED}`).toEqual([])
    const sum = (of: (d: Did) => number) => did.reduce((s, d) => s + of(d), 0)
    let edits = 0
    for (const name of Object.keys(did[0]!.counted)) {
      const counted = sum((d) => d.counted[name]!)
      const { notes } = JSON.parse(readFileSync(join(book, `${name}.evenswing`), 'utf8')) as { notes: string }
      expect([name, Number(notes.split(' ')[0])]).toEqual([name, counted])
      edits += counted
    }
    // A new name goes to exactly one of the two.
    const made = did.flatMap((d) => d.made)
    expect(new Set(made).size).toBe(made.length)
    const jobs = readdirSync(book).filter((name) => name.endsWith('.evenswing'))
    expect(jobs).toHaveLength(4 + made.length)
    for (const name of jobs) expect(parseJob(readFileSync(join(book, name), 'utf8')).ok, name).toBe(true)
    const left = readdirSync(join(book, SIDE_FOLDER), { recursive: true, encoding: 'utf8' })
    expect(left.filter((name) => /\.(tmp|lock)$/.test(name))).toEqual([])
    figure(
      `two hosts on one book for ${SECONDS} s: ${edits} edits, ${made.length} new jobs, ${sum((d) => d.listed)} listings, ` +
        `${sum((d) => d.revisions)} earlier versions read, ${sum((d) => d.turnedAway)} turned away in words, none lost or torn`,
    )
    for (const { counted } of did) expect(Object.values(counted).some((n) => n > 0)).toBe(true)
  },
  600_000 + SECONDS * 2000,
)
