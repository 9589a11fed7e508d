import { beforeEach, describe, expect, test } from 'vitest'
import { ringMoments } from '../../src-core/geometry/ringMoments.ts'
import { checkJob } from '../../src-core/job/parse.ts'
import { isPrism, type Prism } from '../../src-core/job/schema.ts'
import { fetchHost } from '../../src-renderer/bridge/fetchHost.ts'
import { ENTRIES, entryWords, readTyped } from '../../src-renderer/editor/draw/typedPoint.ts'
import type { PointerInput } from '../../src-renderer/editor/port.ts'
import { createActions } from '../../src-renderer/state/actions.ts'
import { createApp, type App } from '../../src-renderer/state/app.svelte.ts'
import { exampleJob } from './example.ts'
import { noWorkers } from './fakeWorkers.ts'

let app: App
let time = 0
const PX = 4
const input = (x: number, y: number, extra: Partial<PointerInput> = {}): PointerInput => ({
  world: { x, y }, screen: { x: x * PX, y: -y * PX }, pxPerMm: PX, shift: false, alt: false, touch: false, time, ...extra,
}) // prettier-ignore
/** The example's part is centred on its origin and not turned: plate and part frame are one. */
beforeEach(() => {
  time = 0
  app = createApp(fetchHost, noWorkers)
  app.jobs.load(exampleJob(), null)
  app.session.setupId = 'op10'
  app.draw.enter()
})
function click(x: number, y: number): void {
  time += 1000
  app.draw.tool.move(input(x, y))
  app.draw.tool.down(input(x, y))
  app.draw.tool.up(input(x, y))
}
function drag(from: [number, number], to: [number, number]): void {
  time += 1000
  app.draw.tool.move(input(...from))
  app.draw.tool.down(input(...from))
  app.draw.tool.move(input((from[0] + to[0]) / 2, (from[1] + to[1]) / 2))
  app.draw.tool.move(input(...to))
  app.draw.tool.up(input(...to))
}
const bodies = () => app.jobs.job.part.bodies.filter(isPrism)
const last = (): Prism => bodies().at(-1)!
const steps = () => app.jobs.undoLabel

