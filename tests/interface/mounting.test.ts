/** The part on the plate: what goes on the axis, turning, packing, clamps along their slots; by pointer and typed. */
import { describe, expect, test } from 'vitest'
import { dragOnPlate, onPage, text, useBench } from './window.ts'

const bench = useBench()

describe('mounting', () => {
  test('a point picked on the part goes on the axis; picking its bore centres on the bore', async () => {
    const page = await bench.open()
    await page.getByRole('button', { name: /^3 Mounting/ }).click()
    const pick = page.getByRole('button', { name: 'Pick the point on the part' })
    await pick.click()
    await page.getByText(/Click the point of the part/).waitFor()
    const bore = await onPage(page, 110.4, 0.5)
    await page.mouse.move(bore.x, bore.y)
    await page.mouse.click(bore.x, bore.y)
    expect(await page.getByRole('combobox', { name: 'On the spindle axis' }).inputValue()).toBe('B')
    // Bore B is on the axis now: the corner where the flank meets the large end lies 110 mm further left.
    await pick.click()
    const corner = await onPage(page, 6.1364 - 110.2, 44.5796 + 0.3)
    await page.mouse.move(corner.x, corner.y)
    await page.mouse.click(corner.x, corner.y)
    expect(Number(await page.getByRole('textbox', { name: 'Point x' }).inputValue())).toBeCloseTo(6.136, 2)
    await pick.click()
    await page.keyboard.press('Escape')
    expect(await page.getByText(/Click the point of the part/).count()).toBe(0)
    await page.keyboard.press('Control+z')
    await page.keyboard.press('Control+z')
    expect(await page.getByRole('combobox', { name: 'On the spindle axis' }).inputValue()).toBe('A')
  })

  test('turned by its handle and by typing it ends the same', async () => {
    const page = await bench.open()
    const part = await onPage(page, 60, 0)
    await page.mouse.click(part.x, part.y)
    await page.getByRole('textbox', { name: 'Turned' }).waitFor()
    // The handle stands beyond the rim in the part's own direction.
    await dragOnPlate(page, [150 + 300 * 0.085, 0], [0, 175])
    await page.mouse.up()
    await page.getByRole('button', { name: 'Undo: Turn the part' }).waitFor()
    expect(await page.getByRole('textbox', { name: 'Turned' }).inputValue()).toBe('90')
    const dragged = await text(page, 'unbalance')
    await page.keyboard.press('Control+z')
    await page.getByRole('textbox', { name: 'Turned' }).fill('45 + 45')
    await page.keyboard.press('Enter')
    expect(await text(page, 'unbalance')).toBe(dragged)
  })

  test('packing typed in inches lifts the part; a block as high is put under it', async () => {
    const page = await bench.open()
    await page.getByRole('button', { name: /^3 Mounting/ }).click()
    await page.getByRole('textbox', { name: 'Packing', exact: true }).fill('1 in')
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Packing and heel blocks by size' }).click()
    expect(await page.getByRole('dialog').getByRole('textbox', { name: 'Height' }).inputValue()).toBe('25.4')
    await page.getByRole('dialog').getByRole('button', { name: 'Put it on the plate' }).click()
    await page.getByRole('button', { name: /^Undo: Put on packing block/ }).waitFor()
  })

  test('a clamp slides along its slot by drag; another like it is put where it holds', async () => {
    const page = await bench.open()
    const before = await text(page, 'unbalance')
    await dragOnPlate(page, [0, 80], [3, 92])
    await page.mouse.up()
    await page.getByRole('button', { name: /^Undo: Move strap clamp M12 c1/ }).waitFor()
    expect(await text(page, 'unbalance')).not.toBe(before)
    const clamp = await onPage(page, 0, 105)
    await page.mouse.click(clamp.x, clamp.y)
    await page.getByRole('button', { name: 'Another like it' }).click()
    await page.getByRole('button', { name: 'Undo: Add c5' }).waitFor()
    await page.getByRole('button', { name: 'Undo: Add c5' }).click()
    expect(
      await page.getByRole('list', { name: 'Clamps' }).getByRole('button', { name: /^c5/ }).count(),
    ).toBe(0)
  })

  test('a turn that is no angle is refused with a reason and the old one stays', async () => {
    const page = await bench.open()
    await page.getByRole('button', { name: /^3 Mounting/ }).click()
    const turned = page.getByRole('textbox', { name: 'Turned' })
    await turned.fill('3 mm')
    await page.keyboard.press('Enter')
    expect(await page.getByRole('alert').innerText()).toMatch(/an angle is wanted/i)
    await turned.press('Escape')
    expect(await turned.inputValue()).toBe('0')
    const packing = page.getByRole('textbox', { name: 'Packing', exact: true })
    for (const [typed, shown] of [
      ['12,5', '12.5'],
      ['3/8 in + 2', '11.525'],
      ['0 ft 2 in', '50.8'],
    ] as const) {
      await packing.fill(typed)
      await page.keyboard.press('Enter')
      expect(await packing.inputValue()).toBe(shown)
    }
  })
})
