/**
 * All fields of the job against the verdict, by their class: what is not known never makes it better, a default is what
 * it is said to be, and what only describes changes nothing.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { plateLimit } from '../../../src-core/checks/rating.ts'
import { UNCERTAINTY_DEFAULTS } from '../../../src-core/doubt/defaults.ts'
import { nutSize } from '../../../src-core/hardware/nuts.ts'
import { WEAKEST_STEEL } from '../../../src-core/hardware/steels.ts'
import { findThread } from '../../../src-core/hardware/threads.ts'
import { heelDistance } from '../../../src-core/hardware/toe.ts'
import { washerSize } from '../../../src-core/hardware/washers.ts'
import { frictionOf } from '../../../src-core/holding/friction.ts'
import { FIELD_CLASSES, REQUIRED, type FieldMeaning } from '../../../src-core/job/fieldClasses.ts'
import { checkJob } from '../../../src-core/job/parse.ts'
import { jobSchema, type Clamp, type Job, type Setup } from '../../../src-core/job/schema.ts'
import { spindleSteps } from '../../../src-core/job/spindle.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import type { Verdict } from '../../../src-core/verdict/speeds.ts'
import { randomJob } from '../../helpers/randomJob.ts'
import {
  everyPlaceOf,
  fieldsOf,
  otherValue,
  valueAt,
  withValue,
  type Place,
} from '../../helpers/schemaFields.ts'
import { walkedJobs } from '../../helpers/walkJobs.ts'

const TABLE: Readonly<Record<string, FieldMeaning>> = FIELD_CLASSES
const FIELDS = fieldsOf(jobSchema)
const JOBS = walkedJobs()
const EVERY = JOBS.find(([name]) => name.startsWith('every'))![1]

/** Worst first. */
const ORDER: readonly Verdict[] = ['stop', 'not-judged', 'caution', 'go']
const rank = (v: Verdict) => ORDER.indexOf(v)

const takenAway = (job: Job, place: Place): Job => {
  const left = withValue(job, place, undefined)
  return jobSchema.safeParse(left).success ? left : withValue(job, place, null)
}

/** Of each setup that a place belongs to: the verdict at each gear in turn, the chosen one's last. */
function verdicts(job: Job, place: Place): Verdict[] {
  return setupsOf(job, place).flatMap(({ id }) => {
    const a = analyse(job, id)
    const gears = a.speeds.filter((r) => spindleSteps(job.lathe).includes(r.rpm))
    return [...gears.map((r) => r.verdict), a.verdict.state]
  })
}

const setupsOf = (job: Job, [first, index]: Place) =>
  first === 'setups' ? [job.setups[Number(index)]!] : job.setups

/** Those that another value of a knowledge field may have. */
function others(value: unknown): unknown[] {
  if (typeof value === 'number') return [0.02, 3, 60].map((k) => value * k)
  if (typeof value === 'string') return ['M6', 'M24', '4.6', 'x', 15]
  if (typeof value === 'boolean') return [!value]
  return []
}

/** The bar reaches up to the first of the carriage: a reach that is shorter than that says two things at once. */
const agrees = ({ lathe }: Job) =>
  !lathe.carriage || lathe.barReach === null || lathe.barReach >= lathe.carriage.profile[0]!.behind

/** Other values of a field: of a leaf, or of one leaf after the other of a group. */
function variants(job: Job, place: Place): Job[] {
  return everyPlaceOf(jobSchema, job)
    .filter((p) => !p.group && place.every((key, i) => p.place[i] === key))
    .slice(0, 12)
    .flatMap((p) => others(valueAt(job, p.place)).map((value) => withValue(job, p.place, value)))
    .filter(agrees)
}

/** Whether not knowing reads better than knowing does. */
function betterUnknown(job: Job, place: Place): string[] {
  const unknown = takenAway(job, place)
  if (!checkJob(unknown).ok) return []
  const without = verdicts(unknown, place)
  const passes = (v: Verdict) => rank(v) >= rank('caution')
  if (!without.some(passes)) return []
  return [job, ...variants(job, place)].flatMap((known) => {
    if (!checkJob(known).ok) return []
    const wrong = verdicts(known, place).some((v, i) => passes(without[i]!) && rank(without[i]!) > rank(v))
    return wrong ? [`${place.join('.')}: ${JSON.stringify(valueAt(known, place))}`] : []
  })
}

/** The first and the last place of each field that may be left out. */
function placesBy(job: Job, pick: (meaning: FieldMeaning) => boolean) {
  const all = everyPlaceOf(jobSchema, job).filter((p) => p.absent && pick(TABLE[p.path]!))
  const ends = new Map(all.map((p) => [p.path, p]))
  return all.filter((p, i) => ends.get(p.path) === p || all.findIndex((q) => q.path === p.path) === i)
}

