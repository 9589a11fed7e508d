/** The built window in the installed browser: its start, and frames while a part of 2,000 vertices is dragged. */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { analyse } from '../src-core/analysis/analyse.ts'
import type { Point } from '../src-core/geometry/types.ts'
import { serialiseJob } from '../src-core/job/serialise.ts'
import type { Job } from '../src-core/job/schema.ts'
import { onPage, type Bench } from '../tests/interface/window.ts'
import { inBrowser } from './browser.ts'
import { dragJob } from './dragJob.ts'
import { median, type BenchRow } from './timing.ts'

const VERTICES = 2000
const SECONDS = 3

interface Frames {
  /** ms between frames. */
  readonly intervals: readonly number[]
  /** ms a frame that the page's own thread worked, by its own clock: what other programs take does not count. */
  readonly work: number
  /** Share of the frames in which the part's layer was painted anew. */
  readonly painted: number
  /** Tasks of the page's thread that took 50 ms or more. */
  readonly long: number
}

export const windowBench = () => inBrowser('window', windowRows)

async function windowRows(bench: Bench): Promise<BenchRow[]> {
  const job = dragJob(VERTICES)
  writeFileSync(join(bench.folder, 'many.evenswing'), serialiseJob(job))
  const rows: BenchRow[] = [
    { name: 'window: from the address to a usable plate', ms: await startTime(bench) },
  ]
  const once = await median(() => analyse(structuredClone(job), 'op10'), 9)
  rows.push({ name: `window: one analysis of ${VERTICES} vertices, nothing kept from before`, ms: once })
  for (const look of LOOKS) rows.push(...(await dragRows(bench, job, look)))
  if (bench.errors.length > 0) console.log(`window: the page said ${bench.errors.join('; ')}`)
  return rows
}

/** What the frames are measured at: CSS pixels, and device pixels to each. */
const LOOKS = [
  { name: '1280 × 800', width: 1280, height: 800, zoom: 1 },
  { name: '1920 × 1080', width: 1920, height: 1080, zoom: 1 },
  // As many device pixels, each of the page's twice as wide.
  { name: '1920 × 1080 at 200 %', width: 960, height: 540, zoom: 2 },
] as const

async function dragRows(bench: Bench, job: Job, look: (typeof LOOKS)[number]): Promise<BenchRow[]> {
  const rows: BenchRow[] = []
  const called = (what: string) => `window: frame at ${look.name}, ${what}`
  const page = await bench.open(look)
  await openJob(page)
  const idle = await framesOf(page, async () => page.waitForTimeout(SECONDS * 1000))
  rows.push(rowOf(called('nothing moves'), idle, null))
  const dragged = async (what: string, from: Point, step: string, round = ROUND) => {
    const frames = await framesOf(page, () => drag(page, from, step, round))
    rows.push(rowOf(called(`${what} is dragged`), frames, idle))
    await page.keyboard.press('Control+z')
  }
  await dragged('the part', { x: -35, y: 5 }, 'Move the part')
  await dragged('a clamp', { x: 0, y: 74 }, 'Move strap clamp')
  await page.getByRole('button', { name: 'Draw the part' }).click()
  await page.waitForTimeout(700)
  const [body] = job.part.bodies
  const first = body && 'outline' in body ? body.outline[0]! : { x: 0, y: 0 }
  // A click on the outline chooses it, with its points.
  const { x, y } = await onPage(page, first.x, first.y)
  await page.mouse.click(x, y)
  await page.waitForTimeout(1200)
  await dragged('one vertex', first, 'Move a vertex', OUTWARD)
  const other = await bench.open(look)
  await openJob(other)
  const turn = await framesOf(other, () => turnByKeys(other))
  rows.push(rowOf(called('the part is turned by keys'), turn, idle))
  await page.context().close()
  await other.context().close()
  return rows
}

async function startTime(bench: { open(): Promise<Page> }): Promise<number> {
  const all: number[] = []
  for (let i = 0; i < 5; i++) {
    const page = await bench.open()
    // From the page's own start; `open` came back once the plate stood with its figures.
    all.push(await page.evaluate(() => performance.now()))
    await page.context().close()
  }
  return all.sort((a, b) => a - b)[2]!
}

async function openJob(page: Page): Promise<void> {
  await page.keyboard.press('Control+o')
  await page
    .getByRole('option')
    .filter({ hasText: `${VERTICES} vertices` })
    .waitFor()
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { level: 1, name: `${VERTICES} vertices` }).waitFor()
  await page.waitForTimeout(500)
}

