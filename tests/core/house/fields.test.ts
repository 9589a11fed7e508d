/** Every field of the job is whole: it has a class, words in comparisons, a way through the library, a place in the window. */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { compareJobs } from '../../../src-core/book/compare.ts'
import { hasWords } from '../../../src-core/book/fieldWords.ts'
import { FIELD_CLASSES, REQUIRED, type FieldMeaning } from '../../../src-core/job/fieldClasses.ts'
import { jobSchema, type Job } from '../../../src-core/job/schema.ts'
import { EMPTY_LIBRARY, librarySchema, type Section } from '../../../src-core/shop/schema.ts'
import { collect, copyIntoJob, offers, patternOf } from '../../../src-core/shop/use.ts'
import { boreCut, drillCut, jobWith } from '../../helpers/jobs.ts'
import { fieldsOf, otherValue, placesOf, sampleOf, valueAt, withValue } from '../../helpers/schemaFields.ts'
import { WINDOW_FIELDS } from '../../helpers/windowFields.ts'

const fields = fieldsOf(jobSchema)
const paths = fields.map((f) => f.path)
/** As many as the widest union has options, so that every field stands in one of them. */
const SAMPLES = Array.from({ length: 24 }, (_, i) => i).map((choice) => {
  const job = jobSchema.parse(sampleOf(jobSchema, choice)) as Job
  return { job, places: placesOf(jobSchema, job) }
})
const within = (path: string, group: string) =>
  path === group || ['.', '[', '{'].some((c) => path.startsWith(group + c))
const unlike = (table: Readonly<Record<string, unknown>>) => ({
  missing: paths.filter((p) => !(p in table)),
  stale: Object.keys(table).filter((p) => !paths.includes(p)),
})

describe('every field of the job', () => {
  it('stands in one of the samples that these tests change', () => {
    const seen = new Set(SAMPLES.flatMap((s) => s.places.map((p) => p.path)))
    expect(paths.filter((p) => !seen.has(p))).toEqual([])
  })

  it('has a class, and says what its absence means just where it may be absent', () => {
    expect(unlike(FIELD_CLASSES)).toEqual({ missing: [], stale: [] })
    const table: Readonly<Record<string, FieldMeaning>> = FIELD_CLASSES
    const wrong = fields.filter((f) => f.absent === (table[f.path]!.absent === REQUIRED)).map((f) => f.path)
    expect(wrong).toEqual([])
  })

  it('is told with words of its own when it changes, and when it is taken away', () => {
    const silent: string[] = []
    for (const { job, places } of SAMPLES)
      for (const { path, place, schema, group, absent } of places) {
        const other = group ? undefined : otherValue(schema, valueAt(job, place))
        const nexts = [...(other === undefined ? [] : [other]), ...(absent ? [undefined] : [])]
        for (const next of nexts) {
          const changes = compareJobs(job, withValue(job, place, next))
          const told = changes.filter(
            (c) => (c.kind !== 'changed' || hasWords(c.path)) && /^\p{L}/u.test(c.message),
          )
          if (told.length === 0 || told.length < changes.length) silent.push(path)
        }
      }
    expect([...new Set(silent)]).toEqual([])
  })

  it('is edited in the window, at a place that names it, or not for a stated reason', () => {
    expect(unlike(WINDOW_FIELDS)).toEqual({ missing: [], stale: [] })
    const window = join(import.meta.dirname, '../../../src-renderer')
    const wrong = Object.entries(WINDOW_FIELDS).flatMap(([path, place]) => {
      if (/^none: \S/.test(place)) return []
      const file = join(window, place)
      if (!existsSync(file)) return [`${path}: no ${place}`]
      const key = /(\w+)[^\w]*$/.exec(path)![1]!
      return new RegExp(`\\b${key}\\b`).test(readFileSync(file, 'utf8')) ? [] : [`${path}: not in ${place}`]
    })
    expect(wrong).toEqual([])
  })
})

