/** Several rings chosen at once, and directions that the part's own edges give. */
import { beforeEach, describe, expect, test } from 'vitest'
import { isPrism, type Prism } from '../../src-core/job/schema.ts'
import { fetchHost } from '../../src-renderer/bridge/fetchHost.ts'
import { drawTargets, snapDraw } from '../../src-renderer/editor/draw/snapping.ts'
import { removeRings } from '../../src-renderer/editor/edits/bodyCopies.ts'
import type { PointerInput } from '../../src-renderer/editor/port.ts'
import { createApp, type App } from '../../src-renderer/state/app.svelte.ts'
import { describeDrawing } from '../../src-renderer/scene/drawing.ts'
import { setupPlacement } from '../../src-core/mounting/mount.ts'
import { exampleJob } from './example.ts'
import { noWorkers } from './fakeWorkers.ts'

let app: App
let time = 0
const PX = 4
const input = (x: number, y: number, extra: Partial<PointerInput> = {}): PointerInput => ({
  world: { x, y }, screen: { x: x * PX, y: -y * PX }, pxPerMm: PX, shift: false, alt: false, touch: false, time, ...extra,
}) // prettier-ignore
beforeEach(() => {
  app = createApp(fetchHost, noWorkers)
  app.jobs.load(exampleJob(), null)
  app.session.setupId = 'op10'
  app.draw.enter()
})
function click(x: number, y: number, shift = false): void {
  time += 1000
  app.draw.tool.move(input(x, y, { shift }))
  app.draw.tool.down(input(x, y, { shift }))
  app.draw.tool.up(input(x, y, { shift }))
}
function drag(from: [number, number], to: [number, number]): void {
  time += 1000
  app.draw.tool.down(input(...from))
  app.draw.tool.move(input((from[0] + to[0]) / 2, (from[1] + to[1]) / 2))
  app.draw.tool.move(input(...to))
  app.draw.tool.up(input(...to))
}
const link = (): Prism => app.jobs.job.part.bodies.filter(isPrism)[0]!
const names = () => app.draw.together.map((r) => `${r.body} ${r.ring}`)
/** The holes of the link lie about its two centres, 110 mm apart. */
const holeAt = (ring: number) => {
  const hole = link().holes[ring - 1]!
  return { x: (hole[0]!.x + hole[1]!.x) / 2, y: (hole[0]!.y + hole[1]!.y) / 2 }
}

