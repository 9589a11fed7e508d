import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { compareJobs } from '../../../src-core/book/compare.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { exampleJob, jobWith } from '../../helpers/jobs.ts'
import { randomJob } from '../../helpers/randomJob.ts'

type Loose = Record<string, any> // eslint-disable-line @typescript-eslint/no-explicit-any

/** A copy with some of it changed. */
function edited(job: Job, edit: (job: Loose) => void): Job {
  const copy = structuredClone(job) as unknown as Loose
  edit(copy)
  return copy as unknown as Job
}
const messages = (before: Job, edit: (job: Loose) => void) =>
  compareJobs(before, edited(before, edit)).map((c) => c.message)

const link = exampleJob('flat-link')

describe('compareJobs', () => {
  it('finds nothing between a job and its copy', () => {
    expect(compareJobs(link, structuredClone(link))).toEqual([])
  })

  it('says what moved, from where to where, with its places on the plate', () => {
    const after = edited(link, (j) => (j['setups'][0].hardware[0].at = { slot: 'S3', radius: 80 }))
    const [change, ...others] = compareJobs(link, after)
    expect(others).toEqual([])
    expect(change).toMatchObject({ group: 'setup', setup: 'op10', item: 'c1', kind: 'changed' })
    expect(change!.message).toMatch(
      /^Clamp c1.* moved from slot S3 at radius 74 mm to slot S3 at radius 80 mm$/,
    )
    expect(change!.before).toMatchObject({ y: 74 })
    expect(change!.after).toMatchObject({ y: 80 })
  })

  it('names revisions that came, are gone, or say something else', () => {
    const [a, b] = ['A', 'B'].map((mark) => ({ mark, date: '2026-01-05', text: `issue ${mark}` }))
    expect(messages(link, (j) => (j['revisions'] = [a]))).toEqual(['Revisions A 2026-01-05 “issue A” added'])
    const two = edited(link, (j) => (j['revisions'] = [a, b]))
    expect(messages(two, (j) => j['revisions'].pop())).toEqual(['Revisions B 2026-01-05 “issue B” gone'])
    expect(messages(two, (j) => j['revisions'].reverse())).toEqual(['Revisions in another order'])
    expect(messages(two, (j) => (j['revisions'][1].text = ''))).toEqual([
      'Revisions B 2026-01-05 “issue B” gone; B 2026-01-05 added',
    ])
    expect(messages(link, (j) => (j['documentNumber'] = 'D-1'))).toEqual(['Document number none → “D-1”'])
  })

  it('names pieces put on and taken off, with their mass', () => {
    const found = messages(link, (j) => {
      j['setups'][0].hardware.push({
        ...link.setups[0]!.hardware.at(-1)!,
        id: 'w9',
        kind: 'counterweight',
        name: '',
        mass: 1.25,
      })
      j['setups'][0].hardware.shift()
    })
    expect(found).toContain('Counterweight w9, 1.25 kg put on the plate')
    expect(found.some((m) => /^Clamp c1 .*taken off the plate$/.test(m))).toBe(true)
  })

  it('gives both values with their units, in the units of the later job', () => {
    expect(messages(link, (j) => (j['lathe'].swingOverBed = 300))).toEqual([
      'Lathe: swing over the bed 330 mm → 300 mm',
    ])
    const inches = messages(link, (j) => {
      j['displayUnits'] = 'in'
      j['setups'][0].packing = 25.4
    })
    expect(inches.some((m) => m.endsWith('→ 1 in'))).toBe(true)
  })

  it('tells a chosen speed from a cutting speed', () => {
    const found = messages(link, (j) => {
      j['setups'][0].speed = 70
      j['setups'][0].cuts[0].speed = 18
    })
    expect(found).toEqual([
      expect.stringMatching(/cutting speed 22 → 18$/),
      expect.stringMatching(/chosen speed 110 rpm → 70 rpm$/),
    ])
  })

  it('counts vertices that moved and edges that bend otherwise', () => {
    expect(messages(link, (j) => (j['part'].bodies[0].outline[0].x += 3.2))[0]).toMatch(
      /outline vertex 1 moved by 3\.2 mm$/,
    )
    const both = messages(link, (j) => {
      for (const v of j['part'].bodies[0].outline) v.y += 1
      j['part'].bodies[0].outline[1].bulge = 0.1
    })
    expect(both[0]).toMatch(/vertices moved, by up to 1 mm, 1 edge bent otherwise$/)
  })

  it('orders changes as the trade orders a job', () => {
    const found = compareJobs(
      link,
      edited(link, (j) => {
        j['setups'][1].turn = 5
        j['part'].name = 'x'
        j['plate'].mass = 3
        j['title'] = 'y'
      }),
    )
    expect(found.map((c) => c.group)).toEqual(['job', 'plate', 'part', 'setup'])
  })

  it('survives a slot that is gone', () => {
    const job = jobWith()
    const broken = edited(link, (j) => (j['setups'][0].hardware[0].at = { slot: 'none', radius: 10 }))
    expect(compareJobs(link, broken)[0]!.after).toBeNull()
    expect(compareJobs(job, link).length).toBeGreaterThan(0)
  })

  it('names every leaf that differs, whichever it is', () => {
    fc.assert(
      fc.property(randomJob, fc.nat(), (job, pick) => {
        const leaves = leavesOf(job).filter(([first]) => first !== 'format' && first !== 'version')
        const leaf = leaves[pick % leaves.length]!
        const after = edited(job, (j) => spoil(j, leaf))
        const found = compareJobs(job, after)
        expect(found.length, leaf.join('.')).toBeGreaterThan(0)
        expect(found.every((c) => c.message.length > 3)).toBe(true)
        expect(compareJobs(after, after)).toEqual([])
      }),
      { numRuns: 300 },
    )
  })
})

type Path = (string | number)[]

function leavesOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path]
  return Object.entries(value).flatMap(([key, v]) =>
    leavesOf(v, [...path, Array.isArray(value) ? Number(key) : key]),
  )
}

function spoil(job: Loose, path: Path): void {
  const last = path.at(-1)!
  const parent = path.slice(0, -1).reduce<Loose>((v, key) => v[key] as Loose, job)
  const value: unknown = parent[last]
  parent[last] =
    typeof value === 'number'
      ? value + 1
      : typeof value === 'boolean'
        ? !value
        : value === null
          ? 1
          : `${String(value)}x`
}
