/** What stands on a shelf, worked on in plan: along the shelf by pointer and by keys, never off it and never out unseen. */
import { readFileSync } from 'node:fs'
import { beforeEach, describe, expect, test } from 'vitest'
import { analyse } from '../../src-core/analysis/analyse.ts'
import type { Hardware, Job } from '../../src-core/job/schema.ts'
import { mountSetup } from '../../src-core/mounting/mount.ts'
import { partStand } from '../../src-core/holding/stand.ts'
import { fetchHost } from '../../src-renderer/bridge/fetchHost.ts'
import { editPiece, editSetup } from '../../src-renderer/editor/edits/edit.ts'
import type { PointerInput } from '../../src-renderer/editor/port.ts'
import { hitTest } from '../../src-renderer/editor/hitTest.ts'
import { sideHit } from '../../src-renderer/editor/tools/sideTool.ts'
import { slidePiece } from '../../src-renderer/editor/tools/drags.ts'
import { createActions, type Actions } from '../../src-renderer/state/actions.ts'
import { createApp, type App } from '../../src-renderer/state/app.svelte.ts'
import { PIECE_STEPS } from '../../src-renderer/state/pieceSteps.ts'
import { bearingBlock, castingInBlock, castingInVee } from '../helpers/shelfJobs.ts'
import { noWorkers } from './fakeWorkers.ts'

const setupOf = (job: Job) => job.setups[0]!
const id = (job: Job) => setupOf(job).id
const seen = (job: Job, name: string) => mountSetup(job, id(job)).pieces.find((p) => p.item.id === name)!
const item = (job: Job, name: string): Hardware => setupOf(job).hardware.find((h) => h.id === name)!
const input = (x: number, y: number, more: Partial<PointerInput> = {}): PointerInput => ({
  world: { x, y },
  screen: { x: 2 * x, y: -2 * y },
  pxPerMm: 2,
  shift: false,
  alt: false,
  touch: false,
  time: 0,
  ...more,
})

function dragged(job: Job, name: string, dx: number, dy: number, more: Partial<PointerInput> = {}) {
  const { at } = seen(job, name)
  const drag = slidePiece(mountSetup(job, id(job)), name, at, { length: (mm) => `${mm} mm` })
  if (!drag) throw new Error(`${name} is not dragged`)
  return drag.at(input(at.x + dx, at.y + dy, more))
}
/** Part, fixture and all, turned about the axis with all that is on it. */
function turned(job: Job, by: number): Job {
  return editSetup(job, id(job), (s) => {
    s.turn += by
    for (const h of s.hardware)
      if (h.kind === 'anglePlate' && 'x' in h.at) {
        const [c, n] = [Math.cos((by * Math.PI) / 180), Math.sin((by * Math.PI) / 180)]
        h.at = { x: c * h.at.x - n * h.at.y, y: n * h.at.x + c * h.at.y }
        h.facing += by
      }
  })
}

describe('in plan', () => {
  test.each([0, 90, 180, 270])('a loose block goes along its shelf with the pointer, turned by %d°', (by) => {
    const job = turned(castingInBlock(), by)
    const [c, n] = [Math.cos((by * Math.PI) / 180), Math.sin((by * Math.PI) / 180)]
    const { job: moved, shown } = dragged(job, 'V1', 9 * c - 4 * n, 9 * n + 4 * c, { alt: true })
    const [from, to] = [seen(job, 'V1').at, seen(moved, 'V1').at]
    expect(to.x - from.x).toBeCloseTo(9 * c, 6)
    expect(to.y - from.y).toBeCloseTo(9 * n, 6)
    expect(item(moved, 'V1')).toMatchObject({ at: { on: 'A1', along: -9, out: 16 } })
    expect(shown).toMatchObject({ text: 'along -9 mm', snapped: false })
  })

  test('a loose block is caught where the round lies in it, from either side', () => {
    const job = castingInBlock()
    expect(dragged(job, 'V1', 2, 0)).toMatchObject({ job, shown: { snapped: true } })
    const off = dragged(job, 'V1', 30, 0).job
    expect(partStand(mountSetup(off, id(off))).shelf?.round?.lies).toBe(false)
    const back = dragged(off, 'V1', -28, 3)
    expect(back.shown).toMatchObject({ text: 'under the round  along 0 mm', snapped: true })
    expect(partStand(mountSetup(back.job, id(job))).shelf?.round?.lies).toBe(true)
  })

  test('a bolt through the base goes along the shelf, not to where the plan has its place', () => {
    const job = bearingBlock()
    const { job: moved } = dragged(job, 'b1', 2, 7, { alt: true })
    expect(item(moved, 'b1')).toMatchObject({ throughPart: { x: -58, y: 40 } })
  })

  test('a strap in a hole of the lands stays in it, and out of the reach of that goes along them', () => {
    const job = castingInVee()
    const held = dragged(job, 'c1', 2, 0)
    expect(item(held.job, 'c1')).toMatchObject({ at: { on: 'V1', hole: 'H1' } })
    expect(analyse(held.job, id(job)).joints).toEqual(analyse(job, id(job)).joints)
    expect(item(dragged(job, 'c1', 20, 0).job, 'c1')).toMatchObject({
      at: { on: 'V1', along: -68, out: 34 },
    })
  })
})

