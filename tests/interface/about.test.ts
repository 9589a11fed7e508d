/** The about box, reached as a user reaches it. */
import { expect, test } from 'vitest'
import { violations } from './violations.ts'
import { useBench } from './window.ts'

const bench = useBench()

test('from the keys to the about box: versions, licences and cautions, and back', async () => {
  const page = await bench.open()
  await page.keyboard.press('F1')
  const keys = page.getByRole('dialog', { name: 'Keyboard' })
  await expect.poll(() => keys.locator('kbd', { hasText: /^\+$/ }).count()).toBe(1)
  expect((await keys.locator('kbd').allTextContents()).filter((text) => text === '')).toEqual([])
  await keys.getByRole('button', { name: 'About Evenswing' }).click()
  const about = page.getByRole('dialog', { name: 'About Evenswing' })
  const words = await about.innerText()
  expect(words).toContain(process.versions.node)
  expect(words).toContain('Bitstream Vera licence')
  expect(words).toContain('turn the spindle by hand')
  // In a browser there is no desktop to show a folder on.
  expect(await about.getByRole('button', { name: 'Show the log' }).count()).toBe(0)
  expect(await violations(page)).toEqual([])
  await page.keyboard.press('Escape')
  await expect.poll(() => page.getByRole('dialog').count()).toBe(0)
})