/** What of a job the library does not bring up to date, and why; all else has to come back from it. */
const NOT_IN_LIBRARY: Readonly<Record<string, string>> = {
  format: 'the form of the file',
  version: 'the form of the file',
  title: 'the job’s own',
  partNumber: 'the job’s own',
  documentNumber: 'the job’s own',
  revisions: 'the job’s own',
  notes: 'the job’s own',
  displayUnits: 'the job’s own',
  clampingKit: 'the job’s own',
  uncertainty: 'the job’s own',
  titleBlock: 'the job’s own',
  runs: 'the job’s own',
  'lathe.name': 'what the library knows it by',
  'plate.name': 'what the library knows it by',
  'stock[].id': 'the job’s own',
  'stock[].name': 'what the library knows it by',
  'part.name': 'the job’s own',
  'part.material': 'what the library knows it by',
  'part.weighedMass': 'the part’s own',
  'part.surface': 'the part’s own',
  'part.bodies': 'the part’s own',
  'part.bores': 'the part’s own',
  'part.photograph': 'the part’s own',
  'setups[].id': 'the setup’s own',
  'setups[].title': 'the setup’s own',
  'setups[].centre': 'the setup’s own',
  'setups[].turn': 'the setup’s own',
  'setups[].seat': 'the setup’s own',
  'setups[].packing': 'the setup’s own',
  'setups[].speed': 'the setup’s own',
  'setups[].criterion': 'the setup’s own',
  'setups[].frictionCoefficient': 'the setup’s own',
  'setups[].frictionState': 'the setup’s own',
  'setups[].sheet': 'the setup’s own',
  'setups[].hardware[].id': 'the setup’s own',
  'setups[].hardware[].name': 'what the library knows it by',
  'setups[].hardware[].at': 'where it is bolted',
  'setups[].hardware[].facing': 'where it is bolted',
  'setups[].hardware[].base': 'where it is bolted',
  'setups[].hardware[].fixed': 'for the planner, in this setup',
  'setups[].hardware[].torque': 'how it is used here',
  'setups[].hardware[].order': 'how it is used here',
  'setups[].hardware[].strap.boltFrom': 'how it is used here',
  'setups[].hardware[].stud.length': 'how it is used here',
  'setups[].hardware[].heel.height': 'how it is used here',
  'setups[].hardware[].heel.from': 'how it is used here',
  'setups[].hardware[].packing': 'how it is used here',
  'setups[].hardware[].held': 'how it is used here',
  'setups[].hardware[].bolts': 'how it is used here',
  'setups[].hardware[].press.torque': 'how it is used here',
  'setups[].hardware[].press.boltToWork': 'how it is used here',
  'setups[].hardware[].press.boltToHeel': 'how it is used here',
  'setups[].hardware[].press.nose': 'how it is used here',
  'setups[].cuts': 'tooling is copied in when asked, never offered: a cut carries no name of it',
}
const TOOLING_LEAVES_OUT: Readonly<Record<string, string>> = Object.fromEntries(
  [
    'id',
    'name',
    'kind',
    'bore',
    'interrupted',
    'bar',
    'dial',
    'from',
    'to',
    'start',
    'diameter',
    'z',
    'skin',
  ].map((key) => [key, 'the setup’s own']),
)
const ownOf = (path: string) => Object.keys(NOT_IN_LIBRARY).find((group) => within(path, group))

/** Stacks, stops, dowels and bolts are made for one job. */
const keptByLibrary = ({ job, places }: (typeof SAMPLES)[number]) =>
  patternOf(job.setups[0]!.hardware[0]!) ? places : places.filter((p) => !within(p.path, 'setups[].hardware'))

describe('the library', () => {
  it('has no reason for a field that is gone', () => {
    const gone = Object.keys(NOT_IN_LIBRARY).filter((group) => !paths.some((p) => within(p, group)))
    expect(gone).toEqual([])
  })

  it('brings back every field that it keeps, and no other', () => {
    const wrong: string[] = []
    for (const sample of SAMPLES) {
      const { job } = sample
      const { library } = collect(job, EMPTY_LIBRARY)
      for (const { path, place, schema, group } of keptByLibrary(sample)) {
        const value = valueAt(job, place)
        const other = group ? undefined : otherValue(schema, value)
        if (other === undefined) continue
        const renewed = offers(withValue(job, place, other), library).reduce(
          (j, o) => o.take(j),
          withValue(job, place, other),
        )
        const back = Object.is(valueAt(renewed, place), value)
        if (back === (ownOf(path) !== undefined)) wrong.push(`${path}: ${back ? 'comes back' : 'is lost'}`)
      }
    }
    expect([...new Set(wrong)]).toEqual([])
  })

  it('copies every field that it keeps into another job', () => {
    const target = jobWith({})
    const setupId = target.setups[0]!.id
    const lost: string[] = []
    for (const sample of SAMPLES) {
      const { job } = sample
      const { library } = collect(job, EMPTY_LIBRARY)
      const copy = (section: Section) => copyIntoJob(target, setupId, section, library[section][0]!)
      /** Where a thing of the sample lies in the job that it was copied into. */
      const roots: readonly (readonly [string, unknown, number])[] = [
        ['lathe', copy('lathes').lathe, 1],
        ['plate', copy('plates').plate, 1],
        ['part.density', copy('materials').part.density, 2],
        ['stock[]', copy('weights').stock.at(-1), 2],
        ...(library.hardware.length > 0
          ? [['setups[].hardware[]', copy('hardware').setups[0]!.hardware.at(-1), 4] as const]
          : []),
      ]
      for (const { path, place, group } of keptByLibrary(sample)) {
        if (group || ownOf(path)) continue
        const root = roots.find(([of]) => within(path, of))
        if (!root || !Object.is(valueAt(root[1], place.slice(root[2])), valueAt(job, place))) lost.push(path)
      }
    }
    expect([...new Set(lost)]).toEqual([])
  })

  it('copies all of a cut with a single edge that is tooling', () => {
    const shape = librarySchema.shape.tooling.element.shape.value.shape
    for (const { job } of SAMPLES)
      for (const cut of job.setups[0]!.cuts!) {
        if (!('depth' in cut)) continue
        const kept = Object.keys(cut).filter((key) => !(key in TOOLING_LEAVES_OUT))
        expect(Object.keys(shape).sort()).toEqual(kept.sort())
        const { tool, speed, feed, depth } = cut
        const value = { tool, speed, feed, depth }
        const base = jobWith({ setups: [{ cuts: [drillCut('A', 20), boreCut('A')] }] })
        const copied = copyIntoJob(base, base.setups[0]!.id, 'tooling', { id: 'x', name: 'x', value })
        expect(copied.setups[0]!.cuts).toEqual([drillCut('A', 20), boreCut('A', value)])
      }
  })
})
