import { expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { isClamp, isCounterweight } from '../../src-core/job/schema.ts'
import { nextBore, nextSetup, takeAllOff } from '../../src-renderer/editor/edits/nextSetup.ts'
import { importFigures } from '../../src-renderer/state/importFigures.ts'
import { putStraps, usualPattern, WANTED } from '../../src-renderer/editor/edits/fourStraps.ts'
import { exampleJob, shippedJob } from './example.ts'

test('the next setup turns about the bore asked for, cuts it, and keeps nothing that a check finds wrong', () => {
  const job = exampleJob('flat-link')
  for (const { id: bore } of job.part.bores) {
    const next = nextSetup(job, 'op10', bore)
    if (!next) throw new Error('no setup')
    const setup = next.job.setups.find((s) => s.id === next.id)!
    expect(setup.centre).toEqual({ bore })
    expect(setup.cuts?.every((c) => 'bore' in c && c.bore === bore)).toBe(true)
    expect(setup.hardware.some(isCounterweight)).toBe(false)
    const ids = setup.hardware.map((h) => h.id)
    expect([...next.kept]).toEqual(ids)
    const before = job.setups.find((s) => s.id === 'op10')!.hardware.map((h) => h.id)
    expect([...next.kept, ...next.taken, ...next.weights].sort()).toEqual([...before].sort())
    const { findings } = analyse(next.job, next.id)
    expect(findings.filter((f) => f.severity === 'stop' && f.fromRpm === 0 && ids.includes(f.item))).toEqual(
      [],
    )
    // The setup it came from is as it was.
    expect(next.job.setups.slice(0, -1)).toEqual(job.setups)
  }
})

test('moved to the other bore some hold is lost; about the same bore none is', () => {
  const job = exampleJob('flat-link')
  expect(nextSetup(job, 'op10', 'A')!.taken).toEqual([])
  expect(nextSetup(job, 'op10', 'B')!.taken.length).toBeGreaterThan(0)
})

test('the straps that take the place of those taken off hold: no check has anything against one', () => {
  const job = shippedJob('flat-link')
  for (const { id: bore } of job.part.bores) {
    const next = nextSetup(job, 'op10', bore)!
    const kept = next.job.setups.at(-1)!.hardware.filter(isClamp).length
    const put = putStraps(next.job, next.id, usualPattern(job, 'op10'), WANTED - kept)
    const bare = putStraps(takeAllOff(next.job, next.id), next.id, usualPattern(job, 'op10'))
    expect(bare.ids.length).toBeGreaterThan(1)
    for (const { job: made, ids } of [put, bare]) {
      const wrong = analyse(made, next.id).findings.filter(
        (f) => f.severity === 'stop' && ids.includes(f.item),
      )
      expect(wrong.map((f) => f.message)).toEqual([])
    }
  }
})

test('no bore asked twice while another waits; none where the part has none', () => {
  const job = exampleJob('flat-link')
  const one = { ...job, setups: job.setups.slice(0, 1) }
  expect(nextBore(one)).toBe('B')
  expect(nextBore({ ...job, part: { ...job.part, bores: [] } })).toBeNull()
  expect(nextSetup(job, 'op10', 'nowhere')).toBeNull()
})

test('all hardware comes off at once, of this setup alone', () => {
  const job = exampleJob('flat-link')
  const bare = takeAllOff(job, 'op10')
  expect(bare.setups[0]!.hardware).toEqual([])
  expect(bare.setups[1]).toEqual(job.setups[1])
})

test('a plate of 100 by 40 by 10 mm weighs what its volume does', () => {
  const { part } = exampleJob('flat-link')
  const corner = (x: number, y: number) => ({ x, y, bulge: 0 })
  const outline = [corner(0, 0), corner(100, 0), corner(100, 40), corner(0, 40)]
  const body = { id: 'b', effect: 'adds' as const, outline, holes: [], base: 0, thickness: 10 }
  const seen = importFigures(part, [body])!
  expect([seen.x, seen.y, seen.z]).toEqual([100, 40, 10])
  expect(seen.mass_kg).toBeCloseTo(100 * 40 * 10 * part.density * 1e-9, 9)
  expect(importFigures(part, [])).toBeNull()
})
