/** The keyboard: given back after every dialog and view, and heard everywhere but in fields. */
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { useBench } from './window.ts'

const bench = useBench()

const focused = (page: Page) =>
  page.evaluate(() => {
    const node = document.activeElement
    return node?.getAttribute('aria-label') ?? node?.id ?? node?.tagName ?? ''
  })
const from = (page: Page) => page.getByRole('button', { name: 'Turn by hand' })

test('every dialog that a key opens gives the keyboard back to where it was', async () => {
  const page = await bench.open()
  for (const key of [
    'F1', 'Control+,', 'Control+e', 'Control+Shift+l', 'Control+s', 'Control+Shift+s', 'Control+n', 'Control+i',
    'Control+l', 'Control+b', 'p', 'h', '?',
  ]) {
    await from(page).focus()
    await page.keyboard.press(key)
    await page.getByRole('dialog').waitFor()
    expect(await focused(page), key).not.toBe('Turn by hand')
    await page.keyboard.press('Escape')
    await page.getByRole('dialog').waitFor({ state: 'detached' })
    await expect.poll(() => focused(page), { message: key }).toBe('Turn by hand')
  } // prettier-ignore
})

test('so do the job book and the mode at the lathe', async () => {
  const page = await bench.open()
  await from(page).focus()
  await page.keyboard.press('Control+o')
  await page.getByTestId('job-book').waitFor()
  await page.keyboard.press('Escape')
  await page.getByTestId('job-book').waitFor({ state: 'detached' })
  await expect.poll(() => focused(page)).toBe('Turn by hand')
  await page.keyboard.press('Control+j')
  await page.getByTestId('at-lathe').waitFor()
  await page.keyboard.press('Escape')
  await page.getByRole('button', { name: /come back to this step/ }).press('Enter')
  await page.getByTestId('at-lathe').waitFor({ state: 'detached' })
  await expect.poll(() => focused(page)).toBe('Turn by hand')
})

test('keys of the plate hold wherever the keyboard is, but in a field', async () => {
  const page = await bench.open()
  await page.keyboard.press('Alt+6')
  await page.getByRole('region', { name: 'Speed', exact: true }).waitFor()
  const places = [
    page.getByRole('button', { name: 'Job book' }),
    page.getByRole('region', { name: 'Speed', exact: true }),
    page.locator('.findings .scroll'),
    page.getByRole('radio', { name: /^110 rpm/ }),
  ]
  for (const place of places) {
    await place.focus()
    await page.keyboard.press('.')
    await page.getByText('The part is selected').waitFor({ state: 'attached' })
    await page.keyboard.press('[')
    await page.getByRole('button', { name: 'Undo: Turn the part' }).waitFor()
    await page.keyboard.press('Control+z')
    await page.getByTestId('plate').focus()
    await page.keyboard.press('Escape')
    await page.getByText('Nothing selected.').waitFor({ state: 'attached' })
    await page.keyboard.press('Alt+6')
  }
  await page.getByRole('textbox', { name: 'Spindle speed' }).focus()
  await page.keyboard.press('.')
  expect(await page.getByText('Nothing selected.').count()).toBe(1)
  // A step is opened from a field too.
  await page.keyboard.press('Alt+2')
  await page.getByRole('region', { name: 'Part', exact: true }).waitFor()
  await expect.poll(() => focused(page)).toBe('Part')
})