describe('what is offered and what is read', () => {
  test.each(['mm', 'in'] as const)('every kind of entry that is named in %s is read as that', (unit) => {
    const e = ENTRIES[unit]
    const read = (text: string) => readTyped(text, { x: 0, y: 0 }, unit, (v) => v)
    expect(read(e.point)).toMatchObject({ kind: 'point', relative: false })
    expect(read(e.step)).toMatchObject({ kind: 'point', relative: true })
    expect(read(e.aimed)).toMatchObject({ kind: 'point', relative: true })
    expect(read(e.length).kind).toBe('value')
    expect(read(e.arc)).toMatchObject({ kind: 'point', radius: expect.any(Number) as number })
    for (const example of Object.values(e)) expect(entryWords(unit)).toContain(`(${example})`)
  })

  test.each(['outline', 'rectangle', 'circle', 'slot', 'measure'] as const)(
    'each example in the prompts of %s is taken where it stands, and no prompt has a sign or a lone letter',
    (name) => {
      app.draw.take(name)
      const { tool } = app.draw
      for (let stage = 0; stage < 3 && app.draw.tool === tool; stage++) {
        expect(tool.prompt).not.toMatch(/[@<>#*]|\b(?!a\b)[a-z]\b/i)
        const example = /“([^”]+)”/.exec(tool.prompt)?.[1] ?? 'by 3, 4'
        const from = tool.last
        const entry = readTyped(from ? example : example.replace('by ', ''), from, 'in', (v) => v * 25.4)
        expect(tool.typed(entry)).toBeNull()
      }
    },
  )

  test('one key changes from straight to arc and back; a lone letter does nothing', () => {
    app.draw.take('outline')
    for (const letter of 'abcdefghijklmnopqrstuvwxyz') expect(app.draw.tool.key(letter)).toBe(false)
    expect(app.draw.tool.arc).toBe(false)
    app.draw.tool.key(' ')
    expect(app.draw.tool.arc).toBe(true)
    app.draw.tool.key(' ')
    expect(app.draw.tool.arc).toBe(false)
  })

  test('two numbers without a comma: the cure is what the field reads', () => {
    const said = readTyped('-55 40', null, 'mm', (v) => v)
    expect(said).toEqual({ kind: 'refused', reason: 'Part the two numbers by a comma: -55, 40.' })
    expect(readTyped('-55, 40', null, 'mm', (v) => v)).toMatchObject({ point: { x: -55, y: 40 } })
    // In an inch field that is one number.
    expect(readTyped('1 3/4', null, 'in', (v) => v)).toEqual({ kind: 'value', value: 1.75 })
  })
})

describe('drawing tools', () => {
  test('an outline of lines and a tangent arc, closed on its first point, is a new body', () => {
    app.draw.take('outline')
    click(-100, 100)
    click(-60, 100)
    app.draw.tool.key(' ')
    click(-60, 130)
    app.draw.tool.setArc?.(false)
    click(-100, 130)
    click(-100, 100)
    expect(bodies()).toHaveLength(2)
    expect(last().outline.map((v) => v.bulge)).toEqual([0, 1, 0, 0])
    expect(ringMoments(last().outline).area).toBeCloseTo(40 * 30 + (Math.PI / 8) * 900, 6)
    expect(steps()).toBe('Draw a body')
    expect(app.draw.tool.name).toBe('edit')
    app.jobs.undo()
    expect(bodies()).toHaveLength(1)
  })

  test('the same outline typed, without a pointer', () => {
    app.draw.take('outline')
    for (const [x, y] of [
      [-100, 100],
      [-60, 100],
      [-60, 130],
      [-100, 130],
    ])
      expect(app.draw.tool.typed({ kind: 'point', relative: false, point: { x: x!, y: y! } })).toBeNull()
    expect(app.draw.tool.key('Enter')).toBe(true)
    expect(ringMoments(last().outline).area).toBeCloseTo(1200, 9)
  })

  test('Backspace takes a point back, Escape all of them', () => {
    app.draw.take('outline')
    click(-100, 100)
    click(-60, 100)
    app.draw.tool.key('Backspace')
    expect(app.draw.tool.last).toEqual({ x: -100, y: 100 })
    expect(app.draw.tool.key('Escape')).toBe(true)
    expect(app.draw.tool.last).toBeNull()
    expect(app.draw.tool.key('Enter')).toBe(false)
    expect(bodies()).toHaveLength(1)
  })

  test('a rectangle by a drag, a circle by centre and typed diameter, a slot by three clicks', () => {
    app.draw.take('rectangle')
    drag([-100, 60], [-80, 100])
    expect(ringMoments(last().outline).area).toBeCloseTo(800, 6)
    app.draw.take('circle')
    click(-90, -90)
    expect(app.draw.tool.typed({ kind: 'value', value: 30 })).toBeNull()
    expect(ringMoments(last().outline).area).toBeCloseTo(Math.PI * 225, 6)
    app.draw.take('slot')
    click(60, 100)
    click(90, 100)
    click(75, 105)
    expect(ringMoments(last().outline).area).toBeCloseTo(300 + Math.PI * 25, 6)
  })

  test('a hole goes into the body under it, a pocket into its front; beside every body a hole is refused', () => {
    app.draw.as = 'hole'
    app.draw.take('circle')
    click(60, 0)
    click(65, 0)
    expect(bodies()[0]!.holes).toHaveLength(3)
    expect(app.draw.chosen).toEqual({ body: 'link', ring: 3 })
    app.draw.take('circle')
    click(-120, 120)
    click(-115, 120)
    expect(app.session.notice?.text).toMatch(/must lie in a body/)
    app.draw.as = 'removes'
    app.draw.take('rectangle')
    drag([40, -5], [50, 5])
    expect(last()).toMatchObject({ effect: 'removes', base: 15, thickness: 5 })
    const read = checkJob(app.jobs.job)
    expect(read.ok ? [] : read.faults).toEqual([])
  })

  test('measuring changes nothing', () => {
    app.draw.take('measure')
    click(-130, 100)
    click(-100, 140)
    expect(app.draw.preview?.text).toMatch(/^50 mm/)
    expect(app.jobs.isDirty).toBe(false)
  })
})

describe('editing what is drawn', () => {
  const ring = () => bodies()[0]!.outline
  beforeEach(() => {
    app.draw.chosen = { body: 'link', ring: 0 }
  })

  test('a vertex dragged, typed and nudged', () => {
    const v = ring()[2]!
    drag([v.x, v.y], [10, 60])
    expect(ring()[2]).toMatchObject({ x: 10, y: 60 })
    expect(app.draw.vertex).toBe(2)
    expect(steps()).toBe('Move a vertex')
    app.draw.tool.typed({ kind: 'point', relative: false, point: { x: 7, y: 50 } })
    expect(ring()[2]).toMatchObject({ x: 7, y: 50 })
    app.draw.tool.key('ArrowRight')
    app.draw.tool.key('Shift+ArrowUp')
    expect(ring()[2]).toMatchObject({ x: 8, y: 50.1 })
  })

  test('in inches arrow keys go by 0.05 in, finely by 0.005, and say so', () => {
    app.jobs.load({ ...exampleJob(), displayUnits: 'in' }, null)
    app.draw.choose({ body: 'link', ring: 0 }, 2)
    const { x, y } = ring()[2]!
    app.draw.tool.key('ArrowRight')
    app.draw.tool.key('Shift+ArrowUp')
    expect(ring()[2]!.x).toBeCloseTo(x + 0.05 * 25.4, 6)
    expect(ring()[2]!.y).toBeCloseTo(y + 0.005 * 25.4, 6)
    const { right, upFine } = createActions(app)
    expect([right.label, upFine.label]).toEqual(['Right 0.05 in', 'Up 0.005 in'])
  })

  test('the middle of a straight edge dragged makes an arc through there', () => {
    drag([60.1, 37.1], [62, 50])
    expect(ring()[1]!.bulge).not.toBe(0)
    expect(steps()).toBe('Bend an edge')
    app.jobs.undo()
    expect(ring()[1]!.bulge).toBe(0)
  })

  test('a double click on an edge adds a point; Delete takes it away', () => {
    app.draw.tool.down(input(80, 34.3))
    app.draw.tool.up(input(80, 34.3))
    time += 100
    app.draw.tool.down(input(80, 34.3))
    app.draw.tool.up(input(80, 34.3))
    expect(ring()).toHaveLength(5)
    expect(app.draw.vertex).toBe(2)
    app.draw.tool.key('Delete')
    expect(ring()).toHaveLength(4)
  })

  test('a hole dragged by its inside moves alone', () => {
    const before = ring()
    drag([5, 3], [9, 3])
    expect(bodies()[0]!.holes[0]![0]!.x).toBeCloseTo(-15, 6)
    expect(ring()).toBe(before)
  })

  test('Escape in the middle of a drag puts the vertex back', () => {
    const v = ring()[2]!
    app.draw.tool.down(input(v.x, v.y))
    app.draw.tool.move(input(20, 70))
    expect(ring()[2]).not.toEqual(v)
    app.draw.tool.cancel()
    expect(ring()[2]).toEqual(v)
    expect(app.jobs.isDirty).toBe(false)
  })

  test('full stop and Page Down step through points and rings', () => {
    app.draw.tool.key('.')
    expect(app.draw.vertex).toBe(0)
    app.draw.tool.key(',')
    expect(app.draw.vertex).toBe(3)
    app.draw.tool.key('PageDown')
    expect(app.draw.chosen).toEqual({ body: 'link', ring: 1 })
  })

  test('on a part that is turned on the plate the drawing still happens in the part’s own frame', () => {
    app.jobs.edit('Turn', (j) => ({ ...j, setups: j.setups.map((s) => ({ ...s, turn: 90 })) }))
    const v = ring()[2]!
    drag([-v.y, v.x], [-60, 10])
    expect(ring()[2]!.x).toBeCloseTo(10, 6)
    expect(ring()[2]!.y).toBeCloseTo(60, 6)
  })
})

describe('taking back while something is drawn', () => {
  test('undo takes back the last point of a shape that is begun, and only then the step before', () => {
    const actions = createActions(app)
    app.draw.take('rectangle')
    click(-100, 60)
    click(-60, 90)
    expect(steps()).toBe('Draw a body')
    app.draw.take('outline')
    click(-100, 120)
    click(-60, 120)
    actions.undo.run()
    expect(app.draw.tool.last).toEqual({ x: -100, y: 120 })
    actions.undo.run()
    expect(app.draw.tool.last).toBeNull()
    expect(steps()).toBe('Draw a body')
    actions.undo.run()
    expect(steps()).toBeNull()
  })
  test('a ring drawn anew once: the next shape is a body of its own', () => {
    app.draw.choose({ body: 'link', ring: 0 }, null)
    app.draw.as = 'replace'
    app.draw.take('rectangle')
    click(-80, -60)
    click(140, 60)
    expect(steps()).toBe('Draw the ring anew')
    expect(bodies()).toHaveLength(1)
    app.draw.take('circle')
    click(-100, 100)
    click(-90, 100)
    expect(bodies()).toHaveLength(2)
  })
})
