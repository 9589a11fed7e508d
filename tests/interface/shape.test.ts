/** The shape of the window: what stands where, what a click on the plate opens, and that a finger can use it. */
import { describe, expect, test } from 'vitest'
import type { Locator } from 'playwright-core'
import { dragOnPlate, onPage, text, useBench } from './window.ts'

const bench = useBench()
const box = async (l: Locator) => (await l.boundingBox())!

describe.each([
  { width: 1280, height: 800 },
  { width: 1920, height: 1080 },
])('at $width × $height', (size) => {
  test('the plate in the middle, the work left in the order of the trade, findings right, speeds below', async () => {
    const page = await bench.open(size)
    const plate = await box(page.getByTestId('plate'))
    const steps = await box(page.getByRole('navigation'))
    const findings = await box(page.getByRole('complementary', { name: 'Findings' }))
    const speeds = await box(page.getByRole('radiogroup', { name: 'Spindle speed' }))
    expect(steps.x + steps.width).toBeLessThanOrEqual(plate.x + 1)
    expect(plate.x + plate.width).toBeLessThanOrEqual(findings.x + 1)
    expect(speeds.y).toBeGreaterThan(plate.y + plate.height)
    expect(plate.width).toBeGreaterThan(size.width * 0.4)
    const names = await page.getByRole('navigation').getByRole('heading').allInnerTexts()
    expect(names.map((n) => /[A-Z][a-z ]+/.exec(n)?.[0].trim())).toEqual([
      'Lathe and plate',
      'Part',
      'Mounting',
      'Clamps',
      'Counterweights',
      'Speed',
      'Sheet',
    ])
    // Nothing runs out of the window, with every step open in turn.
    for (const name of [
      '1 Lathe',
      '2 Part',
      '3 Mounting',
      '4 Clamps',
      '5 Counterweights',
      '6 Speed',
      '7 Sheet',
    ]) {
      await page.getByRole('button', { name: new RegExp(`^${name}`) }).click()
      const over = await page.evaluate(
        () =>
          [...document.querySelectorAll('nav .editor')].some((e) => e.scrollWidth > e.clientWidth + 1) ||
          document.documentElement.scrollWidth > innerWidth,
      )
      expect(over, name).toBe(false)
    }
  })
})

test('findings stand worst first, and the first shows its place', async () => {
  const page = await bench.open()
  await dragOnPlate(page, [60, 0], [60, -60])
  await page.mouse.up()
  const kinds = await page
    .getByRole('complementary', { name: 'Findings' })
    .locator('button.finding')
    .evaluateAll((all) =>
      all.map((b) => ['stop', 'not-judged', 'caution', 'note'].findIndex((k) => b.classList.contains(k))),
    )
  expect(kinds[0]).toBe(0)
  expect(kinds).toEqual([...kinds].sort((a, b) => a - b))
})

test('a click on a thing opens its figures beside the plate; from the keyboard it is Enter', async () => {
  const page = await bench.open()
  const weight = await onPage(page, -125, 8)
  await page.mouse.click(weight.x, weight.y)
  await page
    .getByRole('region', { name: 'Counterweights' })
    .getByRole('textbox', { name: 'Radius' })
    .waitFor()
  await page.getByTestId('plate').focus()
  await page.keyboard.press('Escape')
  await page.keyboard.press('.')
  await page.keyboard.press('Enter')
  await page.getByRole('region', { name: 'Mounting' }).getByRole('textbox', { name: 'Turned' }).waitFor()
  const part = await page.evaluate(() => document.activeElement?.id)
  expect(part).toBe('step-mounting')
})

test.each([1280, 1920])('beside the sheet, at %i, every drawing tool is still in reach', async (width) => {
  const page = await bench.open({ width, height: 800 })
  await page.keyboard.press('Control+p')
  await page.getByRole('region', { name: 'Setup sheet' }).waitFor()
  await page.getByRole('button', { name: 'Draw the part' }).click()
  const view = await box(page.getByTestId('plate'))
  for (const button of await page.getByRole('toolbar', { name: 'Drawing tools' }).getByRole('button').all()) {
    const at = await box(button)
    expect(at.x).toBeGreaterThanOrEqual(view.x)
    expect(at.x + at.width).toBeLessThanOrEqual(view.x + view.width)
  }
  await page.getByRole('button', { name: 'Done' }).click()
})

test('a refusal lies over no tool, scrolls nothing away, and goes with the next change', async () => {
  const page = await bench.open()
  await page.getByRole('button', { name: 'Draw the part' }).click()
  await page.getByTestId('plate').focus()
  await page.keyboard.press('.')
  await page.keyboard.press('.')
  await page.getByRole('button', { name: 'Fillet' }).click()
  const notice = page.locator('.notice', { hasText: 'no corner to take off' })
  await notice.waitFor()
  const [said, tools] = [await box(notice), await box(page.getByRole('toolbar', { name: 'Drawing tools' }))]
  expect(said.y).toBeGreaterThanOrEqual(tools.y + tools.height)
  await page.getByRole('button', { name: 'Rectangle' }).click()
  expect(await page.evaluate(() => [scrollX, scrollY, document.body.scrollTop])).toEqual([0, 0, 0])
  await dragOnPlate(page, [40, -20], [60, 10])
  await page.mouse.up()
  await page.getByRole('button', { name: 'Undo: Draw a body' }).waitFor()
  expect(await notice.count()).toBe(0)
})

test('the picture is zoomed and moved from the keyboard', async () => {
  const page = await bench.open()
  const camera = () => page.getByTestId('plate').getAttribute('data-camera')
  await page.getByTestId('plate').focus()
  const start = await camera()
  await page.keyboard.press('+')
  const nearer = await camera()
  expect(Number(nearer!.split(' ')[0])).toBeGreaterThan(Number(start!.split(' ')[0]))
  await page.keyboard.press('Control+ArrowLeft')
  expect(await camera()).not.toBe(nearer)
  await page.keyboard.press('0')
  expect(await camera()).toBe(start)
})

test('a block on the lathe on screen is held by four straps at once, and checked', async () => {
  const page = await bench.open()
  await page.getByRole('button', { name: 'New', exact: true }).click()
  await page.getByRole('textbox', { name: 'What is it?' }).fill('Block')
  await page.getByRole('checkbox', { name: /^Same lathe/ }).check()
  await page.getByRole('button', { name: 'Put it on the plate', exact: true }).click()
  await page.getByText('Straps c1, c2, c3, c4 are put on.').waitFor()
  expect(await text(page, 'verdict')).toMatch(/^go/)
  await page.getByRole('button', { name: /^4 Clamps/ }).click()
  await page.getByText(/^Factor \d/).waitFor()
  expect(await page.locator('button.finding.stop').count()).toBe(0)
})

test('with a finger every control of the window is large enough to hit', async () => {
  const page = await bench.open({ touch: true })
  await page.getByRole('button', { name: /^4 Clamps/ }).tap()
  await page.getByRole('region', { name: 'Clamps' }).waitFor()
  const small = await page.evaluate(() =>
    [...document.querySelectorAll('button')]
      .filter((b) => b.offsetParent !== null)
      .map((b) => ({
        name: b.textContent?.trim() || b.getAttribute('aria-label'),
        box: b.getBoundingClientRect(),
      }))
      .filter(({ box }) => Math.min(box.width, box.height) < 24)
      .map(({ name }) => name),
  )
  expect(small).toEqual([])
})
