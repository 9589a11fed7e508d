/** Standing at the machine: by keys from the first step to a run in the job, left and found again. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { describe, expect, test } from 'vitest'
import type { Job } from '../../src-core/job/schema.ts'
import { violations } from './violations.ts'
import { useBench } from './window.ts'

const bench = useBench()

const title = (page: Page) => page.getByTestId('at-lathe').locator('h1').innerText()
const standing = async (page: Page) => {
  await page.keyboard.press('Control+j')
  await page.getByTestId('at-lathe').waitFor()
}
/** Back to the first step: what an earlier test left is found again. */
async function toStart(page: Page): Promise<void> {
  for (let i = 0; i < 40 && (await title(page)) !== 'Fetch'; i++) await page.keyboard.press('ArrowLeft')
}
const savedRuns = () => {
  const file = readdirSync(bench.folder()).find((f) => f.endsWith('.evenswing'))
  return file ? ((JSON.parse(readFileSync(join(bench.folder(), file), 'utf8')) as Job).runs ?? []) : []
}
/** On with arrow keys until a step's title matches. */
async function onTo(page: Page, wanted: RegExp): Promise<void> {
  for (let i = 0; i < 40 && !wanted.test(await title(page)); i++) await page.keyboard.press('ArrowRight')
  expect(await title(page)).toMatch(wanted)
}
async function type(page: Page, label: string, value: string, nth = 0): Promise<void> {
  await page.getByLabel(label, { exact: true }).nth(nth).fill(value)
  await page.keyboard.press('Enter')
}
const toPage = (page: Page) => page.getByTestId('at-lathe').getByRole('group').first().focus()

test('keys go through the steps; leaving and a new window find the same one', async () => {
  const page = await bench.open()
  await standing(page)
  expect(await title(page)).toBe('Fetch')
  await page.keyboard.press('Enter')
  await page.keyboard.press(' ')
  await page.keyboard.press('ArrowRight')
  await page.keyboard.press('ArrowLeft')
  const at = await title(page)
  expect(at).not.toBe('Fetch')
  expect(await page.getByRole('progressbar').getAttribute('aria-valuenow')).toBe('2')
  await page.keyboard.press('Escape')
  await page.getByRole('button', { name: /come back to this step/ }).press('Enter')
  await page.getByTestId('at-lathe').waitFor({ state: 'detached' })
  await standing(page)
  expect(await title(page)).toBe(at)
  // As after a crash: the window is gone without a word.
  await page.close()
  const again = await bench.open()
  await standing(again)
  expect(await title(again)).toBe(at)
  expect(await again.getByRole('progressbar').getAttribute('aria-valuenow')).toBe('2')
  await again.close()
})

test('readings are judged as they come, a run is written with one save', async () => {
  const page = await bench.open()
  await standing(page)
  await onTo(page, /^Roll test/)
  await page.getByText('they are judged as they come').waitFor()
  for (const [i, rest] of ['128', '131', '126'].entries()) await type(page, `Rest ${i + 1}`, rest)
  await page.getByText(/Only the direction is known/).waitFor()
  for (const [label, value] of [
    ['Radius', '140'],
    ['Just lifts', '310'],
    ['Just lets fall', '270'],
  ] as const)
    await type(page, label, value)
  await page.getByText('40600 g·mm at 128.3°').waitFor()
  await page.getByText(/do not agree/).waitFor()
  await type(page, 'Just lets fall', '320')
  await page.getByText(/must be at most up_g/).waitFor()
  await type(page, 'Just lets fall', '270')
  await page.getByRole('button', { name: 'Keep these readings, measure again' }).click()
  await toPage(page)
  await onTo(page, /^Finished/)
  await page.getByLabel('Who', { exact: true }).fill('Kim')
  await page.getByLabel('Remarks for next time').fill('ran quiet')
  await page.getByRole('button', { name: 'Write the run and save' }).click()
  // The job has no file yet: a name is asked for first.
  await page.getByRole('dialog').waitFor()
  await page.keyboard.press('Enter')
  await page.getByText(/Saved as/).waitFor()
  const [run] = savedRuns()
  expect(run).toMatchObject({ by: 'Kim', remarks: 'ran quiet', state: 'done', setup: 'op10' })
  expect(run!.trimmed).toBe('rolled: 40600 g·mm at 128.3°')
  expect(JSON.parse(run!.readings![0]!)).toMatchObject({ method: 'roll', rests_deg: [128, 131, 126] })
  expect(savedRuns()).toHaveLength(1)
  await standing(page)
  expect(await title(page)).toBe('Fetch')
  await page.close()
})

