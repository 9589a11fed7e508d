import { describe, expect, test } from 'vitest'
import type { Page } from 'playwright-core'
import { dragOnPlate, onPage, text, useBench } from './window.ts'

const bench = useBench()
let page: Page

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
    await dragOnPlate(page, [60, 0], [78, 0])
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

  test('typed over the board, what is typed goes on in the entry; an arc by its radius', async () => {
    await draw()
    await page.getByRole('button', { name: 'Outline of lines and arcs' }).click()
    await page.getByTestId('plate').focus()
    await page.keyboard.type('0, 60')
    expect(await entry().inputValue()).toBe('0, 60')
    await page.keyboard.press('Enter')
    await type('by 40, 0', 'by 0, 20 radius 10', 'by -40, 0')
    await type('')
    await page.getByRole('button', { name: 'Undo: Draw a body' }).waitFor()
    // A half turn of radius 10 sticks out on the right: the middle is 5 mm right of the straight part's.
    expect(await page.getByRole('textbox', { name: 'Middle x' }).inputValue()).toBe('25')
  })

  test('an edge chosen by click is moved out, given a length and bent by typing', async () => {
    await draw()
    await page.getByRole('button', { name: 'Rectangle' }).click()
    await type('20, 60', 'by 40, 30')
    const edge = await onPage(page, 30, 90)
    await page.mouse.click(edge.x, edge.y)
    await page.getByRole('textbox', { name: 'Move out by' }).fill('5')
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Undo: Move an edge' }).waitFor()
    await page.getByRole('button', { name: 'Whole ring' }).click()
    expect(await page.getByRole('textbox', { name: 'Middle y' }).inputValue()).toBe('77.5')
    await page.getByTestId('plate').focus()
    await page.keyboard.press('.')
    await page.keyboard.press('e')
    await page.getByRole('textbox', { name: 'Radius', exact: true }).fill('10')
    await page.keyboard.press('Enter')
    await page.getByText(/smaller than half the distance/).waitFor()
    await page.getByRole('textbox', { name: 'Radius', exact: true }).fill('40')
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Undo: Radius of an edge' }).waitFor()
    await type('by 1, 0')
    await page.getByRole('button', { name: 'Undo: Move an edge' }).waitFor()
  })

  test('a bolt circle: a hole typed, sized and copied round a bore', async () => {
    await draw()
    await page.getByRole('combobox', { name: 'What is drawn becomes' }).selectOption('hole')
    await page.getByRole('button', { name: 'Circle' }).click()
    await type('28, 0', '5')
    const diameter = page.getByRole('textbox', { name: 'Diameter', exact: true })
    expect(await diameter.inputValue()).toBe('5')
    await diameter.fill('1/8 in + 1')
    await page.keyboard.press('Enter')
    expect(await diameter.inputValue()).toBe('4.175')
    await page.getByRole('button', { name: 'Move, turn, mirror, copy' }).click()
    await page.getByRole('combobox', { name: 'Turn, mirror about' }).selectOption('bore A')
    await page.getByRole('textbox', { name: 'Turn by' }).fill('60')
    await page.getByRole('textbox', { name: 'Copies' }).fill('5')
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Copy 5 times' }).click()
    await page.getByRole('button', { name: 'Undo: Move and turn, 5 copies' }).waitFor()
    expect(
      await page
        .getByRole('group', { name: 'Rings of link' })
        .getByRole('button', { name: /^hole \d/ })
        .count(),
    ).toBe(8)
    expect(
      await page
        .getByRole('region', { name: 'Findings' })
        .getByText(/crosses/)
        .count(),
    ).toBe(0)
  })

  test('a slot by three clicks catches on a bore and on directions; a measure stays to be read', async () => {
    await draw()
    await page.getByRole('combobox', { name: 'What is drawn becomes' }).selectOption('hole')
    await page.getByRole('button', { name: 'Slot' }).click()
    for (const [x, y] of [
      [50, 0.6],
      [75, 0.3],
      [60, 6],
    ] as const) {
      const p = await onPage(page, x, y)
      await page.mouse.move(p.x, p.y, { steps: 2 })
      await page.mouse.click(p.x, p.y)
    }
    await page.getByRole('button', { name: 'Undo: Draw a hole' }).waitFor()
    await page.getByRole('button', { name: 'Measure' }).click()
    for (const [x, y] of [
      [0.7, 0.5],
      [109.5, 0.6],
    ] as const) {
      const p = await onPage(page, x, y)
      await page.mouse.move(p.x, p.y, { steps: 2 })
      await page.mouse.click(p.x, p.y)
    }
    const away = await onPage(page, 60, 60)
    await page.mouse.move(away.x, away.y, { steps: 3 })
    // Bore A and bore B of the example are 110 mm apart.
    expect(await page.getByTestId('measured').innerText()).toMatch(/^110 mm /)
  })

  test('the part is seen from its side beside the plan, and a base typed shows there', async () => {
    await draw()
    await page.getByTestId('plate').focus()
    await page.keyboard.press('.')
    await page.getByRole('img', { name: /from its side. link: base 0 mm, 20 mm thick/ }).waitFor()
    await page.getByRole('textbox', { name: 'Base above the seat' }).fill('4')
    await page.keyboard.press('Enter')
    await page.getByRole('img', { name: /base 4 mm, 20 mm thick/ }).waitFor()
  })

  test('the outline mirrored takes its holes along; moved by arrow keys and taken back', async () => {
    await draw()
    await page.getByTestId('plate').focus()
    await page.keyboard.press('.')
    await page.getByRole('button', { name: 'Move, turn, mirror, copy' }).click()
    await page.getByRole('button', { name: 'Mirror left–right' }).click()
    await page.getByRole('button', { name: 'Undo: Mirror' }).waitFor()
    expect(await page.locator('.fault').count()).toBe(0)
    await page.getByTestId('plate').focus()
    await page.keyboard.press('ArrowRight')
    await page.getByRole('button', { name: 'Undo: Move a ring' }).waitFor()
    await page.keyboard.press('Control+z')
    await page.keyboard.press('Control+z')
    expect(await page.getByRole('button', { name: 'Undo', exact: true }).isDisabled()).toBe(true)
  })

  test('the grid that is chosen is the one that points catch on', async () => {
    await draw()
    // Room to draw beside the part.
    await page.getByRole('button', { name: 'Further' }).click()
    await page.getByRole('button', { name: 'Further' }).click()
    await page.getByRole('combobox', { name: 'Grid' }).selectOption('10')
    await page.getByRole('button', { name: 'Rectangle' }).click()
    await dragOnPlate(page, [-23, 71], [-56, 92])
    await page.mouse.up()
    await page.getByRole('button', { name: 'Undo: Draw a body' }).waitFor()
    expect(await page.getByRole('textbox', { name: 'Middle x' }).inputValue()).toBe('-40')
    expect(await page.getByRole('textbox', { name: 'Middle y' }).inputValue()).toBe('80')
  })
})
