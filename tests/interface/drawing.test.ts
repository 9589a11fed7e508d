import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import type { Page } from 'playwright-core'
import { dragOnPlate, onPage, startBench, text, type Bench } from './window.ts'

let bench: Bench
let page: Page
beforeAll(async () => {
  bench = await startBench()
})
afterAll(async () => {
  await bench.close()
})
afterEach(async () => {
  await page.close()
  expect(bench.errors).toEqual([])
})

async function draw(): Promise<void> {
  page = await bench.open()
  await page.getByRole('button', { name: 'Draw the part' }).click()
  await page.getByRole('toolbar', { name: 'Drawing tools' }).waitFor()
}
const done = () => page.getByRole('button', { name: 'Done' }).click()
const entry = () => page.locator('#draw-entry')
async function type(...lines: string[]): Promise<void> {
  for (const line of lines) {
    await entry().fill(line)
    await page.keyboard.press('Enter')
  }
}

describe('drawing in the window', () => {
  test('a hole drawn by pointer takes mass away, and undo gives it back', async () => {
    await draw()
    await page.getByRole('combobox', { name: 'What is drawn becomes' }).selectOption('hole')
    await page.getByRole('button', { name: 'Circle' }).click()
    await dragOnPlate(page, [60, 0], [72, 0])
    await page.mouse.up()
    await page.getByRole('button', { name: 'Undo: Draw a hole' }).waitFor()
    await done()
    const lighter = await text(page, 'mass')
    await page.keyboard.press('Control+z')
    expect(await text(page, 'mass')).not.toBe(lighter)
  })

  test('an outline typed from the keyboard alone, absolute, relative and polar', async () => {
    await draw()
    await page.getByRole('button', { name: 'Outline of lines and arcs' }).click()
    await type('0, 60', 'by 40, 0', 'by 20 at 90')
    await entry().fill('nonsense')
    await page.keyboard.press('Enter')
    expect(await page.getByRole('alert').innerText()).toMatch(/not a unit/)
    await type('0, 80', '')
    await page.getByRole('button', { name: 'Undo: Draw a body' }).waitFor()
    expect(await page.getByRole('textbox', { name: 'Middle x' }).inputValue()).toBe('20')
    expect(await page.getByRole('textbox', { name: 'Middle y' }).inputValue()).toBe('70')
  })

  test('a corner rounded, a vertex typed, an edge bent', async () => {
    await draw()
    await page.getByRole('button', { name: 'Rectangle' }).click()
    await type('20, 60', 'by 40, 30')
    await page.getByTestId('plate').focus()
    await page.keyboard.press('.')
    await page.getByRole('button', { name: 'Fillet' }).click()
    await page.getByRole('button', { name: 'Undo: Fillet' }).waitFor()
    const x = page.getByRole('textbox', { name: 'Point 1 x' })
    await x.fill('25')
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Undo: Move a vertex' }).waitFor()
    expect(await x.inputValue()).toBe('25')
  })

  test('a vertex dragged across another edge: the fault is named on the spot, and undo mends it', async () => {
    await draw()
    const edge = await onPage(page, 60, 37.2)
    await page.mouse.click(edge.x, edge.y)
    await dragOnPlate(page, [6.1364, 44.5796], [60, -60])
    await page.mouse.up()
    const fault = page.locator('.fault', { hasText: /crosses itself/ }).first()
    await fault.waitFor()
    await page.getByRole('button', { name: 'Undo what did it' }).first().click()
    await expect.poll(() => page.locator('.fault').count()).toBe(0)
  })

  test('the part is drawn upright however it is turned on the plate', async () => {
    page = await bench.open()
    await page.getByRole('button', { name: /^3 Mounting/ }).click()
    await page.getByRole('textbox', { name: 'Turned' }).fill('90')
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Draw the part' }).click()
    await page.getByRole('button', { name: 'Measure' }).click()
    await type('0, 0', '110, 0')
    const turned = await page.getByTestId('plate').getAttribute('data-camera')
    expect(turned!.split(' ')[3]).toBe('-90')
  })
})

describe('importing in the window', () => {
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="120mm" height="60mm" viewBox="0 0 120 60">' +
    '<path d="M0 0H120V60H0Z M30 30m-15 0a15 15 0 1 0 30 0a15 15 0 1 0 -30 0Z"/><line x1="0" y1="90" x2="50" y2="90"/></svg>'

  test('shows counts and what was left out, and takes it in only then, in one undo step', async () => {
    page = await bench.open()
    const before = await text(page, 'mass')
    await page.keyboard.press('Control+i')
    const dialog = page.getByRole('dialog')
    await dialog
      .locator('input[type=file]')
      .setInputFiles({ name: 'bracket.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(svg) })
    await dialog.getByRole('img', { name: /1 outlines as read/ }).waitFor()
    await dialog.getByRole('heading', { name: 'Left out' }).waitFor()
    expect(await text(page, 'mass')).toBe(before)
    await dialog.getByRole('textbox', { name: 'Thickness' }).fill('3/4 in')
    await page.keyboard.press('Enter')
    await dialog.getByRole('button', { name: 'Take it in' }).click()
    await page.getByRole('button', { name: 'Undo: Import bracket.svg' }).waitFor()
    expect(await text(page, 'mass')).not.toBe(before)
    await page.keyboard.press('Control+z')
    expect(await text(page, 'mass')).toBe(before)
  })

  test('a file that is no drawing is refused with a reason', async () => {
    page = await bench.open()
    await page.keyboard.press('Control+i')
    const dialog = page.getByRole('dialog')
    await dialog
      .locator('input[type=file]')
      .setInputFiles({ name: 'x.dxf', mimeType: 'text/plain', buffer: Buffer.from('nonsense') })
    await dialog.getByRole('alert').waitFor()
    expect(await dialog.getByRole('button', { name: 'Take it in' }).count()).toBe(0)
  })
})
