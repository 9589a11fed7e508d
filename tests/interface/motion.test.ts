/** Motion: short where something moves place, none where the system asks for none. */
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { useBench } from './window.ts'

const bench = useBench()

/** Counts what is set in motion from now on, with its lengths in ms. */
const watch = (page: Page) =>
  page.evaluate(`{
    window.moved = []
    const animate = Element.prototype.animate
    Element.prototype.animate = function (frames, options) {
      window.moved.push(typeof options === 'number' ? options : Number(options.duration))
      return animate.call(this, frames, options)
    }
  }`)
const moved = (page: Page) => page.evaluate<number[]>('window.moved.filter((ms) => ms > 0)')
/** Opening a step, a finding that is new, a message. */
async function work(page: Page): Promise<void> {
  await page.keyboard.press('Alt+4')
  await page.getByRole('list', { name: 'Clamps' }).waitFor()
  await page.getByRole('button', { name: 'Remove c1', exact: true }).click()
  await page.getByText('new', { exact: true }).first().waitFor()
  await page.keyboard.press('Control+Shift+k')
  await page.locator('.notice').waitFor()
}
/** How many different pictures the plate shows in the frames after the drawing board is opened. */
async function pictures(page: Page): Promise<number> {
  await page.evaluate(`{
    window.seen = new Set()
    const context = CanvasRenderingContext2D.prototype
    const transform = context.transform
    context.transform = function (...m) {
      if (this.canvas === document.querySelectorAll('[data-plate] canvas')[0]) window.seen.add(m[0].toFixed(4))
      return transform.apply(this, m)
    }
  }`)
  await page.getByRole('button', { name: 'Draw the part' }).click()
  await page.waitForTimeout(500)
  return page.evaluate<number>('window.seen.size')
}

test('what moves place is seen to go there, within a fifth of a second', async () => {
  const page = await bench.open()
  await watch(page)
  await work(page)
  const all = await moved(page)
  expect(all.length).toBeGreaterThan(7)
  expect(Math.max(...all)).toBeLessThanOrEqual(200)
  expect(await pictures(page)).toBeGreaterThan(2)
})

test('with reduced motion nothing moves: things are where they belong at once', async () => {
  const page = await bench.open({ still: true })
  await watch(page)
  await work(page)
  expect(await moved(page)).toEqual([])
  const styled = await page.evaluate<number>(
    `[...document.querySelectorAll('*')].filter((node) => {
      const style = getComputedStyle(node)
      return [style.transitionDuration, style.animationDuration].some((d) => d.split(',').some((v) => parseFloat(v) > 0))
    }).length`,
  )
  expect(styled).toBe(0)
  expect(await pictures(page)).toBeLessThanOrEqual(2)
})
