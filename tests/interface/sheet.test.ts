import { execFileSync } from 'node:child_process'
import { readdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import type { Page } from 'playwright-core'
import { rasterPage } from '../helpers/readback.ts'
import { useBench } from './window.ts'

const bench = useBench()
let page: Page

const pane = () => page.getByRole('region', { name: 'Setup sheet' })
const paper = () => pane().getByRole('img', { name: /^Setup sheet/ })
const counter = (words: RegExp) => pane().getByRole('status').filter({ hasText: words })
const drawn = () => paper().innerHTML()
const held = (name: RegExp) =>
  pane().getByRole('group', { name: 'Dimensions on the sheet' }).getByRole('button', { name })
const pdfText = (path: string) => execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' })
const pdfSizes = (path: string) =>
  [
    ...execFileSync('pdfinfo', ['-l', '9', path], { encoding: 'utf8' }).matchAll(
      /size:\s+([\d.]+) x ([\d.]+)/g,
    ),
  ].map((m) => [m[1], m[2]].map((points) => Math.round((Number(points) * 25.4) / 72)))

/** Length in mm of the dark run that begins where an A3 sheet's check line does: 26 mm from the left, 13 from below. */
function checkLine(pdf: Uint8Array): number {
  const { width, pixels } = rasterPage(pdf, 1, 254)
  const row = (297 - 13) * 10
  const isDark = (column: number) =>
    [-2, -1, 0, 1, 2].some((off) => pixels[(row + off) * width + column]! < 200)
  let from = 255
  while (from < 270 && !isDark(from)) from++
  let to = from
  while (isDark(to + 1)) to++
  return (to - from + 1) / 10
}

async function openSheet(): Promise<void> {
  page = await bench.open()
  await page.keyboard.press('Control+p')
  await paper().waitFor()
}

/** The setup alone has a sheet or more too: the count tells that all of the job's are there. */
async function showWholeJob(): Promise<void> {
  const alone = await counter(/^1 of \d$/).innerText()
  await pane().getByRole('button', { name: 'Whole job' }).click()
  await expect.poll(() => counter(/^1 of \d$/).innerText()).not.toBe(alone)
}

test('stands beside the plate, follows the job, and is closed again', async () => {
  await openSheet()
  expect(await page.getByTestId('plate').isVisible()).toBe(true)
  const before = await drawn()
  expect(before).toContain('Crank link')
  await page.getByRole('radio', { name: /^45 rpm/ }).click()
  await expect.poll(drawn).toContain('SPINDLE 45 rpm')
  await pane().getByRole('button', { name: 'Close the sheet' }).click()
  expect(await pane().count()).toBe(0)
})

test('size, scale, projection and title block are chosen in the step and kept in the job', async () => {
  await openSheet()
  await page.getByRole('button', { name: /^7 Sheet/ }).click()
  await page.getByLabel('Size', { exact: true }).selectOption('A4')
  await page.getByLabel('Projection').selectOption('third')
  await page.getByLabel('Scale').selectOption('0.1')
  await page.getByLabel('Owner').fill('Millbrook Shop')
  await page.keyboard.press('Tab')
  await expect.poll(drawn).toContain('Millbrook Shop')
  await expect.poll(drawn).toContain('1:10')
  expect(await paper().getAttribute('viewBox')).toBe('0 0 210 297')
  await page.keyboard.press('Control+s')
  await page.getByRole('dialog').getByRole('button', { name: 'Save', exact: true }).click()
  await page.getByText(/^Saved as/).waitFor()
  const name = (await readdir(bench.folder())).find((n) => n.endsWith('.evenswing'))!
  const job = JSON.parse(await readFile(join(bench.folder(), name), 'utf8'))
  expect(job.setups[0].sheet).toEqual({ size: 'A4', scale: 0.1, projection: 'third' })
  expect(job.titleBlock).toEqual({ owner: 'Millbrook Shop' })
})

test('a dimension is dragged, moved by keys, hidden, shown and put back, one undo step each', async () => {
  await openSheet()
  const place = async (name: RegExp) => (await held(name).locator('circle').boundingBox())!
  const from = await place(/^diameter of the plate/)
  const [x, y] = [from.x + from.width / 2, from.y + from.height / 2]
  await page.mouse.move(x, y)
  await page.mouse.down()
  await page.mouse.move(x - 8, y + 5, { steps: 3 })
  await page.mouse.up()
  await expect.poll(async () => (await place(/^diameter of the plate/)).x).toBeLessThan(from.x - 4)
  await page.getByRole('button', { name: 'Undo: Move a dimension' }).click()
  await expect.poll(async () => Math.abs((await place(/^diameter of the plate/)).x - from.x)).toBeLessThan(1)

  await held(/^left edge of the part/).focus()
  const keyed = await place(/^left edge of the part/)
  await page.keyboard.press('ArrowUp')
  await expect.poll(async () => (await place(/^left edge of the part/)).y).toBeLessThan(keyed.y - 0.5)
  await page.keyboard.press('Home')
  await expect
    .poll(async () => Math.abs((await place(/^left edge of the part/)).y - keyed.y))
    .toBeLessThan(0.5)

  await held(/^left edge of the part/).focus()
  await page.keyboard.press('Delete')
  await expect.poll(() => held(/^left edge of the part/).count()).toBe(0)
  await pane()
    .getByText(/^Dimensions: \d+ shown, 1 hidden$/)
    .click()
  const row = pane().getByRole('listitem').filter({ hasText: 'Left edge of the part' })
  expect(await row.innerText()).toContain('hidden')
  await row.getByRole('checkbox', { name: 'Hide' }).uncheck()
  await expect.poll(() => held(/^left edge of the part/).count()).toBe(1)
  await row.getByRole('textbox', { name: /^Stands off/ }).fill('-30')
  await page.keyboard.press('Enter')
  await expect.poll(() => row.getByRole('textbox').inputValue()).toBe('-30')
  await row.getByRole('button', { name: /^Automatic/ }).click()
  await expect.poll(() => row.getByRole('textbox').inputValue()).not.toBe('-30')
  expect(await row.getByRole('button', { name: /^Automatic/ }).isDisabled()).toBe(true)
})

test('the text of a bore and the balloon of a station go where the hand puts them', async () => {
  await openSheet()
  const middle = async (name: RegExp) => {
    const box = (await held(name).locator('circle').boundingBox())!
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 }
  }
  for (const name of [/^diameter of bore B/, /^station of w1/]) {
    const from = await middle(name)
    await page.mouse.move(from.x, from.y)
    await page.mouse.down()
    await page.mouse.move(from.x + 3, from.y + 14, { steps: 3 })
    await page.mouse.up()
    await expect.poll(async () => Math.abs((await middle(name)).y - from.y - 14)).toBeLessThan(2)
    await held(name).focus()
    await page.keyboard.press('Home')
    await expect.poll(async () => Math.abs((await middle(name)).y - from.y)).toBeLessThan(1)
  }
})

