import { beforeEach, expect, test } from 'vitest'
import { isClamp, isPrism } from '../../src-core/job/schema.ts'
import { fetchHost } from '../../src-renderer/bridge/fetchHost.ts'
import { rectRing } from '../../src-core/geometry/edges.ts'
import { usualPattern } from '../../src-renderer/editor/edits/fourStraps.ts'
import { createApp, type App } from '../../src-renderer/state/app.svelte.ts'
import { blankJob, START } from '../../src-renderer/state/blankJob.ts'
import { noWorkers } from './fakeWorkers.ts'

let app: App
const clamps = () => app.results.setup.hardware.filter(isClamp).length
const outlines = () => app.jobs.job.part.bodies.filter(isPrism).map((b) => b.outline.length)
/** mm, closed by Enter. */
function draw(...points: readonly (readonly [number, number])[]): void {
  for (const [x, y] of points) app.draw.tool.typed({ kind: 'point', point: { x, y }, relative: false })
  app.draw.tool.key('Enter')
}

beforeEach(() => {
  app = createApp(fetchHost, noWorkers)
  app.files.newJob(blankJob({ ...START, title: 'arm', shape: 'drawn', boreDiameter: 50, boreStart: 44 }))
  app.session.standIn = true
  app.session.strapsToCome = usualPattern(app.jobs.job, 'op10')
})

test('what is drawn takes the place of the stand-in, and the straps come once the board is left', () => {
  app.draw.redraw('body')
  draw([-70, -45], [70, -45], [70, 45], [-70, 45])
  expect(outlines()).toEqual([4])
  expect(app.session.standIn).toBe(false)
  expect(clamps()).toBe(0)
  app.draw.leave()
  expect(clamps()).toBe(4)
  expect(app.session.notice?.text).toBe('Straps c1, c2, c3, c4 are put on.')
  // Only once: a board that is left again puts none on.
  app.draw.enter()
  app.draw.take('rectangle')
  app.draw.leave()
  expect(clamps()).toBe(4)
})

test('nothing drawn yet: the straps wait', () => {
  app.draw.redraw('body')
  app.draw.leave()
  expect([clamps(), app.session.standIn]).toEqual([0, true])
  app.draw.redraw('body')
  draw([-70, -45], [70, -45], [70, 45], [-70, 45])
  app.draw.leave()
  expect(clamps()).toBe(4)
})

test('another job that comes onto the plate waits for no straps of the one before', () => {
  app.draw.redraw('body')
  draw([-70, -45], [70, -45], [70, 45], [-70, 45])
  app.files.newJob(blankJob({ ...START, title: 'other' }))
  expect([clamps(), app.session.standIn, app.session.strapsToCome]).toEqual([0, false, null])
  expect(outlines()).toEqual([rectRing({ x: 0, y: 0 }, 1, 1, 0).length])
})
