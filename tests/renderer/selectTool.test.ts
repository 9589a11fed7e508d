import { beforeEach, describe, expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import type { Job } from '../../src-core/job/schema.ts'
import type { PointerInput, ToolPort } from '../../src-renderer/editor/port.ts'
import type { Guide, Target } from '../../src-renderer/editor/target.ts'
import { turnHandleAt } from '../../src-renderer/editor/hitTest.ts'
import { SelectTool } from '../../src-renderer/editor/tools/selectTool.ts'
import * as history from '../../src-renderer/state/history.ts'
import { boxOf, exampleJob } from './example.ts'

const PX = 2

class Bench implements ToolPort {
  state: history.History<Job>
  selection: Target | null = null
  hovered: Target | null = null
  guideShown: Guide | null = null
  panned = { x: 0, y: 0 }
  setupId = 'op10'
  constructor(job: Job) {
    this.state = history.startHistory(job)
  }
  get job() {
    return this.state.present
  }
  get mounted() {
    return mountSetup(this.job, this.setupId)
  }
  select = (t: Target | null) => void (this.selection = t)
  shown: Target | null = null
  show = (t: Target) => void (this.selection = this.shown = t)
  hover = (t: Target | null) => void (this.hovered = t)
  guide = (g: Guide | null) => void (this.guideShown = g)
  pan = (dx: number, dy: number) => void (this.panned = { x: this.panned.x + dx, y: this.panned.y + dy })
  begin = (label: string) => void (this.state = history.begin(this.state, label))
  replace = (job: Job) => void (this.state = history.replace(this.state, job))
  commit = () => void (this.state = history.commit(this.state))
  cancel = () => void (this.state = history.cancel(this.state))
  length = (mm: number) => `${mm} mm`
  get setup() {
    return this.job.setups[0]!
  }
  piece(id: string) {
    return this.setup.hardware.find((h) => h.id === id)!
  }
}

const input = (x: number, y: number, extra: Partial<PointerInput> = {}): PointerInput => ({
  world: { x, y },
  screen: { x: x * PX, y: -y * PX },
  pxPerMm: PX,
  shift: false,
  alt: false,
  touch: false,
  time: 0,
  ...extra,
})

let bench: Bench
let tool: SelectTool
beforeEach(() => {
  bench = new Bench(exampleJob())
  tool = new SelectTool(bench)
})
function drag(from: [number, number], to: [number, number], extra: Partial<PointerInput> = {}) {
  tool.down(input(...from, extra))
  tool.move(input((from[0] + to[0]) / 2, (from[1] + to[1]) / 2, extra))
  tool.move(input(...to, extra))
}

describe('select tool', () => {
  test('a click selects and makes no step', () => {
    tool.down(input(60, 0))
    tool.move(input(60.5, 0))
    tool.up(input(60.5, 0))
    expect(bench.selection).toEqual({ kind: 'part' })
    expect(bench.shown).toEqual({ kind: 'part' })
    expect(bench.state.past).toHaveLength(0)
    tool.down(input(-140, 140))
    tool.up(input(-140, 140))
    expect(bench.selection).toBeNull()
  })

  test('dragging the part moves it under the axis and the analysis with it', () => {
    const before = analyse(bench.job, 'op10').unbalance.static_g_mm
    drag([60, 0], [40, 30])
    expect(bench.guideShown?.text).toContain('of the part')
    tool.up(input(40, 30))
    expect(bench.state.past.map((s) => s.label)).toEqual(['Move the part'])
    const centre = bench.setup.centre
    expect('bore' in centre).toBe(false)
    if (!('bore' in centre)) {
      expect(Math.abs(centre.x - 20)).toBeLessThan(1)
      expect(Math.abs(centre.y + 30)).toBeLessThan(1)
    }
    expect(analyse(bench.job, 'op10').unbalance.static_g_mm).not.toBeCloseTo(before, 0)
    expect(bench.guideShown).toBeNull()
  })

  test('a bore that comes near the axis catches on it, unless Alt is held', () => {
    drag([60, 0], [-49, 1])
    expect(bench.setup.centre).toEqual({ bore: 'B' })
    expect(bench.guideShown).toMatchObject({ snapped: true })
    tool.move(input(-49, 1, { alt: true }))
    expect('bore' in bench.setup.centre).toBe(false)
  })

  test('the part dragged out and back is where it was: no drift, and bore A again', () => {
    drag([60, 0], [90, 55])
    for (let i = 0; i < 50; i++) tool.move(input(60 + 30 * Math.sin(i), 55 * Math.cos(i)))
    tool.move(input(60, 0))
    tool.up(input(60, 0))
    expect(bench.setup.centre).toEqual({ bore: 'A' })
  })

  test('Escape in the middle puts it back and leaves redo alone', () => {
    drag([60, 0], [40, 30])
    tool.up(input(40, 30))
    bench.state = history.undo(bench.state)
    drag([60, 0], [20, 30])
    tool.cancel()
    expect(bench.setup.centre).toEqual({ bore: 'A' })
    expect(bench.state.future).toHaveLength(1)
    tool.move(input(0, 90))
    expect(bench.setup.centre).toEqual({ bore: 'A' })
  })

  test('a weight slides along its slot, stops at its end, and hops to a nearer slot', () => {
    drag([-110, 0], [-70, 6])
    expect(boxOf(bench.piece('w1')).at).toEqual({ slot: 'S5', radius: 70 })
    tool.move(input(-300, 0))
    expect(boxOf(bench.piece('w1')).at).toEqual({ slot: 'S5', radius: 134 })
    tool.move(input(-80, -80))
    expect(boxOf(bench.piece('w1')).at).toMatchObject({ slot: 'S6' })
    tool.move(input(-80, -80, { shift: true }))
    expect(boxOf(bench.piece('w1')).at).toMatchObject({ slot: 'S5' })
    tool.up(input(-80, -80))
    expect(bench.state.past).toHaveLength(1)
  })

  test('a strap keeps pointing at its nose while its bolt slides', () => {
    drag([0, 90], [0, 120])
    const c1 = boxOf(bench.piece('c1'))
    expect(c1.at).toEqual({ slot: 'S3', radius: 104 })
    expect(c1.facing).toBe(270)
    expect(c1.press?.boltToWork).toBe(68)
    expect(c1.press?.nose).toEqual({ x: 0, y: 36 })
  })

  test('the knob turns the part, in steps that catch on fifteens', () => {
    bench.selection = { kind: 'part' }
    const knob = turnHandleAt(bench.mounted)
    tool.down(input(knob.x, knob.y))
    const angle = (44 * Math.PI) / 180
    tool.move(
      input(Math.hypot(knob.x, knob.y) * Math.cos(angle), Math.hypot(knob.x, knob.y) * Math.sin(angle)),
    )
    tool.up(input(0, 0))
    expect(bench.setup.turn).toBe(45)
    expect(bench.state.past.map((s) => s.label)).toEqual(['Turn the part'])
  })

  test('dragging beside the plate moves the picture, not the job', () => {
    drag([-160, 160], [-150, 150])
    tool.up(input(-150, 150))
    expect(bench.panned).toEqual({ x: 20, y: 20 })
    expect(bench.state.past).toHaveLength(0)
  })

  test('hovering says what is under the pointer', () => {
    tool.move(input(60, 0))
    expect(bench.hovered).toEqual({ kind: 'part' })
    expect(tool.cursor).toBe('grab')
    tool.move(input(-140, 140))
    expect(bench.hovered).toBeNull()
  })
})
