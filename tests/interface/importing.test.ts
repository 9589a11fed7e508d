/** Drawings and meshes brought in by the dialog and by dropping them on the window. */
import { readFile } from 'node:fs/promises'
import { describe, expect, test } from 'vitest'
import type { Page } from 'playwright-core'
import { textStl } from '../helpers/solids.ts'
import { text, useBench } from './window.ts'

const bench = useBench()

describe('importing in the window', () => {
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="120mm" height="60mm" viewBox="0 0 120 60">' +
    '<path d="M0 0H120V60H0Z M30 30m-15 0a15 15 0 1 0 30 0a15 15 0 1 0 -30 0Z"/><line x1="0" y1="90" x2="50" y2="90"/></svg>'
  /** A wedge of 60 × 40 × 30: it can lie on each of its four faces. */
  const wedge = textStl([
    ...[0, 0, 0, 0, 40, 0, 60, 0, 0],
    ...[0, 0, 0, 60, 0, 0, 0, 0, 30],
    ...[0, 0, 0, 0, 0, 30, 0, 40, 0],
    ...[60, 0, 0, 0, 40, 0, 0, 0, 30],
  ])

  test('shows counts and what was left out, and takes it in only then, in one undo step', async () => {
    const page = await bench.open()
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
    const page = await bench.open()
    await page.keyboard.press('Control+i')
    const dialog = page.getByRole('dialog')
    await dialog
      .locator('input[type=file]')
      .setInputFiles({ name: 'x.dxf', mimeType: 'text/plain', buffer: Buffer.from('nonsense') })
    await dialog.getByRole('alert').waitFor()
    expect(await dialog.getByRole('button', { name: 'Take it in' }).count()).toBe(0)
  })

  const drop = (page: Page, name: string, content: string) =>
    page.evaluate(
      ([n, c]) => {
        const data = new DataTransfer()
        data.items.add(new File([c!], n!))
        for (const type of ['dragover', 'drop'])
          document.body.dispatchEvent(
            new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true }),
          )
      },
      [name, content] as const,
    )

  test('a drawing dropped anywhere on the window is shown first, not taken in', async () => {
    const page = await bench.open()
    const before = await text(page, 'mass')
    await drop(page, 'bracket.svg', svg)
    const dialog = page.getByRole('dialog')
    await dialog.getByRole('img', { name: /1 outlines as read/ }).waitFor()
    expect(await text(page, 'mass')).toBe(before)
    await dialog.getByRole('button', { name: 'Leave it' }).click()
    expect(await page.getByRole('button', { name: 'Undo', exact: true }).isDisabled()).toBe(true)
  })

  test('a job dropped on the window is opened, another kind of file is refused with a word', async () => {
    const page = await bench.open()
    await drop(page, 'bearing.evenswing', await readFile('examples/bearing-bracket.evenswing', 'utf8'))
    await page.getByRole('heading', { name: /bearing/i }).waitFor()
    await drop(page, 'letter.docx', 'x')
    await page.getByText(/letter.docx is neither a job/).waitFor()
    await drop(page, 'broken.evenswing', '{')
    await page.getByText(/broken.evenswing was not opened/).waitFor()
  })

  const dxf = (...pairs: readonly (readonly [number, string | number])[]) =>
    [[0, 'SECTION'], [2, 'ENTITIES'], ...pairs, [0, 'ENDSEC'], [0, 'EOF']].flat().join('\n')
  const line = (x1: number, y1: number, x2: number, y2: number) =>
    [
      [0, 'LINE'],
      [8, '0'],
      [10, x1],
      [20, y1],
      [11, x2],
      [21, y2],
    ] as const

  test('loose ends are joined within a tolerance, units are asked for, counts are shown', async () => {
    const page = await bench.open()
    await page.keyboard.press('Control+i')
    const dialog = page.getByRole('dialog')
    const loose = dxf(
      ...line(0, 0, 80, 0),
      ...line(80, 0.3, 80, 50),
      ...line(80, 50, 0, 50),
      ...line(0, 50, 0, 0),
    )
    await dialog
      .locator('input[type=file]')
      .setInputFiles({ name: 'loose.dxf', mimeType: 'text/plain', buffer: Buffer.from(loose) })
    await dialog.getByRole('heading', { name: 'Left out' }).waitFor()
    expect(await dialog.getByRole('button', { name: 'Take it in' }).isDisabled()).toBe(true)
    await dialog.getByRole('textbox', { name: 'Loose ends joined within' }).fill('0.5')
    await page.keyboard.press('Enter')
    await dialog.getByRole('combobox', { name: /names no unit/ }).selectOption('mm')
    await dialog.getByRole('img', { name: /1 outlines as read, 1 of them taken/ }).waitFor()
    await dialog
      .getByText(/4 .*lines?/i)
      .first()
      .waitFor()
    await dialog.getByRole('button', { name: 'Take it in' }).click()
    await page.getByRole('button', { name: 'Undo: Import loose.dxf' }).waitFor()
  })

  test.each([
    ['points.csv', 'x,y\n0,0\n100,0\n100,40\n0,40\n'],
    ['wedge.stl', wedge],
  ])('%s: read, shown and taken in', async (name, content) => {
    const page = await bench.open()
    const before = await text(page, 'mass')
    await drop(page, name, content)
    const dialog = page.getByRole('dialog')
    await dialog.getByRole('button', { name: 'Leave it' }).waitFor()
    const unit = dialog.getByRole('combobox', { name: /names no unit/ })
    if ((await unit.count()) > 0) await unit.selectOption('mm')
    await dialog.getByRole('button', { name: 'Take it in' }).click()
    await page.getByRole('button', { name: `Undo: Import ${name}` }).waitFor()
    expect(await text(page, 'mass')).not.toBe(before)
  })

  test('a mesh: the face that lies down is chosen with its picture, sizes and mass said before it enters the job', async () => {
    const page = await bench.open()
    const before = await text(page, 'mass')
    await drop(page, 'wedge.stl', wedge)
    const dialog = page.getByRole('dialog')
    await dialog.getByRole('combobox', { name: /names no unit/ }).selectOption('mm')
    const ways = dialog.getByRole('radiogroup', { name: 'Which way up it lies' }).getByRole('radio')
    await expect.poll(() => ways.count()).toBe(4)
    const figures = dialog.getByTestId('import-figures')
    await expect.poll(() => figures.innerText()).toMatch(/^Mesh, 60 mm × 40 mm × 30 mm high, 94 g of/)
    // Painted, not empty.
    const inked = await dialog.locator('canvas').evaluateAll((all) =>
      all.map((canvas) => {
        const { width, height } = canvas as HTMLCanvasElement
        const { data } = (canvas as HTMLCanvasElement).getContext('2d')!.getImageData(0, 0, width, height)
        return data.filter((v, i) => i % 4 === 3 && v > 0).length / (width * height)
      }),
    )
    expect(inked).toHaveLength(5)
    for (const share of inked) expect(share).toBeGreaterThan(0.1)
    await ways.filter({ hasText: '60 mm high' }).click()
    await expect.poll(() => figures.innerText()).toMatch(/× 60 mm high, 94 g of/)
    await page.keyboard.press('ArrowLeft')
    await expect.poll(() => figures.innerText()).not.toMatch(/× 60 mm high/)
    await page.keyboard.press('ArrowRight')
    expect(await text(page, 'mass')).toBe(before)
    await dialog.getByRole('button', { name: 'Take it in' }).click()
    await page.getByRole('button', { name: 'Undo: Import wedge.stl' }).waitFor()
    await page.getByText('part 94 g', { exact: true }).waitFor()
  })

  test('an outline is shown turned over before it is taken in so', async () => {
    const page = await bench.open()
    await drop(page, 'corner.csv', 'x,y\n0,0\n100,0\n100,40\n')
    const dialog = page.getByRole('dialog')
    // By its own numbers one tells the unit.
    await dialog.getByText('over all 100 × 40 of it').waitFor()
    await dialog.getByRole('combobox', { name: /names no unit/ }).selectOption('mm')
    const picture = dialog.getByRole('img', { name: /outlines as read/ }).locator('g')
    const drawn = await picture.getAttribute('transform')
    await dialog.getByRole('combobox', { name: 'Which way up' }).selectOption('over')
    expect(await picture.getAttribute('transform')).not.toBe(drawn)
    await dialog.getByRole('button', { name: 'Take it in' }).click()
    await page.getByRole('button', { name: 'Undo: Import corner.csv' }).waitFor()
  })

  test('a drawing dropped on the first screen begins a job of its own, shown before it is taken in', async () => {
    const page = await bench.open({ atStart: true })
    await drop(page, 'corner.csv', 'x,y\n0,0\n100,0\n100,40\n')
    const dialog = page.getByRole('dialog')
    await dialog.getByRole('combobox', { name: /names no unit/ }).selectOption('mm')
    await dialog.getByRole('button', { name: 'Take it in' }).click()
    await page.getByRole('button', { name: 'Undo: Import corner.csv' }).waitFor()
    expect(await page.getByTestId('start').count()).toBe(0)
    expect(await page.locator('header h1').innerText()).toBe('Untitled job')
  })
})
