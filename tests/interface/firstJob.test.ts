import { readdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import type { Page } from 'playwright-core'
import { analyse } from '../../src-core/analysis/analyse.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import { formatter } from '../../src-core/units/format.ts'
import { dragOnPlate, onPage, text, useBench } from './window.ts'

const bench = useBench()
let page: Page

async function exampleJob() {
  const read = parseJob(await readFile('examples/flat-link.evenswing', 'utf8'))
  if (!read.ok) throw new Error('example')
  return read.job
}

describe('the window', () => {
  test('opens with the example on the plate and the core’s own figures', async () => {
    page = await bench.open()
    const a = analyse(await exampleJob(), 'op10')
    const fmt = formatter('mm')
    expect(await text(page, 'mass')).toBe(fmt.mass(a.assembly.mass_kg))
    expect(await text(page, 'force')).toBe(fmt.force(a.speeds.find((s) => s.rpm === 110)!.force_N))
    expect(await page.getByRole('radio').count()).toBe(a.speeds.length)
    expect(await page.locator('footer').innerText()).toMatch(
      /estimates for planning.*competent person.*stand out of the plane of rotation/is,
    )
  })

  test('the part dragged: force, ceiling and clearance change while it moves, and undo takes it back', async () => {
    page = await bench.open()
    const before = { force: await text(page, 'force'), mass: await text(page, 'mass') }
    await dragOnPlate(page, [60, 0], [20, 90])
    const during = await text(page, 'force')
    expect(during).not.toBe(before.force)
    expect(await text(page, 'mass')).toBe(before.mass)
    await page.mouse.up()
    await page.getByRole('button', { name: 'Undo: Move the part' }).click()
    expect(await text(page, 'force')).toBe(before.force)
    await page.getByRole('button', { name: 'Redo: Move the part' }).click()
    expect(await text(page, 'force')).toBe(during)
  })

  test('Escape in the middle of a drag puts the part back and makes no step', async () => {
    page = await bench.open()
    const before = await text(page, 'force')
    await dragOnPlate(page, [60, 0], [20, 50])
    await page.keyboard.press('Escape')
    await page.mouse.up()
    expect(await text(page, 'force')).toBe(before)
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true)
  })

  test('a weight slid by drag and by typing end in the same place', async () => {
    page = await bench.open()
    await dragOnPlate(page, [-110, 0], [-90, 3])
    await page.mouse.up()
    const dragged = await text(page, 'unbalance')
    await page.keyboard.press('Control+z')
    await page.getByRole('button', { name: /^5 Counterweights/ }).click()
    await page.getByRole('textbox', { name: 'Radius' }).fill('90')
    await page.keyboard.press('Enter')
    expect(await text(page, 'unbalance')).toBe(dragged)
  })

  test('a gear chosen by click and by arrow key', async () => {
    page = await bench.open()
    await page.getByRole('radio', { name: /^45 rpm/ }).click()
    expect(await text(page, 'verdict')).toMatch(/^go/)
    await page.keyboard.press('ArrowRight')
    expect(await page.getByRole('radio', { name: /^70 rpm/ }).getAttribute('aria-checked')).toBe('true')
    await page.getByRole('radio', { name: /^540 rpm/ }).click()
    expect(await text(page, 'verdict')).toMatch(/^stop/)
  })

  test('everything on the plate can be done from the keyboard', async () => {
    page = await bench.open()
    const before = await text(page, 'unbalance')
    await page.getByTestId('plate').focus()
    await page.keyboard.press('.')
    await page.keyboard.press(']')
    await page.getByRole('button', { name: 'Undo: Turn the part' }).waitFor()
    await page.keyboard.press('Shift+ArrowRight')
    await page.getByRole('button', { name: 'Undo: Move the part' }).waitFor()
    expect(await text(page, 'unbalance')).not.toBe(before)
    await page.keyboard.press('Control+z')
    await page.keyboard.press('Control+z')
    expect(await text(page, 'unbalance')).toBe(before)
    await page.keyboard.press(',')
    await page.keyboard.press('Delete')
    await page.getByRole('button', { name: 'Undo: Take off w1' }).waitFor()
  })

  test('a refused number says why and leaves the job alone', async () => {
    page = await bench.open()
    await page.getByRole('button', { name: /^3 Mounting/ }).click()
    await page.getByRole('textbox', { name: 'Packing', exact: true }).fill('3 kg')
    await page.keyboard.press('Enter')
    expect(await page.getByRole('alert').innerText()).toMatch(/a length is wanted/i)
    await page.getByRole('textbox', { name: 'Packing', exact: true }).fill('1/2 in')
    await page.keyboard.press('Enter')
    expect(await page.getByRole('textbox', { name: 'Packing', exact: true }).inputValue()).toBe('12.7')
  })

  test('inches are shown everywhere at once', async () => {
    page = await bench.open()
    await page.getByRole('button', { name: 'in', exact: true }).click()
    expect(await text(page, 'mass')).toMatch(/lb$/)
    expect(await text(page, 'force')).toMatch(/lbf$/)
    expect(await page.locator('header .file').innerText()).not.toMatch(/changed/)
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true)
    await page.getByRole('button', { name: 'mm', exact: true }).click()
    expect(await text(page, 'mass')).toMatch(/kg$/)
  })

  test('the second setup has its own figures', async () => {
    page = await bench.open()
    const first = await text(page, 'unbalance')
    await page.getByRole('tab', { name: /op20/ }).click()
    expect(await text(page, 'unbalance')).not.toBe(first)
  })

  test('saved, opened again, and the same', async () => {
    page = await bench.open()
    await dragOnPlate(page, [-110, 0], [-90, 3])
    await page.mouse.up()
    const figure = await text(page, 'unbalance')
    await page.getByRole('button', { name: 'Save', exact: true }).click()
    await page.getByRole('textbox', { name: 'Name in the job book' }).fill('my link')
    await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click()
    await page.getByText('Saved as my link.evenswing').waitFor()
    expect(await readdir(bench.folder())).toContain('my link.evenswing')
    const read = parseJob(await readFile(join(bench.folder(), 'my link.evenswing'), 'utf8'))
    expect(read.ok).toBe(true)
    await page.reload()
    await page.getByTestId('mass').waitFor()
    expect(await text(page, 'unbalance')).not.toBe(figure)
    await page.getByRole('button', { name: 'Job book' }).click()
    await page.getByRole('option').filter({ hasText: 'my link' }).click()
    await page.getByRole('button', { name: 'Open', exact: true }).click()
    await expect.poll(() => text(page, 'unbalance')).toBe(figure)
  })

  test('a file changed by someone else is not overwritten unasked', async () => {
    page = await bench.open()
    await page.keyboard.press('Control+s')
    await page.getByRole('textbox', { name: 'Name in the job book' }).fill('shared')
    await page.getByRole('dialog').getByRole('button', { name: 'Save' }).click()
    await page.getByText('Saved as shared').waitFor()
    const path = join(bench.folder(), 'shared.evenswing')
    const theirs = (await readFile(path, 'utf8')).replace('Crank link', 'Their link')
    await writeFile(path, theirs)
    await page.getByRole('radio', { name: /^45 rpm/ }).click()
    await page.keyboard.press('Control+s')
    await page.getByRole('heading', { name: /changed by someone else/ }).waitFor()
    expect(await readFile(path, 'utf8')).toBe(theirs)
    await page.getByRole('button', { name: 'Take theirs' }).click()
    await page.getByRole('heading', { name: /^Their link/ }).waitFor()
  })

  test('unsaved changes are asked about before another job comes', async () => {
    page = await bench.open()
    await dragOnPlate(page, [-110, 0], [-90, 3])
    await page.mouse.up()
    await page.getByRole('button', { name: 'New', exact: true }).click()
    await page.getByRole('button', { name: 'Stay here' }).click()
    expect(await page.getByRole('button', { name: /^Undo: Move/ }).isEnabled()).toBe(true)
  })

  test('from nothing to a verdict', async () => {
    page = await bench.open()
    await page.getByRole('button', { name: 'New', exact: true }).click()
    const dialog = page.getByRole('dialog')
    await dialog.getByRole('textbox', { name: 'What is it?' }).fill('Plain block')
    await dialog.getByRole('textbox', { name: 'Length' }).fill('160')
    await dialog.getByRole('textbox', { name: 'Thickness' }).fill('3/4 in')
    // Of a lathe by its swing and speeds alone too little is known.
    await dialog.getByRole('checkbox', { name: /^Same lathe/ }).check()
    await dialog.getByRole('button', { name: 'Put it on the plate' }).click()
    await page.getByRole('heading', { name: 'Plain block' }).waitFor()
    await page.getByRole('radio').first().click()
    expect(await text(page, 'verdict')).toMatch(/^go/)
  })

  test('turned by hand it passes over the bed, and Escape ends it', async () => {
    page = await bench.open({ still: true })
    await page.getByRole('button', { name: 'Turn by hand' }).click()
    await page.getByRole('button', { name: /^Next: part/ }).click()
    expect(Number(await page.getByRole('slider').inputValue())).toBeGreaterThan(0)
    await page.getByTestId('plate').focus()
    await page.keyboard.press('Escape')
    await page.getByTestId('mass').waitFor()
  })

  test('a finding shows its place on the plate', async () => {
    page = await bench.open()
    await dragOnPlate(page, [60, 0], [60, -60])
    await page.mouse.up()
    const stop = page.getByRole('region', { name: 'Findings' }).getByRole('button', { name: /^stop/ }).first()
    await stop.click()
    expect(await stop.getAttribute('aria-pressed')).toBe('true')
  })

  test('two fingers zoom, one finger drags', async () => {
    page = await bench.open({ touch: true })
    const before = await page.getByTestId('plate').getAttribute('data-camera')
    const a = await onPage(page, -20, 120)
    const b = await onPage(page, 20, 120)
    const session = await page.context().newCDPSession(page)
    const touch = (
      type: 'touchStart' | 'touchMove' | 'touchEnd',
      points: { x: number; y: number; id: number }[],
    ) => session.send('Input.dispatchTouchEvent', { type, touchPoints: points })
    await touch('touchStart', [{ ...a, id: 1 }])
    await touch('touchStart', [
      { ...a, id: 1 },
      { ...b, id: 2 },
    ])
    await touch('touchMove', [
      { x: a.x - 60, y: a.y, id: 1 },
      { x: b.x + 60, y: b.y, id: 2 },
    ])
    await touch('touchEnd', [])
    expect(await page.getByTestId('plate').getAttribute('data-camera')).not.toBe(before)
    const force = await text(page, 'force')
    await page.getByRole('button', { name: 'Whole plate' }).click()
    const from = await onPage(page, 60, 0)
    await touch('touchStart', [{ ...from, id: 1 }])
    for (let i = 1; i <= 5; i++) await touch('touchMove', [{ x: from.x - 20 * i, y: from.y + 20 * i, id: 1 }])
    await touch('touchEnd', [])
    expect(await text(page, 'force')).not.toBe(force)
  })
})
