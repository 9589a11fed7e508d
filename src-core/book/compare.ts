/**
 * What differs between two jobs, or two revisions of one, in plain words and in the order of the job. Things with ids
 * are matched by them; every leaf that differs is named by a change or lies within one.
 */
import { KIND_WORDS, onFixtureWords } from '../hardware/words.ts'
import type { Point } from '../geometry/types.ts'
import {
  isOnFixture,
  isStationed,
  type Hardware,
  type HardwareKind,
  type Job,
  type Setup,
} from '../job/schema.ts'
import { stationPoint } from '../mounting/station.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'
import type { Change } from './changes.ts'
import { fieldName, valueWords } from './fieldWords.ts'
import { revisionWords } from './revisionWords.ts'
import { ringWords } from './ringWords.ts'

type Fields = Readonly<Record<string, unknown>>

/** Changes from `before` to `after`, in `after`'s display units; empty where the two are the same. */
export function compareJobs(before: Job, after: Job): readonly Change[] {
  const changes: Change[] = []
  const walk: Walk = { before, after, format: formatter(after.displayUnits), changes }
  const keys = new Set([...Object.keys(before), ...Object.keys(after)])
  for (const key of ORDER.filter((k) => keys.has(k)))
    compareValues(walk, key, (before as Fields)[key], (after as Fields)[key], START(key))
  return changes
}

const ORDER: readonly string[] = [
  'title', 'partNumber', 'documentNumber', 'revisions', 'notes', 'displayUnits', 'lathe', 'plate', 'stock', 'clampingKit', 'part', 'setups', 'uncertainty', 'titleBlock', 'runs',
] // prettier-ignore

interface Walk {
  readonly before: Job
  readonly after: Job
  readonly format: Formatter
  readonly changes: Change[]
}

/** Where the walk is: what the words name besides the field. */
interface Here {
  readonly group: Change['group']
  readonly setup: string | null
  readonly item: string | null
  /** Words for the thing, empty for the job's own fields. */
  readonly thing: string
}

const GROUPS: Readonly<Record<string, Change['group']>> = {
  lathe: 'lathe',
  plate: 'plate',
  stock: 'stock',
  part: 'part',
  setups: 'setup',
  runs: 'runs',
}
const START = (key: string): Here => ({
  group: GROUPS[key] ?? 'job',
  setup: null,
  item: null,
  thing:
    {
      lathe: 'Lathe',
      plate: 'Plate',
      clampingKit: 'Clamping kit',
      part: 'Part',
      uncertainty: 'Doubts',
      titleBlock: 'Title block',
    }[key] ?? '',
})

function compareValues(walk: Walk, path: string, before: unknown, after: unknown, here: Here): void {
  if (same(before, after)) return
  // A list that is left out is an empty one.
  if (Array.isArray(before) !== Array.isArray(after) && (before ?? after) === (after ?? before))
    return compareLists(walk, path, (before ?? []) as [], (after ?? []) as [], here)
  if (Array.isArray(before) && Array.isArray(after)) return compareLists(walk, path, before, after, here)
  if (isFields(before) && isFields(after)) {
    const isPlace = before !== after && path.endsWith('.at')
    if (isPlace) return movedPiece(walk, path, here)
    for (const key of keysOf(before, after))
      if (key !== 'id')
        compareValues(walk, path === '' ? key : `${path}.${key}`, before[key], after[key], here)
    return
  }
  const what = `${here.thing ? `${here.thing}: ` : ''}${fieldName(path)}`
  const ring = isFields(before) || isFields(after)
  const words = ring
    ? `${what} ${isFields(before) && !isFields(after) ? 'taken away' : isFields(before) ? 'changed' : 'given'}`
    : `${what} ${valueWords(path, before, walk.format)} → ${valueWords(path, after, walk.format)}`
  walk.changes.push({ ...change(here, 'changed', path, capital(words)), ...placesOf(walk, here) })
}

/** Lists of things with ids are matched by them; outlines are counted; everything else is one change. */
function compareLists(
  walk: Walk,
  path: string,
  before: readonly unknown[],
  after: readonly unknown[],
  here: Here,
): void {
  if (!hasIds(before) || !hasIds(after) || before.length + after.length === 0) {
    const words =
      path === 'revisions' ? revisionWords(walk.before, walk.after) : ringWords(before, after, walk.format)
    const what = `${here.thing ? `${here.thing}: ` : ''}${fieldName(path)}`
    const text = words ?? `${valueWords(path, before, walk.format)} → ${valueWords(path, after, walk.format)}`
    walk.changes.push({
      ...change(here, 'changed', path, capital(`${what} ${text}`)),
      ...placesOf(walk, here),
    })
    return
  }
  const start = walk.changes.length
  const old = new Map(before.map((b) => [b.id, b]))
  const now = new Map(after.map((a) => [a.id, a]))
  for (const [id, item] of old)
    if (!now.has(id)) addedOrGone(walk, 'removed', `${path}[${id}]`, item, within(here, path, item))
  for (const [id, item] of now) {
    const known = old.get(id)
    const at = within(here, path, item)
    if (known) compareValues(walk, `${path}[${id}]`, known, item, at)
    else addedOrGone(walk, 'added', `${path}[${id}]`, item, at)
  }
  const order = (items: readonly { readonly id: string }[], in_: ReadonlyMap<string, unknown>) =>
    items.map((i) => i.id).filter((id) => in_.has(id))
  const reordered = order(before, now).join('\n') !== order(after, old).join('\n')
  if (reordered || walk.changes.length === start)
    walk.changes.push(change(here, 'changed', path, `The order of the ${fieldName(path)} changed`))
}