describe('arrow keys in plan', () => {
  let app: App
  let actions: Actions
  const at = (name: string) => app.results.mounted!.pieces.find((p) => p.item.id === name)!.at
  const open = (job: Job, name: string) => {
    app.files.newJob(job)
    app.session.selection = { kind: 'piece', id: name }
  }
  beforeEach(() => {
    app = createApp(fetchHost, noWorkers)
    actions = createActions(app)
  })

  test.each([
    ['a loose block', castingInBlock(), 'V1'],
    ['a strap on a shelf', castingInBlock(), 'c1'],
    ['a bolt through the base', bearingBlock(), 'b1'],
  ] as const)('%s goes the way of the arrow, and not out of sight', (_, job, name) => {
    open(job, name)
    const from = at(name)
    actions.right.run()
    expect(at(name).x - from.x).toBeCloseTo(1, 6)
    actions.leftFine.run()
    expect(at(name).x - from.x).toBeCloseTo(0.9, 6)
    const before = app.jobs.job
    actions.up.run()
    expect(app.jobs.job).toBe(before)
  })

  test('on a shelf that looks to the side they are the keys up and down', () => {
    const sideways = editPiece(castingInBlock(), 'op10', 'A1', (p) => {
      if (p.kind === 'anglePlate') p.facing = 180
    })
    open(sideways, 'V1')
    const from = at('V1')
    actions.up.run()
    expect(at('V1').y - from.y).toBeCloseTo(1, 6)
    expect(at('V1').x).toBeCloseTo(from.x, 6)
  })
})

test('what is clicked on opens the step in which it is listed', () => {
  const steps = ['Machine', 'Part', 'Mounting', 'Clamps', 'Counterweights']
  const listed = new Map<string, string>()
  for (const name of steps) {
    const source = readFileSync(`src-renderer/panels/steps/${name}Step.svelte`, 'utf8')
    for (const [, kinds] of source.matchAll(/kinds=\{\[(.*?)\]\}/g))
      for (const [, kind] of kinds!.matchAll(/'(\w+)'/g)) listed.set(kind!, name.toLowerCase())
  }
  expect(Object.fromEntries(listed)).toEqual(PIECE_STEPS)
  const app = createApp(fetchHost, noWorkers)
  app.files.newJob(castingInBlock())
  for (const id of ['V1', 'A1']) {
    app.session.step = 'part'
    app.session.show({ kind: 'piece', id }, app.jobs.job)
    expect(app.session.step).toBe('mounting')
  }
})

describe('under a finger', () => {
  const mounted = mountSetup(castingInBlock(), 'op10')

  test('in plan the block is taken that it is on, not the shelf below it', () => {
    const shelf = seen(castingInBlock(), 'A1').at.y
    for (const touch of [false, true])
      expect(hitTest(mounted, null, { x: -40, y: shelf + 4 }, 1.8, touch)).toEqual({
        kind: 'piece',
        id: 'V1',
      })
    // Beside all of it its reach is as wide as ever.
    expect(hitTest(mounted, null, { x: -145, y: shelf - 10 }, 1.8, true)).toEqual({ kind: 'piece', id: 'A1' })
    expect(hitTest(mounted, null, { x: -145, y: shelf - 10 }, 1.8)).not.toEqual({ kind: 'piece', id: 'A1' })
  })

  test('in the side view the part is taken beside a strap, and the web between the studs', () => {
    for (const touch of [false, true]) {
      expect(sideHit(mounted, { x: 63, y: 0 }, 1.8, touch)).toEqual({ kind: 'part' })
      expect(sideHit(mounted, { x: 63, y: -85 }, 1.8, touch)).toEqual({ kind: 'piece', id: 'A1' })
    }
  })
})
