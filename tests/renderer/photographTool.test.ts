import { beforeEach, describe, expect, test } from 'vitest'
import type { Photograph } from '../../src-core/job/schema.ts'
import type { PointerInput } from '../../src-renderer/editor/port.ts'
import { fetchHost } from '../../src-renderer/bridge/fetchHost.ts'
import { changePhotograph, setPhotograph } from '../../src-renderer/editor/edits/photograph.ts'
import { createApp, type App } from '../../src-renderer/state/app.svelte.ts'
import { exampleJob } from './example.ts'
import { noWorkers } from './fakeWorkers.ts'

const PX = 4
const input = (x: number, y: number): PointerInput => ({
  world: { x, y }, screen: { x: x * PX, y: -y * PX }, pxPerMm: PX, shift: false, alt: true, touch: false, time: 0,
}) // prettier-ignore
const PHOTOGRAPH: Photograph = {
  picture: { name: '', type: 'image/png', width: 200, height: 100, data: '' },
  // Half a millimetre a pixel: it covers x 10 to 110 and y -10 to 40.
  ties: [
    { u: 20, v: 80, x: 20, y: 0 },
    { u: 180, v: 80, x: 100, y: 0 },
  ],
  opacity: 1,
  locked: false,
}
let app: App
beforeEach(() => {
  app = createApp(fetchHost, noWorkers)
  app.jobs.load(setPhotograph(exampleJob(), PHOTOGRAPH), null)
  app.session.setupId = 'op10'
  app.draw.enter()
  app.draw.take('photograph')
})
const drag = (from: [number, number], to: [number, number]) => {
  app.draw.tool.down(input(...from))
  app.draw.tool.move(input((from[0] + to[0]) / 2, (from[1] + to[1]) / 2))
  app.draw.tool.move(input(...to))
  app.draw.tool.up(input(...to))
}
const ties = () => app.jobs.job.part.photograph!.ties
const at = (i: number) => [ties()[i]!.x, ties()[i]!.y].map((v) => Number(v.toFixed(9)))
const lock = () => app.jobs.edit('Lock', (j) => changePhotograph(j, { locked: true }))

describe('moving a photograph', () => {
  test('by any place of it: all of it goes along, in one step', () => {
    drag([60, 20], [65, 13])
    expect([at(0), at(1)]).toEqual([[25, -7], [105, -7]]) // prettier-ignore
    expect(app.jobs.undoLabel).toBe('Move the photograph')
    app.jobs.undo()
    expect(ties()).toEqual(PHOTOGRAPH.ties)
    expect(app.jobs.undoLabel).toBeNull()
  })
  test('by its first point, which lands where the pointer is', () => {
    drag([20.5, 0.5], [30, 10])
    expect([at(0), at(1)]).toEqual([[30, 10], [110, 10]]) // prettier-ignore
  })
  test('by its second point, which turns and scales it about the first', () => {
    drag([100, 0], [20, 160])
    expect([at(0), at(1)]).toEqual([[20, 0], [20, 160]]) // prettier-ignore
    expect(app.jobs.undoLabel).toBe('Turn and scale the photograph')
  })
  test('not from beside it: that moves the view', () => {
    let panned = 0
    app.draw.pan = (dx) => (panned += dx)
    drag([60, 60], [70, 60])
    expect(ties()).toBe(PHOTOGRAPH.ties)
    expect(panned).not.toBe(0)
  })
  test('put back by Escape in the middle of it', () => {
    app.draw.tool.down(input(60, 20))
    app.draw.tool.move(input(90, 30))
    expect(ties()).not.toEqual(PHOTOGRAPH.ties)
    app.draw.tool.cancel()
    expect(ties()).toEqual(PHOTOGRAPH.ties)
    expect(app.jobs.isDirty).toBe(false)
  })
  test('by keys: a step, a fine step, a turn, a size', () => {
    app.draw.tool.key('ArrowUp')
    app.draw.tool.key('Shift+ArrowLeft')
    expect(at(0)).toEqual([19.9, 1])
    app.draw.tool.key('[')
    expect(at(1)[1]).toBeCloseTo(1 + 80 * Math.sin(Math.PI / 12), 8)
    app.draw.tool.key('>')
    expect(Math.hypot(ties()[1].x - ties()[0].x, ties()[1].y - ties()[0].y)).toBeCloseTo(80.8, 8)
    expect(app.draw.tool.key('x')).toBe(false)
  })
  test('by a typed point; a bare length says what is wanted', () => {
    expect(app.draw.tool.typed({ kind: 'point', relative: false, point: { x: -5, y: 4 } })).toBeNull()
    expect(at(0)).toEqual([-5, 4])
    expect(app.draw.tool.typed({ kind: 'value', value: 3 })).toMatch(/where point 1 goes/)
    expect(app.draw.tool.typed({ kind: 'point', relative: false, point: { x: 99_999, y: 0 } })).toMatch(
      /further away/,
    )
    expect(at(0)).toEqual([-5, 4])
  })
})

describe('a locked photograph', () => {
  test('stays under drags, keys and typed points, and says so', () => {
    lock()
    drag([60, 20], [65, 13])
    drag([100, 0], [20, 160])
    expect(app.draw.tool.key('ArrowUp')).toBe(true)
    expect(app.draw.tool.typed({ kind: 'point', relative: false, point: { x: 0, y: 0 } })).toMatch(/locked/)
    expect(ties()).toBe(PHOTOGRAPH.ties)
    expect(app.draw.tool.prompt).toMatch(/locked/)
  })
  test('is nothing to the other tools', () => {
    lock()
    app.draw.take('edit')
    drag([-120, -120], [-100, -100])
    expect(ties()).toBe(PHOTOGRAPH.ties)
  })
})
