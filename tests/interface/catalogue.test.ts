/** Shop hardware out of the catalogue, by size and material, onto the plate and into the stock. */
import { describe, expect, test } from 'vitest'
import { text, useBench } from './window.ts'

const bench = useBench()

describe('the catalogue', () => {
  test('a round weight of brass: its mass follows from size and material, into the stock and onto the plate', async () => {
    const page = await bench.open()
    await page.getByRole('button', { name: /^5 Counterweights/ }).click()
    await page.getByRole('button', { name: 'Weights by size and material' }).click()
    const dialog = page.getByRole('dialog')
    await dialog.getByRole('combobox', { name: 'Usual sizes' }).selectOption('2')
    // π/4·(50² − 14²)·25 mm³ at 7850 kg/m³.
    expect(await text(page, 'catalogue-mass')).toBe('355 g')
    await dialog.getByRole('combobox', { name: 'Material' }).selectOption('brass')
    expect(await text(page, 'catalogue-mass')).toBe('385 g')
    await dialog.getByRole('textbox', { name: 'Height' }).fill('2 in')
    await page.keyboard.press('Enter')
    expect(await text(page, 'catalogue-mass')).toBe('783 g')
    await dialog.getByRole('button', { name: 'Into the stock' }).click()
    await dialog.getByText(/2 × round weight 50 × 50.8 brass are in the stock/).waitFor()
    const before = await text(page, 'unbalance')
    await dialog.getByRole('button', { name: 'Put it on the plate' }).click()
    await page.getByRole('button', { name: /^Undo: Put on round weight/ }).waitFor()
    expect(await text(page, 'unbalance')).not.toBe(before)
    await page
      .getByRole('list', { name: 'Stock' })
      .getByText('2 × 783 g, round weight 50 × 50.8 brass')
      .waitFor()
  })

  test('by keyboard: kinds, an own size that leaves nothing is refused with a word, threads are listed', async () => {
    const page = await bench.open()
    await page.keyboard.press('Control+l')
    const dialog = page.getByRole('dialog')
    await dialog.getByRole('button', { name: 'Rectangular weight' }).press('Enter')
    await dialog.getByRole('textbox', { name: 'Bolt hole ⌀' }).fill('100')
    await page.keyboard.press('Enter')
    await dialog.getByText(/No mass. These sizes leave nothing/).waitFor()
    expect(await dialog.getByRole('button', { name: 'Put it on the plate' }).isDisabled()).toBe(true)
    await dialog.getByRole('button', { name: 'Strap clamp' }).press('Enter')
    await dialog.getByRole('combobox', { name: 'Thread' }).selectOption('M16')
    await dialog.getByRole('button', { name: 'Thread table' }).press('Enter')
    const row = dialog.getByRole('row', { name: /^M16 / })
    expect(await row.innerText()).toMatch(/157 mm²[\s\S]*91000 N[\s\S]*24 mm × 14.8 mm/)
    await page.keyboard.press('Escape')
    await dialog.getByRole('button', { name: 'Close without it' }).press('Enter')
    expect(await page.getByRole('dialog').count()).toBe(0)
  })

  test('a heel block goes under the clamp that is selected, an angle bracket into a free slot', async () => {
    const page = await bench.open()
    await page.getByRole('button', { name: /^4 Clamps/ }).click()
    await page.getByRole('button', { name: /^c1 / }).click()
    await page.keyboard.press('Control+l')
    await page.getByRole('dialog').getByRole('button', { name: 'Heel block' }).click()
    await page.getByRole('dialog').getByRole('button', { name: 'Put it on the plate' }).click()
    await page.getByRole('button', { name: /^Undo: Put on heel block/ }).waitFor()
    await page.getByRole('button', { name: 'Angle bracket', exact: true }).click()
    await page.getByRole('button', { name: 'Undo: Add b1' }).waitFor()
  })
})
