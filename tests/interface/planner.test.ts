import { describe, expect, test } from 'vitest'
import type { Page } from 'playwright-core'
import { text, useBench } from './window.ts'

const bench = useBench()
let page: Page

describe('the planner in the window', () => {
  test('asks in a worker, compares, puts one on with one undo step and another in its place', async () => {
    page = await bench.open()
    const before = await text(page, 'unbalance')
    await page.getByRole('button', { name: /^5 Counterweights/ }).click()
    await page.getByRole('button', { name: 'Plan from the stock' }).click()
    const dialog = page.getByRole('dialog')
    await dialog.getByRole('button', { name: 'Plan', exact: true }).click()
    await dialog.getByRole('button', { name: 'Plan again' }).waitFor()
    const cards = dialog.getByRole('article')
    expect(await cards.count()).toBeGreaterThan(1)
    expect(await dialog.getByRole('img', { name: /on the plate/ }).count()).toBe(await cards.count())
    await cards.nth(0).getByRole('button', { name: 'Put it on the plate' }).click()
    await cards.nth(1).getByRole('button', { name: 'Put it on the plate' }).click()
    await dialog.getByRole('button', { name: 'Back to the plate' }).click()
    const after = await text(page, 'unbalance')
    expect(after).not.toBe(before)
    await page.getByRole('button', { name: 'Undo: Put on plan 2' }).click()
    expect(await text(page, 'unbalance')).toBe(before)
    expect(await page.getByRole('button', { name: 'Undo', exact: true }).isDisabled()).toBe(true)
  })

  test('stock changed there and then: the answers say that they are out of date', async () => {
    page = await bench.open()
    await page.keyboard.press('Control+b')
    const dialog = page.getByRole('dialog')
    await dialog.getByRole('button', { name: 'Plan', exact: true }).click()
    await dialog.getByRole('button', { name: 'Plan again' }).waitFor()
    await dialog.getByRole('button', { name: /^W3/ }).click()
    await dialog.getByRole('textbox', { name: 'How many' }).fill('0')
    await page.keyboard.press('Enter')
    await dialog.getByText('out of date').waitFor()
    expect(await dialog.getByRole('button', { name: 'Put it on the plate' }).first().isDisabled()).toBe(true)
    await dialog.getByRole('button', { name: 'Plan again' }).click()
    await expect.poll(() => dialog.getByText('out of date').count()).toBe(0)
  })

  test('what is offered for a setup that was added is done for that one, and goes with it', async () => {
    const page = await bench.open()
    const offer = page.getByRole('button', { name: 'Plan its weights' })
    await page.getByRole('button', { name: 'Add a setup' }).click()
    await page.getByRole('dialog').getByRole('button', { name: 'Add it' }).click()
    await page.getByRole('tab', { name: /^op10/ }).click()
    await offer.click()
    await page.getByRole('heading', { name: /Plan counterweights, op30/ }).waitFor()
    await page.keyboard.press('Escape')
    await page.getByRole('button', { name: 'Undo: Add a setup' }).click()
    await page.getByRole('button', { name: 'Add a setup', exact: true }).click()
    await page.getByRole('dialog').getByRole('button', { name: 'Add it' }).click()
    await offer.waitFor()
    await page.getByRole('button', { name: 'Undo: Add a setup' }).click()
    await offer.waitFor({ state: 'detached' })
  })

  test('in an inch shop it asks in round inches', async () => {
    const page = await bench.open()
    await page.getByRole('button', { name: 'in', exact: true }).click()
    await page.keyboard.press('Alt+5')
    await page.getByRole('button', { name: 'Plan from the stock' }).click()
    const height = page.getByRole('dialog').getByRole('textbox', { name: 'Stack height' })
    expect(await height.inputValue()).toBe('4.75')
  })
})