test('the jobs that are walked over are sound and have every field', () => {
  const seen = new Set(JOBS.flatMap(([, job]) => everyPlaceOf(jobSchema, job).map((p) => p.path)))
  expect(JOBS.flatMap(([name, job]) => (checkJob(job).ok ? [] : [name]))).toEqual([])
  expect(FIELDS.map((f) => f.path).filter((p) => !seen.has(p))).toEqual([])
  // What reads go is what can be taken to read go wrongly.
  const going = JOBS.filter(([, job]) => verdicts(job, []).includes('go')).map(([name]) => name)
  expect(going).toEqual(
    expect.arrayContaining([
      'flat-link',
      'every kind of hardware',
      'on a sub-plate',
      'on an angle plate',
      'in a vee',
    ]),
  )
})

describe('knowledge', () => {
  test.each(JOBS)('taken away never reads go or caution where any knowledge reads worse: %s', (_, job) => {
    const lies = placesBy(job, (m) => m.class === 'knowledge').flatMap((p) => betterUnknown(job, p.place))
    expect(lies).toEqual([])
  })

  test('the same of jobs at random', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        const lies = placesBy(job, (m) => m.class === 'knowledge').flatMap((p) => betterUnknown(job, p.place))
        expect(lies).toEqual([])
      }),
      { numRuns: 12, seed: 3 },
    )
  })

  test('what may not be left out is refused without it', () => {
    const job = EVERY
    const seen = new Set<string>()
    for (const { path, place, absent } of everyPlaceOf(jobSchema, job)) {
      if (seen.has(path) || absent || typeof place.at(-1) === 'number' || TABLE[path]!.absent !== REQUIRED)
        continue
      seen.add(path)
      expect(checkJob(takenAway(job, place)).ok, path).toBe(false)
    }
    expect(seen.size).toBeGreaterThan(80)
  })
})

/** All that an analysis yields but its words and notes. */
const figures = (job: Job): unknown =>
  job.setups.map((s) => {
    const a = analyse(job, s.id)
    const findings = a.findings.filter((f) => f.severity !== 'note')
    return JSON.parse(JSON.stringify({ ...a, findings }, withoutWords)) as unknown
  })
const withoutWords = (key: string, value: unknown): unknown =>
  typeof value === 'string' && !['state', 'verdict', 'code', 'severity', 'effect', 'limit'].includes(key)
    ? undefined
    : value

describe('description', () => {
  /** Cannot be changed by themselves: other fields name them or bound them, or they are the form of the file. */
  const NAMES =
    /(^|\.|\])(id|format|version)$|^runs\[\]\.setup$|\.picture\.(type|width|height|data)$|photograph\.(type|width|height|data)$|\.limits\[\]$/

  test.each(JOBS)('changed or taken away it changes no figure and no verdict: %s', (_, job) => {
    const before = figures(job)
    const untouched: string[] = []
    const seen = new Set<string>()
    for (const { path, place, schema, absent, group } of everyPlaceOf(jobSchema, job)) {
      if (TABLE[path]!.class !== 'description' || seen.has(path)) continue
      seen.add(path)
      const other = group || NAMES.test(path) ? undefined : otherValue(schema, valueAt(job, place))
      const nexts = [
        ...(other === undefined ? [] : [withValue(job, place, other)]),
        ...(absent ? [takenAway(job, place)] : []),
      ].filter((next) => checkJob(next).ok)
      for (const next of nexts) expect(figures(next), path).toEqual(before)
      if (nexts.length === 0 && !NAMES.test(path)) untouched.push(path)
    }
    expect(untouched).toEqual([])
  })
})

type Holder = Readonly<Record<string, unknown>>

