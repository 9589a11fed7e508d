/**
 * A host that works on a book beside others: counts up in jobs, adds new ones, lists, reads earlier versions, all at
 * random. Arguments: the book's folder, the user's own folder, a number of its own, a seed, seconds. Says what it did.
 */
import { readFileSync } from 'node:fs'
import type { FileRef } from '../../src-core/bridge/reply.ts'
import { HostError } from '../../src-main/services/hostError.ts'
import { createHostServices } from '../../src-main/services/hostServices.ts'
import { createRandom } from './savingRandom.ts'

const [book, userData, own, seed, seconds] = process.argv.slice(2) as [string, string, string, string, string]
const random = createRandom(Number(seed) * 7 + Number(own))
const services = createHostServices({
  version: '0',
  shell: 'browser',
  dialogs: null,
  examplesFolder: book,
  jobFolder: book,
  jobFolderIsFixed: true,
  userData,
  paint: () => Promise.reject(new Error('nothing paints here')),
})
const COUNTERS = ['counter-0', 'counter-1', 'counter-2', 'counter-3']
const did = {
  counted: Object.fromEntries(COUNTERS.map((name) => [name, 0])),
  made: [] as string[],
  listed: 0,
  revisions: 0,
  turnedAway: 0,
  wrong: [] as string[],
}
/** What may be said to one of two that work on the same thing. */
const TURNED_AWAY = ['file.changed', 'file.busy', 'file.exists', 'file.gone']

const files = new Map<string, FileRef>()
async function fileOf(name: string): Promise<FileRef> {
  const known = files.get(name) ?? (await services.bookFile(name))
  files.set(name, known)
  return known
}

async function count(): Promise<void> {
  const name = random.of(COUNTERS)
  const read = await services.readJob(await fileOf(name))
  const job = JSON.parse(read.text) as { notes: string }
  // Whose hand it was is in the text, so that no two write the very same.
  job.notes = `${Number(job.notes.split(' ')[0]) + 1} by ${own}`
  await services.writeJob(read.file, `${JSON.stringify(job, null, 2)}\n`, read.stamp)
  did.counted[name]!++
}

const template = JSON.parse(readFileSync(`${book}/counter-0.evenswing`, 'utf8')) as object
async function make(): Promise<void> {
  const name = `new-${Math.floor(random.next() * 400)}`
  await services.writeJob(
    await fileOf(name),
    `${JSON.stringify({ ...template, title: name, notes: own })}\n`,
    '',
  )
  did.made.push(name)
}

async function list(): Promise<void> {
  const { entries } = await services.listBook()
  for (const entry of entries)
    if (entry.fault !== null && !entry.waiting) did.wrong.push(`${entry.file.name}: ${entry.fault}`)
  did.listed++
}

async function lookBack(): Promise<void> {
  const file = await fileOf(random.of(COUNTERS))
  for (const { id } of (await services.listRevisions(file)).slice(0, 2)) {
    JSON.parse(await services.readRevision(file, id))
    did.revisions++
  }
}

const end = performance.now() + Number(seconds) * 1000
while (performance.now() < end) {
  const chance = random.next()
  const work = chance < 0.7 ? count : chance < 0.8 ? make : chance < 0.9 ? lookBack : list
  try {
    await work()
  } catch (error) {
    if (error instanceof HostError && TURNED_AWAY.includes(error.code)) did.turnedAway++
    else did.wrong.push(`${work.name}: ${String(error)}`)
  }
}
process.stdout.write(JSON.stringify({ ...did, wrong: did.wrong.slice(0, 10) }), () => process.exit(0))