function addedOrGone(
  walk: Walk,
  kind: 'added' | 'removed',
  path: string,
  item: { readonly id: string },
  here: Here,
): void {
  const isPiece = /\.hardware\[/.test(path)
  const verb =
    kind === 'added' ? (isPiece ? 'put on the plate' : 'added') : isPiece ? 'taken off the plate' : 'removed'
  const mass = 'mass' in item && typeof item.mass === 'number' ? `, ${walk.format.mass(item.mass)}` : ''
  walk.changes.push({
    ...change(here, kind, path, `${here.thing}${mass} ${verb}`),
    ...placesOf(walk, here),
  })
}

function movedPiece(walk: Walk, path: string, here: Here): void {
  const { before, after } = placesOf(walk, here)
  const words = (p: Point | null, job: Job) => placeWords(walk, here, p, job)
  walk.changes.push({
    ...change(
      here,
      'changed',
      path,
      `${here.thing} moved from ${words(before, walk.before)} to ${words(after, walk.after)}`,
    ),
    before,
    after,
  })
}

function placeWords({ format }: Walk, { setup, item }: Here, point: Point | null, job: Job): string {
  const piece = pieceOf(job, setup, item)
  const at = piece && isStationed(piece) ? piece.at : null
  if (!at || !point) return 'elsewhere'
  if (isOnFixture(at)) return onFixtureWords(at, format.length)
  if ('hole' in at) return `hole ${at.hole}`
  if ('slot' in at) return `slot ${at.slot} at radius ${format.length(at.radius)}`
  return `x ${format.length(at.x)}, y ${format.length(at.y)}`
}

function placesOf(walk: Walk, { setup, item }: Here): { before: Point | null; after: Point | null } {
  return { before: pointOf(walk.before, setup, item), after: pointOf(walk.after, setup, item) }
}

function pointOf(job: Job, setup: string | null, item: string | null): Point | null {
  const piece = pieceOf(job, setup, item)
  if (!piece || !isStationed(piece)) return null
  try {
    return stationPoint(job.plate, piece.at, hardwareOf(job, setup))
  } catch (error) {
    // A slot that is gone: such a job has faults, which are shown elsewhere.
    if (error instanceof RangeError) return null
    throw error
  }
}

const hardwareOf = (job: Job, setup: string | null): readonly Hardware[] =>
  job.setups.find((s) => s.id === setup)?.hardware ?? []

const pieceOf = (job: Job, setup: string | null, item: string | null): Hardware | undefined =>
  hardwareOf(job, setup).find((h) => h.id === item)

const NOUNS: Readonly<Record<string, string>> = {
  slots: 'Slot',
  holes: 'Hole',
  stock: 'Stock',
  studs: 'Studs',
  straps: 'Straps',
  heels: 'Heels',
  bodies: 'Body',
  bores: 'Bore',
  cuts: 'Cut',
  setups: 'Setup',
  runs: 'Run',
}

/** What the things of a list are called, and which setup and piece they stand for. */
function within(here: Here, path: string, item: { readonly id: string; readonly name?: unknown }): Here {
  const list = /([a-z]+)$/i.exec(path)?.[1] ?? ''
  const named = typeof item.name === 'string' && item.name !== '' ? ` ${item.name}` : ''
  const kind = 'kind' in item && typeof item.kind === 'string' ? item.kind : 'other'
  const noun = list === 'hardware' ? capital(KIND_WORDS[kind as HardwareKind] ?? kind) : (NOUNS[list] ?? '')
  const thing =
    list === 'runs' ? `Run of ${(item as unknown as { date: string }).date}` : `${noun} ${item.id}${named}`
  if (list === 'setups') return { ...here, setup: (item as unknown as Setup).id, thing }
  return { ...here, item: item.id, thing }
}

function change(here: Here, kind: Change['kind'], path: string, message: string): Change {
  return {
    group: here.group,
    setup: here.setup,
    kind,
    path,
    message,
    item: here.item,
    before: null,
    after: null,
  }
}

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
const hasIds = (list: readonly unknown[]): list is readonly { readonly id: string }[] =>
  list.every((v) => isFields(v) && typeof v['id'] === 'string')

const keysOf = (a: Fields, b: Fields): string[] => [...new Set([...Object.keys(a), ...Object.keys(b)])]

/** Equal content; a field left out equals one that is undefined. */
function same(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((v, i) => same(v, b[i]))
  if (isFields(a) && isFields(b)) return keysOf(a, b).every((key) => same(a[key], b[key]))
  return false
}
