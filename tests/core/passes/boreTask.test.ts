import { expect, test } from 'vitest'
import type { Cut } from '../../../src-core/job/schema.ts'
import { boreWorks } from '../../../src-core/passes/boreTask.ts'
import { bore, disc, jobWith, partOf } from '../../helpers/jobs.ts'

const cut = (kind: 'bore' | 'drill', more: object): Cut =>
  ({ id: kind, kind, bore: 'A', tool: 'HSS', speed: 20, feed: 0.1, interrupted: false, ...more }) as Cut

function works(boreMore: Parameters<typeof bore>[3], cuts: readonly Cut[]) {
  const job = jobWith({
    part: partOf([disc('body', { x: 0, y: 0 }, 120, 20)], [bore('A', { x: 0, y: 0 }, 40, boreMore)]),
    setup: { cuts },
  })
  return boreWorks(job, job.setups[0]!)
}
const boring = cut('bore', { depth: 1 })

test('the dial is that of the cut', () => {
  const dial = { on: 'radius', division: 0.0254, unit: 'thou' } as const
  const more = { start: 34, tolerance: { class: 'H7' } }
  expect(works(more, [{ ...boring, dial } as Cut])).toMatchObject([{ task: { dial } }])
  expect(works(more, [boring])).toMatchObject([{ task: { dial: null } }])
})

test('class, limits, skin and what is there come from bore and cuts', () => {
  expect(works({ start: 34, skin: 1.5, tolerance: { class: 'H7' } }, [boring])).toMatchObject([
    { ok: true, tolerance: 'H7', task: { start: 34, skin: 1.5, depth: 1, limits: [40, 40.025] } },
  ])
  expect(
    works({ tolerance: { limits: [40.1, 40.2] } }, [cut('drill', { diameter: 36 }), boring]),
  ).toMatchObject([{ ok: true, tolerance: '', task: { start: 36, skin: null, limits: [40.1, 40.2] } }])
})

test('what is lacking is said', () => {
  const why = (more: Parameters<typeof bore>[3]) => works(more, [boring]).map((w) => (w.ok ? '' : w.why))
  expect(why({ start: 30 })).toEqual([expect.stringMatching(/No tolerance/)])
  expect(why({ start: 30, tolerance: { class: 'Z9' } })).toEqual([
    expect.stringMatching(/Z9 is not in the table/),
  ])
  expect(why({ tolerance: { class: 'H7' } })).toEqual([expect.stringMatching(/drill first/)])
  expect(works({ start: 30, tolerance: { class: 'H7' } }, [])).toEqual([])
})
