/** The pictures beside the findings, and turning by hand. */
import { describe, expect, test } from 'vitest'
import { text, useBench } from './window.ts'

const bench = useBench()

describe('pictures', () => {
  test('the vectors say what is left, force against speed names every gear', async () => {
    const page = await bench.open()
    const left = (await text(page, 'unbalance')).replace(/\s/g, '')
    const vectors = await page.getByRole('img', { name: /laid end to end/ }).getAttribute('aria-label')
    expect(vectors!.replace(/\s/g, '')).toContain(left.replace(/g·mm$/, ''))
    await page.getByRole('tab', { name: 'Vectors' }).press('ArrowRight')
    const force = await page.getByRole('img', { name: /Force against speed/ }).getAttribute('aria-label')
    expect(force).toMatch(/45 rpm .* go.*110 rpm .* go.*155 rpm .* stop/)
  })

  test('before and after: without the weights it is worse, and taking the weight off makes both the same', async () => {
    const page = await bench.open()
    await page.getByRole('tab', { name: 'Before/after' }).click()
    const pair = page.getByTestId('before-after')
    const figures = (await pair.locator('b').allInnerTexts()).map((t) => Number(t.replace(/[^\d]/g, '')))
    expect(figures).toHaveLength(2)
    expect(figures[0]).toBeGreaterThan(figures[1]!)
    expect(figures[1]).toBe(Number((await text(page, 'unbalance')).replace(/[^\d]/g, '')))
    await page.getByRole('button', { name: /^5 Counterweights/ }).click()
    await page.getByRole('button', { name: 'Remove w1', exact: true }).click()
    await page.getByText(/No counterweights are on the plate yet/).waitFor()
    expect(Number((await text(page, 'unbalance')).replace(/[^\d]/g, ''))).toBe(figures[0])
  })
})

describe('turning by hand', () => {
  const degrees = (page: Awaited<ReturnType<typeof bench.open>>) =>
    page.getByRole('slider').inputValue().then(Number)

  test('plays by itself, and stands where the tightest corner passes the bed', async () => {
    const page = await bench.open()
    await page.getByTestId('plate').focus()
    await page.keyboard.press('t')
    await expect.poll(() => degrees(page)).toBeGreaterThan(2)
    await page.getByRole('button', { name: /^Next: part/ }).click()
    // The part's far end lies at 0°: a quarter turn short of a whole one brings it over the bed.
    expect(await degrees(page)).toBe(270)
  })

  test('with reduced motion it stands still until it is asked to turn', async () => {
    const page = await bench.open({ still: true })
    await page.getByRole('button', { name: 'Turn by hand' }).click()
    await page.waitForTimeout(300)
    expect(await degrees(page)).toBe(0)
    await page.getByRole('button', { name: 'Turn once round' }).click()
    await expect.poll(() => degrees(page)).toBeGreaterThan(1)
  })
})
