/** The built window in the installed browser: its start, and frames while a part of 2,000 vertices is dragged. */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { analyse } from '../src-core/analysis/analyse.ts'
import { serialiseJob } from '../src-core/job/serialise.ts'
import { onPage, startBench } from '../tests/interface/window.ts'
import { dragJob } from './dragJob.ts'
import { median, type BenchRow } from './timing.ts'

const VERTICES = 2000
const SECONDS = 3

interface Frames {
  /** ms between frames. */
  readonly intervals: readonly number[]
  /** ms a frame that the page's own thread worked. */
  readonly work: number
}

export async function windowBench(): Promise<BenchRow[]> {
  const bench = await startBench().catch((error: unknown) => {
    console.log(`window: not measured, ${error instanceof Error ? error.message : String(error)}`)
    return null
  })
  if (!bench) return []
  try {
    const job = dragJob(VERTICES)
    writeFileSync(join(bench.folder, 'many.evenswing.json'), serialiseJob(job))
    const rows: BenchRow[] = [
      { name: 'window: from the address to a usable plate', ms: await startTime(bench) },
    ]
    const fresh = await median(() => analyse(structuredClone(job), 'op10'), 9)
    rows.push({ name: `window: one analysis of ${VERTICES} vertices, nothing kept from before`, ms: fresh })
    const page = await bench.open({ width: 1280, height: 800 })
    await openJob(page)
    const idle = await framesOf(page, async () => page.waitForTimeout(SECONDS * 1000))
    rows.push(rowOf('window: frame, nothing moves', idle, null))
    const at = (x: number, y: number) => onPage(page, x, y)
    const part = await framesOf(page, () => drag(page, () => at(-35, 5)))
    rows.push(rowOf('window: frame, the part is dragged', part, idle))
    await page.keyboard.press('Escape')
    const clamp = await framesOf(page, () => drag(page, () => at(0, 74)))
    rows.push(rowOf('window: frame, a clamp is dragged', clamp, idle))
    await page.keyboard.press('Escape')
    const turn = await framesOf(page, () => turnByKeys(page))
    rows.push(rowOf('window: frame, the part is turned by keys', turn, idle))
    await page.getByRole('button', { name: 'Draw the part' }).click()
    const [body] = job.part.bodies
    const first = body && 'outline' in body ? body.outline[0]! : { x: 0, y: 0 }
    await page.getByTestId('plate').focus()
    const vertex = await framesOf(page, () => drag(page, () => at(first.x, first.y)))
    rows.push(rowOf('window: frame, one vertex is dragged', vertex, idle))
    if (bench.errors.length > 0) console.log(`window: the page said ${bench.errors.join('; ')}`)
    return rows
  } finally {
    await bench.close()
  }
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

/** Round and round, by pointer events as fast as the browser takes them. */
async function drag(page: Page, from: () => Promise<{ x: number; y: number }>): Promise<void> {
  const start = await from()
  await page.mouse.move(start.x, start.y)
  await page.mouse.down()
  const end = Date.now() + SECONDS * 1000
  for (let i = 0; Date.now() < end; i++) {
    const t = i * 0.11
    await page.mouse.move(start.x + 22 * Math.sin(t), start.y + 16 * Math.sin(1.3 * t))
  }
  await page.mouse.up()
}

async function turnByKeys(page: Page): Promise<void> {
  await page.getByTestId('plate').focus()
  const end = Date.now() + SECONDS * 1000
  while (Date.now() < end) await page.keyboard.press(']')
}

/** Frames while `work` runs, and how busy the page's thread was in them. */
async function framesOf(page: Page, work: () => Promise<unknown>): Promise<Frames> {
  const session = await page.context().newCDPSession(page)
  await session.send('Performance.enable')
  const busy = async () => {
    const { metrics } = await session.send('Performance.getMetrics')
    return (metrics.find((m) => m.name === 'TaskDuration')?.value ?? 0) * 1000
  }
  // As text: what the compiler adds to named functions is not known in the page.
  await page.evaluate(`{ const mine = (window.counted = [])
    requestAnimationFrame(function next(t) { mine.push(t); if (window.counted === mine) requestAnimationFrame(next) }) }`)
  const before = await busy()
  await work()
  const after = await busy()
  const frames = await page.evaluate<number[]>('{ const all = window.counted; window.counted = null; all }')
  await session.detach()
  const intervals = frames.slice(1).map((t, i) => t - frames[i]!)
  return { intervals, work: (after - before) / Math.max(1, intervals.length) }
}

function rowOf(name: string, frames: Frames, idle: Frames | null): BenchRow {
  const sorted = [...frames.intervals].sort((a, b) => a - b)
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN
  const mean = sorted.reduce((sum, v) => sum + v, 0) / sorted.length
  const rate = `${(1000 / mean).toFixed(1)} frames a second, 95 % within ${at(0.95).toFixed(1)} ms, busy ${frames.work.toFixed(1)} ms a frame`
  const against = idle
    ? `; ${((1000 / mean / (1000 / (idle.intervals.reduce((s, v) => s + v, 0) / idle.intervals.length))) * 100).toFixed(0)} % of the idle rate`
    : ''
  return { name, ms: at(0.5), ratio: rate + against }
}