test.each([{ dark: false }, { dark: true }])(
  'where the system forces its colours, what is chosen, done and barred still shows, dark: $dark',
  async ({ dark }) => {
    const page = await bench.open({ dark, forcedColors: 'active', still: true, width: 768, height: 1024 })
    await standing(page)
    await toStart(page)
    await page.keyboard.press('Enter')
    const colour = (selector: string, of: 'backgroundColor' | 'borderTopColor' = 'backgroundColor') =>
      page
        .getByTestId('at-lathe')
        .locator(selector)
        .first()
        .evaluate((e, which) => getComputedStyle(e)[which], of)
    expect(await colour('.bar i.done')).not.toBe(await colour('.bar i:not(.done)'))
    expect(await colour('.bar i.now', 'borderTopColor')).not.toBe(
      await colour('.bar i:not(.now)', 'borderTopColor'),
    )
    await onTo(page, /^Roll test/)
    expect(await colour('[aria-pressed=true]')).not.toBe(await colour('[aria-pressed=false]'))
    expect(await violations(page)).toEqual([])
    await page.close()
  },
)

test('by touch alone: on, done, back and away', async () => {
  const page = await bench.open({ touch: true, width: 768, height: 1024 })
  await standing(page)
  await toStart(page)
  await page.getByRole('button', { name: /^Done/ }).tap()
  expect(await title(page)).not.toBe('Fetch')
  const second = await title(page)
  await page.getByRole('button', { name: 'Look ahead' }).tap()
  expect(await title(page)).not.toBe(second)
  await page.getByRole('button', { name: 'Back', exact: true }).tap()
  expect(await title(page)).toBe(second)
  await page.getByRole('button', { name: 'Leave' }).tap()
  await page.getByRole('button', { name: /come back to this step/ }).tap()
  await page.getByTestId('at-lathe').waitFor({ state: 'detached' })
  await page.close()
})

describe.each([
  { width: 1280, height: 800 },
  { width: 768, height: 1024 },
  { width: 1920, height: 1080 },
])('$width × $height', ({ width, height }) => {
  test.each([{ dark: false }, { dark: true }])(
    'every step is readable and large enough, dark: $dark',
    async ({ dark }) => {
      const page = await bench.open({ width, height, dark, still: true })
      await standing(page)
      await toStart(page)
      let last = ''
      for (let i = 0; i < 40; i++) {
        const now = await title(page)
        if (now === last) break
        last = now
        const small = await page.getByTestId('at-lathe').evaluate((root) =>
          [...root.querySelectorAll('button, input, select')].flatMap((e) => {
            const box = (e.closest('label') ?? e).getBoundingClientRect()
            return box.height < 63.5 || box.width < 63.5
              ? [`${e.textContent} ${box.width}×${box.height}`]
              : []
          }),
        )
        expect(small, now).toEqual([])
        const letters = await page
          .getByTestId('at-lathe')
          .locator('li, dd')
          .evaluateAll((all) => Math.min(...all.map((e) => parseFloat(getComputedStyle(e).fontSize)), 99))
        expect(letters, now).toBeGreaterThanOrEqual(24)
        const wide = await page
          .getByTestId('at-lathe')
          .evaluate((root) => root.scrollWidth - root.clientWidth)
        expect(wide, now).toBeLessThanOrEqual(0)
        await page.keyboard.press('ArrowRight')
      }
      expect(last).toBe('Finished')
      expect(await violations(page)).toEqual([])
      for (const step of [/^Roll test/, /^Boring/, /^Clamp/]) {
        for (let i = 0; i < 40 && !step.test(await title(page)); i++) await page.keyboard.press('ArrowLeft')
        expect(await violations(page), String(step)).toEqual([])
      }
      await page.close()
    },
  )
})

test('a stop bars power in words', async () => {
  const page = await bench.open()
  await page.getByRole('button', { name: /^\d Speed/ }).click()
  await type(page, 'Spindle speed', '540')
  await standing(page)
  for (let i = 0; i < 20; i++) await page.keyboard.press('ArrowLeft')
  await onTo(page, /^First speed/)
  await page.getByText(/^Power stays off: /).waitFor()
  await page.keyboard.press('Enter')
  expect(await title(page)).toBe('First speed')
  await page.keyboard.press('ArrowRight')
  await page.getByText(/^Power stays off: /).waitFor()
  await page.close()
})
