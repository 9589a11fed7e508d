/** Of what holds, no size may shrink to a hundredth, and no piece may stand plainly elsewhere, and still read go. */
import { expect, test } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { checkJob } from '../../../src-core/job/parse.ts'
import type { Hardware, Job } from '../../../src-core/job/schema.ts'
import { EXAMPLES, SHELF_EXAMPLES, shelfExample, shippedJob } from '../../helpers/jobs.ts'
import { withValue, type Place } from '../../helpers/schemaFields.ts'

const JOBS = [
  ...EXAMPLES.map((name) => [name, shippedJob(name)] as const),
  ...SHELF_EXAMPLES.map((name) => [name, shelfExample(name)] as const),
]
/** The first setup's piece of a place in the list, changed. */
const withPiece = (job: Job, index: number, item: Hardware): Job => ({
  ...job,
  setups: job.setups.map((s, i) =>
    i === 0 ? { ...s, hardware: s.hardware.map((h, k) => (k === index ? item : h)) } : s,
  ),
})
/** The first and the last of each kind: the others stand as they do. */
const looked = ({ setups: [setup] }: Job): readonly (readonly [Hardware, number])[] =>
  setup!.hardware.flatMap((item, i, all) => {
    const alike = all.filter((h) => h.kind === item.kind)
    return item === alike[0] || item === alike.at(-1) ? [[item, i] as const] : []
  })
const goes = (job: Job): boolean => checkJob(job).ok && analyse(job, job.setups[0]!.id).verdict.state === 'go'

/** Sizes of what carries, presses and is pressed. A washer may be thin where its nut bridges the hole. */
const SIZES =
  /(^|\.)(acrossFlats|height|boltFrom|circle)$|washer\.diameter$|strap\.(length|width|thickness|opening)$|(size|rect)\.\d$|^(thickness|opening|angle)$/

function* numbers(value: unknown, path: Place = []): Generator<readonly [Place, number]> {
  if (typeof value === 'number') yield [path, value]
  else if (typeof value === 'object' && value !== null)
    for (const [key, inner] of Object.entries(value)) yield* numbers(inner, [...path, key])
}

test.each(JOBS)('%s goes, and with no size of its hardware a sliver', (_, job) => {
  expect(goes(job)).toBe(true)
  const lies = looked(job).flatMap(([item, i]) =>
    [...numbers(item)].flatMap(([path, size]) => {
      const name = path.join('.')
      return SIZES.test(name) && goes(withPiece(job, i, withValue(item, path, size / 100)))
        ? [`${item.id} ${name}`]
        : []
    }),
  )
  expect(lies).toEqual([])
})

test.each(JOBS)('%s with no piece 200 mm from its place', (_, job) => {
  const lies = looked(job).flatMap(([item, i]) =>
    [...numbers(item)].flatMap(([path, at]) => {
      const name = path.join('.')
      if (!/^(at|throughPart)\.(radius|x|y|along|out)$/.test(name)) return []
      return [-200, 200]
        .filter((by) => goes(withPiece(job, i, withValue(item, path, at + by))))
        .map((by) => `${item.id} ${name} ${by}`)
    }),
  )
  expect(lies).toEqual([])
})

test.each(JOBS)('%s with no strap the other way round', (_, job) => {
  const lies = looked(job).flatMap(([item, i]) =>
    item.kind === 'clamp' &&
    [90, 180, 270].some((by) => goes(withPiece(job, i, { ...item, facing: item.facing + by })))
      ? [item.id]
      : [],
  )
  expect(lies).toEqual([])
})
