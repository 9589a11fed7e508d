/** Work with a fault in it: where it is, what mends it, and why it cannot be saved yet. */
import { describe, expect, test } from 'vitest'
import type { Page } from 'playwright-core'
import { useBench } from './window.ts'

const bench = useBench()

/** An outline typed as a bow tie: two of its edges cross. */
async function bowTie(): Promise<Page> {
  const page = await bench.open()
  await page.getByRole('button', { name: 'Draw the part' }).click()
  await page.getByRole('button', { name: 'Outline of lines and arcs' }).click()
  for (const line of ['-60, 60', '60, 120', '60, 60', '-60, 80', '']) {
    await page.locator('#draw-entry').fill(line)
    await page.keyboard.press('Enter')
  }
  await page.getByRole('button', { name: 'Undo: Draw a body' }).waitFor()
  return page
}

describe('faults', () => {
  test('named on the spot in plain words, and mended by the repair that is offered', async () => {
    const page = await bowTie()
    const findings = page.getByRole('region', { name: 'Findings' })
    await findings.getByText(/^Body body1, outline, point \d$/).waitFor()
    await findings.getByRole('button', { name: 'Keep the larger loop' }).click()
    await page.getByRole('button', { name: 'Undo: Keep the larger loop' }).waitFor()
    await expect.poll(() => findings.getByText(/crosses or touches itself/).count()).toBe(0)
  })

  test('shown from the plate: the board opens with the point chosen', async () => {
    const page = await bowTie()
    await page.getByRole('button', { name: 'Done' }).click()
    await page.getByRole('button', { name: 'Show it' }).first().click()
    await page.getByRole('textbox', { name: /^Point \d x$/ }).waitFor()
  })

  test('not saved, with the place a click away; once mended it is', async () => {
    const page = await bowTie()
    await page.getByRole('button', { name: 'Done' }).click()
    await page.keyboard.press('Control+s')
    const notice = page.locator('.notice', { hasText: /Not saved: Body body1, outline, point \d/ })
    await notice.waitFor()
    expect(await page.getByRole('dialog').count()).toBe(0)
    await notice.getByRole('button', { name: 'Show it' }).click()
    await page.getByRole('toolbar', { name: 'Drawing tools' }).waitFor()
    await page.locator('.fields').getByRole('button', { name: 'Keep the larger loop' }).first().click()
    await page.keyboard.press('Control+s')
    await page.getByRole('textbox', { name: 'Name in the job book' }).fill('mended')
    await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click()
    await page.getByText('Saved as mended').waitFor()
  })
})