describe('several rings', () => {
  test('Shift and a click take a ring to those chosen and from them; a plain click chooses one', () => {
    click(5, 3)
    click(110, 3, true)
    expect(names()).toEqual(['link 2', 'link 1'])
    click(5, 3, true)
    expect(names()).toEqual(['link 2'])
    click(5, 3, true)
    click(5, 3)
    expect(names()).toEqual(['link 1'])
  })

  test('one drag, one arrow key, one typed step move all, each in one step of undo', () => {
    click(5, 3)
    click(110, 3, true)
    drag([110, 3], [113, 5])
    expect([holeAt(1), holeAt(2)]).toMatchObject([
      { x: expect.closeTo(3, 6) as number, y: expect.closeTo(2, 6) as number },
      { x: expect.closeTo(113, 6) as number, y: expect.closeTo(2, 6) as number },
    ])
    expect(app.jobs.undoLabel).toBe('Move 2 rings')
    app.draw.tool.key('ArrowUp')
    expect([holeAt(1).y, holeAt(2).y].map((y) => Math.round(y * 1e6) / 1e6)).toEqual([3, 3])
    app.draw.tool.typed({ kind: 'point', relative: true, point: { x: app.draw.tool.last!.x, y: 0 } })
    app.jobs.undo()
    app.jobs.undo()
    app.jobs.undo()
    expect(holeAt(1).x).toBeCloseTo(0, 9)
    expect(names()).toHaveLength(2)
  })

  test('a hole whose outline is chosen too goes with it once, not twice', () => {
    app.draw.chooseAll([
      { body: 'link', ring: 0 },
      { body: 'link', ring: 1 },
    ])
    const before = link().outline[0]!.x
    app.draw.tool.key('ArrowRight')
    expect(holeAt(1).x).toBeCloseTo(1, 9)
    expect(link().outline[0]!.x).toBeCloseTo(before + 1, 9)
  })

  test('Shift and Page Down take the next ring, Escape leaves all', () => {
    app.draw.tool.key('PageDown')
    app.draw.tool.key('Shift+PageDown')
    app.draw.tool.key('Shift+PageDown')
    expect(names().sort()).toEqual(['link 0', 'link 1', 'link 2'])
    app.draw.tool.key('Shift+PageDown')
    expect(names()).toHaveLength(3)
    app.draw.tool.key('Escape')
    expect(names()).toEqual([])
  })

  test('all chosen rings are drawn, none with grips', () => {
    const items = (also: boolean) =>
      describeDrawing(app.jobs.job.part, setupPlacement(app.jobs.job.part, app.jobs.job.setups[0]!), {
        chosen: { body: 'link', ring: 1 },
        also: also ? [{ body: 'link', ring: 2 }] : [],
        vertex: null,
        edge: null,
        preview: null,
        grips: true,
      }).map((i) => i.role)
    expect(items(true)).toEqual(['draw-ring', 'draw-ring'])
    expect(items(false)).toContain('draw-vertex')
  })

  test('holes are deleted together; the last body never', () => {
    const job = app.jobs.job
    const both = removeRings(job, [
      { body: 'link', ring: 1 },
      { body: 'link', ring: 2 },
    ])!
    expect(both.part.bodies.filter(isPrism)[0]!.holes).toEqual([])
    expect(removeRings(job, [{ body: 'link', ring: 0 }])).toBeNull()
  })
})

describe('directions of the part', () => {
  const wish = { pxPerMm: PX, step: 1, touch: false, free: false }
  // Flanks that touch circles of 45 and 30 mm, 110 mm apart, slope by asin((45 - 30) / 110).
  const slope = (Math.asin(15 / 110) * 180) / Math.PI
  const aim = (from: { x: number; y: number }, degrees: number, length: number) => {
    const t = (degrees * Math.PI) / 180
    return { x: from.x + length * Math.cos(t), y: from.y + length * Math.sin(t) }
  }
  const from = { x: -100, y: 90 }
  const caught = (degrees: number) =>
    snapDraw(aim(from, degrees, 60), drawTargets(exampleJob().part), { ...wish, from })

  test('a line catches on the slope of a flank and square to it, either way', () => {
    for (const [degrees, words] of [
      [-slope + 0.4, /^along an edge, 352\.16°$/],
      [180 - slope - 0.4, /^along an edge, 172\.16°$/],
      [90 - slope + 0.4, /^square to an edge, 82\.16°$/],
      [slope + 0.4, /^along an edge, 7\.84°$/],
    ] as const) {
      const { point, text } = caught(degrees)
      expect(text).toMatch(words)
      const got = (Math.atan2(point.y - from.y, point.x - from.x) * 180) / Math.PI
      const wanted = Number(/([\d.]+)°/.exec(text)![1])
      expect(Math.abs(((got - wanted + 540) % 360) - 180)).toBeLessThan(0.01)
    }
  })

  test('the round directions are still caught, and between all of them none is', () => {
    expect(caught(30.5).text).toBe('30°')
    expect(caught(22).text).toBe('')
  })

  test('from the end of an arc its tangent is caught', () => {
    const { part } = exampleJob()
    const outline = part.bodies.filter(isPrism)[0]!.outline
    const end = outline[0]!
    const { text } = snapDraw(aim(end, -slope + 90 + 180 + 0.2, 40), drawTargets(part), {
      ...wish,
      from: end,
    })
    expect(text).toMatch(/^(square to (an edge|the arc)|along an edge|tangent), /)
  })
})
