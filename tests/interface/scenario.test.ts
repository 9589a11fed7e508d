import { expect, test } from 'vitest'
import { HANDS } from './hands.ts'
import { fillLibrary, MOST_ACTIONS, walk } from './scenario.ts'
import { text, useBench } from './window.ts'

const bench = useBench()

test.each(HANDS)('from nothing to a printed sheet by %s', async (_, handsOf) => {
  await fillLibrary(bench.folder())
  const page = await bench.open({ atStart: true })
  await page.evaluate('window.print = () => (document.title = "printed")')
  const hands = handsOf(page)
  await walk(page, hands)
  expect(hands.count).toBeLessThanOrEqual(MOST_ACTIONS)

  await expect.poll(() => page.title()).toBe('printed')
  expect(await page.locator('.print .page').first().locator('svg').innerHTML()).toContain('Crank arm')
  await page.evaluate('window.dispatchEvent(new Event("afterprint"))')
  // What it came to: four clamps that hold, a weight, and a speed that is not good without it.
  expect(await text(page, 'verdict')).toMatch(/^go/)
  expect(
    await page.getByRole('region', { name: 'Findings' }).getByRole('button', { name: /^stop/ }).count(),
  ).toBe(0)
  await page.keyboard.press('Alt+4')
  await expect
    .poll(() =>
      page
        .getByRole('list', { name: 'Clamps' })
        .getByRole('button', { name: /^Remove/ })
        .count(),
    )
    .toBe(4)
  await page.getByRole('button', { name: 'Undo: Part number' }).click()
  await page.getByRole('button', { name: 'Undo: Put on plan 1' }).click()
  await expect.poll(() => text(page, 'verdict')).not.toMatch(/^go/)
})
