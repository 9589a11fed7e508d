import { describe, expect, test } from 'vitest'
import { makePng } from '../helpers/pictures.ts'
import { violations } from './violations.ts'
import { useBench } from './window.ts'

const bench = useBench()

const STEPS = ['Lathe and plate', 'Part', 'Mounting', 'Clamps', 'Counterweights', 'Speed', 'Sheet']

describe.each([{ dark: false }, { dark: true }])('without violations, dark: $dark', ({ dark }) => {
  test('the window and every step', async () => {
    const page = await bench.open({ dark })
    expect(await violations(page)).toEqual([])
    for (const picture of ['Force', 'Side', 'Before/after']) {
      await page.getByRole('tab', { name: picture }).click()
      expect(await violations(page), picture).toEqual([])
    }
    for (const step of STEPS) {
      await page.getByRole('button', { name: new RegExp(`^\\d ${step}`) }).click()
      expect(await violations(page), step).toEqual([])
    }
    await page.close()
  })

  test('drawing and turning by hand', async () => {
    const page = await bench.open({ dark, still: true })
    await page.getByRole('button', { name: 'Turn by hand' }).click()
    expect(await violations(page), 'turning').toEqual([])
    await page.getByRole('button', { name: 'Stop turning' }).click()
    await page.getByRole('button', { name: 'Draw the part' }).click()
    expect(await violations(page), 'drawing').toEqual([])
    await page.getByTestId('plate').focus()
    await page.keyboard.press('.')
    await page.keyboard.press('.')
    expect(await violations(page), 'a vertex').toEqual([])
    await page.keyboard.press('e')
    expect(await violations(page), 'an edge').toEqual([])
    await page.keyboard.press('Escape')
    await page.getByRole('button', { name: 'Move, turn, mirror, copy' }).click()
    expect(await violations(page), 'a ring').toEqual([])
    await page.getByRole('button', { name: 'Outline of lines and arcs' }).click()
    for (const line of ['-60, 60', '60, 120', '60, 60', '-60, 80', '']) {
      await page.locator('#draw-entry').fill(line)
      await page.keyboard.press('Enter')
    }
    await page.getByRole('button', { name: 'Keep the larger loop' }).first().waitFor()
    expect(await violations(page), 'a fault').toEqual([])
    await page.close()
  })

  test('every window over it', async () => {
    const page = await bench.open({ dark })
    await page.keyboard.press('Control+b')
    await page.getByRole('button', { name: 'Plan', exact: true }).click()
    await page.getByRole('button', { name: 'Plan again' }).waitFor()
    expect(await violations(page), 'planner').toEqual([])
    await page.keyboard.press('Escape')
    await page.keyboard.press('Control+p')
    await page.getByRole('img', { name: /^Setup sheet/ }).waitFor()
    await page.getByText(/^Dimensions: /).click()
    expect(await violations(page), 'sheet').toEqual([])
    await page.keyboard.press('Control+p')
    await page.keyboard.press('Control+i')
    await page.getByRole('dialog').waitFor()
    expect(await violations(page), 'import').toEqual([])
    await page.keyboard.press('Escape')
    await page.keyboard.press('Control+l')
    await page.getByRole('button', { name: 'Thread table' }).click()
    expect(await violations(page), 'catalogue').toEqual([])
    await page.keyboard.press('Escape')
    await page.getByTestId('plate').focus()
    await page.keyboard.press('p')
    await page.getByRole('dialog').waitFor()
    expect(await violations(page), 'photograph').toEqual([])
    await page
      .locator('dialog input[type=file]')
      .setInputFiles({ name: 'p.png', mimeType: 'image/png', buffer: makePng(300, 200) })
    for (const at of [0.3, 0.7]) {
      const box = (await page.getByTestId('picture').boundingBox())!
      await page.mouse.click(box.x + at * box.width, box.y + at * box.height)
    }
    expect(await violations(page), 'photograph with points').toEqual([])
    await page.getByRole('textbox', { name: 'Distance from 1 to 2' }).fill('50')
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Put it under the plan' }).click()
    await page.getByRole('checkbox', { name: 'Locked' }).click()
    expect(await violations(page), 'photograph placed').toEqual([])
    await page.getByRole('button', { name: 'Done' }).click()
    for (const name of ['New', 'Save']) {
      await page.getByRole('button', { name, exact: true }).click()
      await page.getByRole('dialog').waitFor()
      expect(await violations(page), name).toEqual([])
      await page.keyboard.press('Escape')
    }
    for (const key of ['F1', 'Control+,', 'Control+e', 'Control+Shift+l']) {
      await page.keyboard.press(key)
      await page.getByRole('dialog').waitFor()
      expect(await violations(page), key).toEqual([])
      await page.keyboard.press('Escape')
    }
    await page.getByRole('button', { name: 'More' }).click()
    expect(await violations(page), 'more').toEqual([])
    await page.keyboard.press('Escape')
    await page.keyboard.press('Control+o')
    await page.getByTestId('job-book').waitFor()
    expect(await violations(page), 'job book').toEqual([])
    await page.close()
  })
})
