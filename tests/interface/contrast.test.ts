/** Wished-for contrast and the system's own colours: all is still readable, and no state is told by colour alone. */
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { STEPS, WALKS } from './screens.ts'
import { violations } from './violations.ts'
import { useBench } from './window.ts'

const bench = useBench()

/** What the marks of a state are made of besides colour: a sign and a word for each verdict. */
const signless = (page: Page) =>
  page
    .locator('.verdict')
    .evaluateAll((all) =>
      all.filter((v) => !v.querySelector('svg') || !v.textContent?.trim()).map((v) => v.outerHTML),
    )

const LOOKS = [
  { name: 'more contrast, light', dark: false, contrast: 'more' as const, forcedColors: 'none' as const },
  { name: 'more contrast, dark', dark: true, contrast: 'more' as const, forcedColors: 'none' as const },
  { name: 'forced colours', dark: true, contrast: 'no-preference' as const, forcedColors: 'active' as const },
]

test.each(LOOKS)(
  '$name: plate and steps are without violations, each verdict has sign and word',
  async (look) => {
    const page = await bench.open(look)
    expect(await violations(page)).toEqual([])
    expect(await page.locator('.verdict').count()).toBeGreaterThan(5)
    for (const [i, step] of STEPS.entries()) {
      await page.keyboard.press(`Alt+${i + 1}`)
      expect(await violations(page), step).toEqual([])
      expect(await signless(page), step).toEqual([])
    }
  },
)

test('forced colours: the dialogs are without violations', async () => {
  await WALKS.windows(
    { ...bench, open: (options) => bench.open({ ...options, forcedColors: 'active' }) },
    {},
    async (page, screen) => {
      expect(await violations(page), screen).toEqual([])
      expect(await signless(page), screen).toEqual([])
    },
  )
})

test('forced colours: what is pressed, and each band of the rail, is told from the others by more than a tint', async () => {
  const page = await bench.open({ forcedColors: 'active' })
  const ground = (name: string) =>
    page.getByRole('button', { name, exact: true }).evaluate((node) => getComputedStyle(node).backgroundColor)
  expect(await ground('mm')).not.toBe(await ground('in'))
  // Words on what is chosen are in another colour than what is under them.
  const chosen = await page
    .locator('button:is([aria-pressed=true], [aria-checked=true], [aria-selected=true])')
    .evaluateAll((all) =>
      all.map((node) => [getComputedStyle(node).backgroundColor, getComputedStyle(node).color]),
    )
  expect(chosen.length).toBeGreaterThan(2)
  for (const [under, words] of chosen) {
    expect(words).not.toBe(under)
    expect(under).not.toBe(await ground('in'))
  }
  const bands = await page
    .locator('rect[data-band]')
    .evaluateAll((all) => all.map((band) => `${band.getAttribute('data-band')} ${band.getAttribute('fill')}`))
  expect(bands.length).toBeGreaterThan(1)
  // Each state has a hatch of its own, none but "go" is plain.
  for (const band of bands) expect(band).toMatch(/^go var|^(caution|not-judged|stop) url\(#\w+-hatch\)$/)
  const marks = await page
    .locator('pattern line, pattern path')
    .evaluateAll((all) => all.map((mark) => getComputedStyle(mark).stroke))
  const [fill] = await page
    .locator('pattern rect')
    .evaluateAll((all) => all.map((rect) => getComputedStyle(rect).fill))
  for (const mark of marks) expect(mark).not.toBe(fill)
})

test('what is pressed has an edge that what is not pressed has not, in plain colours too', async () => {
  const page = await bench.open()
  const edge = (name: string) =>
    page.getByRole('button', { name, exact: true }).evaluate((node) => getComputedStyle(node).boxShadow)
  expect(await edge('mm')).not.toBe('none')
  expect(await edge('in')).toBe('none')
})
