/** Choices about the drawing: kept in the job, and gone without a trace when taken back. */
import { describe, expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { setupSheet } from '../../src-core/drawing/sheet/setupSheet.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import { serialiseJob } from '../../src-core/job/serialise.ts'
import {
  chooseSheet,
  freeDimensions,
  hideDimension,
  moveDimension,
  placeDimension,
  setTitleField,
} from '../../src-renderer/editor/edits/sheet.ts'
import {
  addRevision,
  nextMark,
  removeRevision,
  setRevision,
} from '../../src-renderer/editor/edits/revisions.ts'
import { heldDimensions, moved } from '../../src-renderer/panels/sheet/dimensionLines.ts'
import { exampleJob } from './example.ts'

const job = exampleJob()
const drawn = (j: typeof job) => heldDimensions(setupSheet(j, 'op10', analyse(j, 'op10'))[0]!)

describe('edits of the sheet', () => {
  test('come back with the job', () => {
    let edited = chooseSheet(job, 'op10', 'size', 'A4')
    edited = chooseSheet(edited, 'op10', 'scale', 0.2)
    edited = moveDimension(edited, 'op10', 'packing', 20)
    edited = hideDimension(edited, 'op10', 'packing', true)
    edited = setTitleField(edited, 'owner', 'Millbrook Shop')
    const read = parseJob(serialiseJob(edited))
    if (!read.ok) return expect.fail(read.faults[0]!.message)
    expect(read.job.setups[0]!.sheet).toEqual({
      size: 'A4',
      scale: 0.2,
      dimensions: { packing: { offset: 20, hidden: true } },
    })
    expect(read.job.setups[1]!.sheet).toBeUndefined()
    expect(read.job.titleBlock).toEqual({ owner: 'Millbrook Shop' })
  })

  test('leave the job as it was when each is taken back', () => {
    const moved = moveDimension(hideDimension(job, 'op10', 'bed', true), 'op10', 'packing', 3)
    expect(hideDimension(moveDimension(moved, 'op10', 'packing', undefined), 'op10', 'bed', false)).toEqual(
      job,
    )
    expect(freeDimensions(moved, 'op10')).toEqual(job)
    expect(
      chooseSheet(chooseSheet(job, 'op10', 'projection', 'third'), 'op10', 'projection', undefined),
    ).toEqual(job)
    expect(setTitleField(setTitleField(job, 'by', 'A'), 'by', '')).toEqual(job)
  })

  test('names that every object has are no choices', () => {
    expect(hideDimension(job, 'op10', 'constructor', false)).toEqual(job)
    const hidden = hideDimension(job, 'op10', 'toString', true)
    expect(hidden.setups[0]!.sheet?.dimensions).toEqual({ toString: { hidden: true } })
  })
})

describe('dimensions to take hold of', () => {
  test('are each of the sheet once, and a moved one stands where it was put', () => {
    const all = drawn(job)
    expect(new Set(all.map((d) => d.id)).size).toBe(all.length)
    expect(all.map((d) => d.id)).toEqual(
      expect.arrayContaining(['plate-diameter', 'diameter:A', 'station:c1', 'distance:B']),
    )
    const plate = all.find((d) => d.id === 'plate-diameter')!
    if (plate.kind !== 'line') return expect.fail('a diameter across a view has a line')
    const to = moved(plate, { x: -3.1, y: 40 })
    if (!('offset' in to)) return expect.fail('a line is moved off')
    expect(to.offset).toBe(Math.round(2 * (plate.offset + 3.1)) / 2)
    const again = drawn(moveDimension(job, 'op10', 'plate-diameter', to.offset))
    expect(again.find((d) => d.id === 'plate-diameter')).toMatchObject({
      offset: expect.closeTo(to.offset, 9),
    })
  })

  test.each(['diameter:B', 'station:c1'])('%s stands where it was put', (id) => {
    const held = drawn(job).find((d) => d.id === id)!
    const to = moved(held, { x: 6, y: 4 })
    if (!('place' in to) || held.kind !== 'text') return expect.fail('text on a leader is placed')
    const placed = placeDimension(job, 'op10', id, to.place)
    const again = drawn(placed).find((d) => d.id === id)!
    expect(again.at.x).toBeCloseTo(held.middle.x + to.place.x, 9)
    expect(again.at.y).toBeCloseTo(held.middle.y + to.place.y, 9)
    expect(Math.hypot(again.at.x - held.at.x, again.at.y - held.at.y)).toBeGreaterThan(5)
    expect(placeDimension(placed, 'op10', id, undefined)).toEqual(job)
  })

  test('a hidden station leaves its number, a hidden diameter nothing', () => {
    const hidden = hideDimension(hideDimension(job, 'op10', 'station:c1', true), 'op10', 'diameter:A', true)
    const ids = drawn(hidden).map((d) => d.id)
    expect(ids).not.toContain('station:c1')
    expect(ids).not.toContain('diameter:A')
    expect(ids).toContain('station:c2')
  })
})

test.each([
  [[], 'A'],
  [['A'], 'B'],
  [['H'], 'J'],
  [['W'], 'Y'],
  [['Y'], ''],
  [['1', '9'], '10'],
  [['draft'], ''],
] as const)('the revision after %j is %j', (marks, next) => {
  expect(nextMark(marks.map((mark) => ({ mark, date: '', text: '' })))).toBe(next)
})

test('revisions are added, changed and taken out, and the last one leaves no trace', () => {
  const one = addRevision(job, '2026-03-01')
  expect(one.revisions).toEqual([{ mark: 'A', date: '2026-03-01', text: '' }])
  const two = setRevision(addRevision(one, '2026-04-01'), 0, { text: 'First issue' })
  expect(two.revisions!.map((r) => r.mark + r.text)).toEqual(['AFirst issue', 'B'])
  expect(removeRevision(two, 0).revisions!.map((r) => r.mark)).toEqual(['B'])
  expect(removeRevision(one, 0)).toEqual(job)
})
