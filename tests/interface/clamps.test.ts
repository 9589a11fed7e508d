/** Four straps put on, one dragged off the part and back, copied, taken off: what does not reach the part is said at once. */
import { expect, test } from 'vitest'
import { dragOnPlate, text, useBench } from './window.ts'

const bench = useBench()

test('four straps, one dragged off the part and put back, copied and taken off as one', async () => {
  const page = await bench.open()
  await page.getByRole('button', { name: 'New', exact: true }).click()
  await page.getByRole('textbox', { name: 'What is it?' }).fill('Block')
  await page.keyboard.press('Tab')
  await page.getByRole('checkbox', { name: /^Same lathe/ }).check()
  await page.getByLabel('Four of these, where they hold').selectOption({ label: 'nothing yet' })
  await page.getByRole('button', { name: 'Put it on the plate', exact: true }).click()
  await page.getByTestId('plate').focus()
  await page.keyboard.press('4')
  await page.getByText('Straps c1, c2, c3, c4 are put on.').waitFor()
  await page.getByRole('button', { name: /^4 Clamps/ }).click()
  const list = page.getByRole('list', { name: 'Clamps' })
  expect(await list.getByRole('listitem').count()).toBe(4)
  const held = await text(page, 'verdict')
  // c1 stands in the slot at 0°, its bolt at radius 54, its tail beyond it.
  await dragOnPlate(page, [85, 0], [117, 0])
  await page.mouse.up()
  await page.getByRole('button', { name: /^Undo: Move strap clamp M12 c1/ }).waitFor()
  await page.getByText(/^The strap is .* short of the part\.$/).waitFor()
  expect(await text(page, 'verdict')).not.toMatch(/^go\b/i)
  await page
    .getByText(/^Strap .*\(?c1\)? does not reach the part: .* short\./)
    .first()
    .waitFor()
  // Red in the side view too: the theme's colour of a stop.
  await page.getByRole('tab', { name: 'Side' }).click()
  const strap = page.locator('rect.strap-off')
  await strap.waitFor()
  const [fill, stop] = await strap.evaluate((el) => {
    const probe = document.createElement('i')
    probe.style.color = 'var(--stop)'
    el.ownerDocument.body.append(probe)
    const colours = [getComputedStyle(el).fill, getComputedStyle(probe).color]
    probe.remove()
    return colours
  })
  expect(fill).toBe(stop)
  await page.keyboard.press('Control+z')
  await page.getByText(/^The toe presses at/).waitFor()
  expect(await text(page, 'verdict')).toBe(held)
  await page.getByRole('button', { name: 'Another like it' }).click()
  await page.getByRole('button', { name: 'Undo: Add c5' }).waitFor()
  expect(await list.getByRole('listitem').count()).toBe(5)
  await page.getByTestId('plate').focus()
  await page.keyboard.press('Delete')
  await page.getByRole('button', { name: 'Undo: Take off c5' }).waitFor()
  expect(await list.getByRole('listitem').count()).toBe(4)
})