/** What each default is said to be, given instead; `holder` is what the field stands in. */
const DEFAULTS: Readonly<Record<string, (job: Job, holder: Holder, place: Place) => unknown>> = {
  'lathe.startTime': () => 0.5,
  'lathe.brakeTime': () => 0.5,
  'lathe.boltedDown': () => false,
  'plate.surface': () => 'turned',
  'part.surface': () => 'turned',
  'plate.ratedSpeed': (job) => plateLimit({ ...job.plate, ratedSpeed: null }),
  'plate.slots[].teeWidth': (_, slot) => 1.6 * Number(slot['width']),
  'plate.slots[].lip': (_, slot) => 0.5 * Number(slot['width']),
  'part.bodies[].density': (job) => job.part.density,
  // A fixture is weighed without its bolts.
  'setups[].hardware[].mass': (job, item, place) => {
    const { mass, solids } = pieceOf(job, item, place)
    const own = solids.filter((s) => s.role === 'fixture')
    return own.length > 0 ? own.reduce((sum, s) => sum + s.mass, 0) : mass
  },
  'setups[].hardware[].facing': (job, item, place) => pieceOf(job, item, place).facing,
  'setups[].hardware[].massCentre': (_, item) => ({ x: 0, y: 0, z: Number(item['height']) / 2 }),
  'setups[].hardware[].strap.steel': () => WEAKEST_STEEL.name,
  'setups[].hardware[].boltFrom': (_, item) => (item['size'] as number[])[0]! / 2,
  'setups[].hardware[].heel.from': (job, _, place) => {
    const { strap, heel } = valueAt(job, place.slice(0, -2)) as Clamp
    return heelDistance(strap, { ...heel!, from: null })
  },
  'setups[].hardware[].held[].at': () => ({ x: 0, y: 0 }),
  'setups[].frictionCoefficient': (job, setup) =>
    frictionOf(job, { ...(setup as unknown as Setup), frictionCoefficient: null }),
  'setups[].frictionState': () => 'oiled',
  uncertainty: () => UNCERTAINTY_DEFAULTS,
  ...Object.fromEntries(Object.entries(UNCERTAINTY_DEFAULTS).map(([k, v]) => [`uncertainty.${k}`, () => v])),
  'setups[].hardware[].density': () => 7850,
  'setups[].hardware[].bolts[].at': () => ({ x: 0, y: 0 }),
  'setups[].hardware[].bolts[].sunk': () => 0,
  ...under(['setups[].hardware[].', 'setups[].hardware[].held[].', 'setups[].hardware[].bolts[].'], {
    nut: (_, item) => {
      const { flats, height } = nutSize(threadOf(item))!
      return { acrossFlats: flats, height }
    },
    washer: (_, item) => {
      const { outside, thickness } = washerSize(threadOf(item))!
      return { diameter: outside, thickness }
    },
    lubricated: () => false,
  }),
  ...under(
    [
      'part.bodies[].outline[].',
      'part.bodies[].holes[][].',
      'stock[].footprint.outline[].',
      'setups[].hardware[].footprint.outline[].',
    ],
    { bulge: () => 0 },
  ),
}

type Rule = (job: Job, holder: Holder, place: Place) => unknown

function under(groups: readonly string[], rules: Readonly<Record<string, Rule>>): Record<string, Rule> {
  return Object.fromEntries(groups.flatMap((g) => Object.entries(rules).map(([k, rule]) => [g + k, rule])))
}
const threadOf = (item: Holder) => findThread((item['stud'] as Clamp['stud']).thread!)!
const pieceOf = (job: Job, item: Holder, place: Place) =>
  mountSetup(job, job.setups[Number(place[1])]!.id).pieces.find((p) => p.item.id === item['id'])!

/** Of these absence is another thing, not a lack of knowledge of the same. */
const ANOTHER_THING: readonly string[] = [
  'lathe.gap',
  'setups[].seat',
  'setups[].seat.standOff',
  'part.bodies[].across',
  'part.bores[].skin',
  'setups[].cuts[].skin',
  'setups[].cuts[].bar',
  'setups[].hardware[].holes[].thread',
  'lathe.carriage.parkedAt',
  'lathe.tailstock',
  'lathe.behindPlate',
  'lathe.behindPlate.radius',
  'plate.runOut',
  'plate.runOut.face',
  'plate.runOut.radial',
  'lathe.maxSpindleSpeed',
  'lathe.noseOverhang',
  'lathe.loadLimit',
  'plate.holes[].thread',
  'plate.residual',
  'stock[].hole',
  'part.weighedMass',
  'part.bores[].depth',
  'setups[].hardware[].packing',
  'setups[].cuts[].z',
  'lathe.speeds.stepless',
  'setups[].speed',
]

describe('defaulted', () => {
  test('each default is checked here, or is another thing', () => {
    const of = FIELDS.filter((f) => TABLE[f.path]!.class === 'defaulted').map((f) => f.path)
    expect(of.filter((p) => !(p in DEFAULTS) && !ANOTHER_THING.includes(p))).toEqual([])
    const stale = [...Object.keys(DEFAULTS), ...ANOTHER_THING].filter((p) => !of.includes(p))
    expect(stale).toEqual([])
  })

  test.each(JOBS)('left out it reads as what it is said to be: %s', (_, job) => {
    for (const { path, place } of placesBy(job, (m) => m.class === 'defaulted')) {
      const without = takenAway(job, place)
      if (!checkJob(without).ok || ANOTHER_THING.includes(path)) continue
      const value = DEFAULTS[path]!(without, valueAt(without, place.slice(0, -1)) as Holder, place)
      const given = withValue(job, place, value)
      const [read, said] = [verdicts(without, place), verdicts(given, place)]
      // A lip that is too thin as taken is not judged.
      if (path.endsWith('.lip')) read.forEach((v, i) => expect(rank(v)).toBeLessThanOrEqual(rank(said[i]!)))
      else expect(read, place.join('.')).toEqual(said)
      expect(factors(without, place), place.join('.')).toEqual(factors(given, place))
    }
  })
})

const factors = (job: Job, place: Place) =>
  setupsOf(job, place).map(({ id }) =>
    analyse(job, id).joints.map((j) => [j.id, j.factor?.toPrecision(9), j.rpm_at_2?.toPrecision(9)]),
  )