/** ms between the moves of a mouse that tells of them 125 times a second. */
const MOUSE = 8

type Round = (t: number) => Point
const ROUND: Round = (t) => ({ x: 22 * Math.sin(t), y: 16 * Math.sin(1.3 * t) })
/** To the right of where it stood, so that the outline stays sound and everything is checked. */
const OUTWARD: Round = (t) => ({ x: 14 + 12 * Math.sin(t), y: 3 * Math.sin(1.3 * t) })

/** Round and round from a plate point by a mouse that waits for no frame; `step` names what undo would take back. */
async function drag(page: Page, from: Point, step: string, round: Round): Promise<void> {
  const { x, y } = await onPage(page, from.x, from.y)
  const session = await page.context().newCDPSession(page)
  await page.mouse.move(x, y)
  await page.mouse.down()
  const begun = Date.now()
  const sent: Promise<unknown>[] = []
  for (let i = 1; Date.now() - begun < SECONDS * 1000; i++) {
    const by = round(i * 0.05)
    const to = { x: x + by.x, y: y + by.y }
    sent.push(
      session.send('Input.dispatchMouseEvent', { type: 'mouseMoved', button: 'left', buttons: 1, ...to }),
    )
    await new Promise((next) => setTimeout(next, Math.max(0, begun + i * MOUSE - Date.now())))
  }
  await Promise.all(sent)
  await page.mouse.up()
  await session.detach()
  if ((await page.getByRole('button', { name: `Undo: ${step}` }).count()) === 0)
    throw new Error(`the drag that was measured is not "${step}"`)
}

async function turnByKeys(page: Page): Promise<void> {
  const { x, y } = await onPage(page, -35, 5)
  await page.mouse.click(x, y)
  const end = Date.now() + SECONDS * 1000
  while (Date.now() < end) await page.keyboard.press(']')
}

/** Frames while `work` runs, and how busy the page's thread was in them. */
async function framesOf(page: Page, work: () => Promise<unknown>): Promise<Frames> {
  const session = await page.context().newCDPSession(page)
  await session.send('Performance.enable', { timeDomain: 'threadTicks' })
  const busy = async () => {
    const { metrics } = await session.send('Performance.getMetrics')
    return (metrics.find((m) => m.name === 'TaskDuration')?.value ?? 0) * 1000
  }
  // As text: what the compiler adds to named functions is not known in the page.
  await page.evaluate(COUNT)
  const before = await busy()
  await work()
  const after = await busy()
  const { frames, painted, long } = await page.evaluate<{ frames: number[]; painted: number; long: number }>(
    'window.counted.end()',
  )
  await session.detach()
  const intervals = frames.slice(1).map((t, i) => t - frames[i]!)
  const count = Math.max(1, intervals.length)
  return { intervals, work: (after - before) / count, painted: painted / count, long }
}

/** Counts frames, long tasks, and how often the canvas of the part and what stands on the plate is cleared. */
const COUNT = `{
  const mine = { frames: [], painted: 0, long: 0 }
  const canvas = document.querySelectorAll('[data-plate] canvas')[1]
  const context = CanvasRenderingContext2D.prototype
  const clear = context.clearRect
  context.clearRect = function (...box) {
    if (this.canvas === canvas) mine.painted++
    return clear.apply(this, box)
  }
  const watch = new PerformanceObserver((list) => (mine.long += list.getEntries().length))
  watch.observe({ type: 'longtask' })
  let counting = true
  requestAnimationFrame(function next(t) {
    mine.frames.push(t)
    if (counting) requestAnimationFrame(next)
  })
  window.counted = {
    end() {
      counting = false
      context.clearRect = clear
      mine.long += watch.takeRecords().length
      watch.disconnect()
      return mine
    },
  }
}`

function rowOf(name: string, frames: Frames, idle: Frames | null): BenchRow {
  const sorted = [...frames.intervals].sort((a, b) => a - b)
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN
  const rate = (f: Frames) => (1000 * f.intervals.length) / f.intervals.reduce((sum, v) => sum + v, 0)
  const said = [
    `${rate(frames).toFixed(1)} frames a second`,
    `95 % within ${at(0.95).toFixed(1)} ms`,
    `the page's thread works ${frames.work.toFixed(1)} ms in each`,
  ]
  if (idle)
    said.push(
      `${(frames.painted * 100).toFixed(0)} % painted anew`,
      `${frames.long} long tasks`,
      `${((rate(frames) / rate(idle)) * 100).toFixed(0)} % of the idle rate`,
    )
  return { name, ms: at(0.5), ratio: said.join(', ') }
}