test('saved as PDF, SVG, DXF and PNG; the whole job is one PDF', async () => {
  await openSheet()
  for (const format of ['PDF', 'SVG', 'DXF', 'PNG']) {
    await pane()
      .getByRole('button', { name: `Save as ${format}` })
      .click()
    await page.getByText(new RegExp(`op10\\.${format.toLowerCase()} is in`)).waitFor()
  }
  const folder = join(bench.folder(), 'sheets')
  const named = async (ending: string) =>
    join(
      folder,
      (await readdir(folder)).find((n) => n.endsWith(ending))!,
    )
  expect((await readFile(await named('op10.png'))).subarray(1, 4).toString()).toBe('PNG')
  expect(await readFile(await named('op10.dxf'), 'utf8')).toContain('DIMENSION')
  await showWholeJob()
  await pane().getByRole('button', { name: 'Save as PDF' }).click()
  await page.getByText(/ends\.pdf is in/).waitFor()
  const text = pdfText(await named('ends.pdf'))
  for (const words of ['Setup 1 of 2', 'Setup 2 of 2']) expect(text).toContain(words)
})

test('the paper template of the plate, on the paper chosen', async () => {
  await openSheet()
  await pane().getByRole('button', { name: 'Paper template' }).click()
  await counter(/^1 of 4$/).waitFor()
  await pane().getByLabel('Paper', { exact: true }).selectOption('A3')
  await counter(/^1 of 2$/).waitFor()
  await pane().getByRole('button', { name: 'Next sheet' }).click()
  await counter(/^2 of 2$/).waitFor()
  await pane().getByRole('button', { name: 'Save as PDF' }).click()
  await page.getByText(/op10-template\.pdf is in/).waitFor()
})

test('prints every sheet on a page of its own size, as text and lines', async () => {
  page = await bench.open()
  await page.evaluate('window.print = () => (document.title = "printed")')
  await page.keyboard.press('Control+p')
  await paper().waitFor()
  await showWholeJob()
  const count = Number((await counter(/^1 of \d$/).innerText()).at(-1))
  await pane().getByRole('button', { name: 'Print', exact: true }).click()
  await expect.poll(() => page.title()).toBe('printed')
  await page.getByText(/Print at 100 % \(actual size\).*100 mm on paper/).waitFor()
  const path = join(bench.folder(), 'printed.pdf')
  await writeFile(path, await page.pdf({ preferCSSPageSize: true, printBackground: true }))
  expect(pdfSizes(path)).toEqual(Array.from({ length: count }, () => [420, 297]))
  expect(checkLine(await readFile(path))).toBeCloseTo(100, 0)
  const text = pdfText(path)
  for (const words of ['Crank link', 'Setup 1 of 2', 'Setup 2 of 2', 'Spindle speeds', '100 mm'])
    expect(text).toContain(words)
  expect(text).not.toContain('Show the sheet')
  await page.evaluate('window.dispatchEvent(new Event("afterprint"))')
  await expect.poll(() => page.locator('.print').count()).toBe(0)
})
