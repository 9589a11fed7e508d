/** The job book in the real window on the real host. */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { mkdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { beforeEach, expect, test } from 'vitest'
import { exampleText } from '../helpers/jobs.ts'
import { violations } from './violations.ts'
import { useBench } from './window.ts'

const bench = useBench()
beforeEach(() => {
  for (const name of readdirSync(bench.folder()))
    if (/(?:\.json|\.evenswing|\.evenswing-versions)$/.test(name))
      rmSync(join(bench.folder(), name), { recursive: true })
})

const put = (name: string, change: (job: Record<string, never>) => void = () => undefined) => {
  const job = JSON.parse(exampleText('flat-link')) as Record<string, never>
  change(job)
  writeFileSync(join(bench.folder(), `${name}.evenswing`), JSON.stringify(job))
}
const openBook = async (page: Page) => {
  await page.keyboard.press('Control+o')
  await page.getByTestId('job-book').waitFor()
  await page.getByTestId('book-count').filter({ hasText: /\d/ }).waitFor()
}
const openChosen = async (page: Page) => {
  await page.getByRole('button', { name: 'Open', exact: true }).click()
  await page.getByTestId('job-book').waitFor({ state: 'detached' })
}
const options = (page: Page) => page.getByRole('option')
const saved = (name: string) =>
  JSON.parse(readFileSync(join(bench.folder(), `${name}.evenswing`), 'utf8')) as Record<string, any> // eslint-disable-line @typescript-eslint/no-explicit-any

test('an empty book says how to fill it', async () => {
  const page = await bench.open()
  await openBook(page)
  await page.getByText('No jobs are in').waitFor()
  await page.getByRole('button', { name: 'bearing bracket' }).click()
  await page.getByRole('heading', { level: 1, name: /bracket/i }).waitFor()
  await page.context().close()
})

test('a search with a typing error finds the job, Enter opens it', async () => {
  put('one', (j) => Object.assign(j, { title: 'Pump flange', notes: 'aluminium casting' }))
  put('two', (j) => Object.assign(j, { title: 'Rocker arm' }))
  const page = await bench.open()
  await openBook(page)
  expect(await options(page).count()).toBe(2)
  await page.keyboard.type('alumnium')
  await page.getByText('1 of 2').waitFor()
  expect(await options(page).first().textContent()).toContain('Pump flange')
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { level: 1, name: 'Pump flange' }).waitFor()
  expect(await page.getByTestId('job-book').count()).toBe(0)
  await page.context().close()
})

test('arrows choose, Escape clears the search and then leaves', async () => {
  put('one')
  put('two')
  put('three')
  const page = await bench.open()
  await openBook(page)
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('ArrowDown')
  expect(await page.locator('[role=option][aria-selected=true]').getAttribute('aria-posinset')).toBe('3')
  await page.keyboard.type('zzz')
  await page.getByText('Nothing like “zzz”').waitFor()
  await page.keyboard.press('Escape')
  await page.getByText('3 jobs').waitFor()
  await page.keyboard.press('Escape')
  await page.getByTestId('job-book').waitFor({ state: 'detached' })
  await page.context().close()
})

test('damaged files and copies left by a syncing folder are marked, and compared with the original', async () => {
  put('link')
  put('link (conflicted copy)', (j) => Object.assign(j, { title: 'Other title' }))
  writeFileSync(join(bench.folder(), 'broken.evenswing'), '{ "format": ')
  const page = await bench.open()
  await openBook(page)
  await page.getByText(/Cannot be opened: .*JSON/).waitFor()
  await options(page).filter({ hasText: 'copy of link' }).click()
  await page.getByRole('button', { name: 'Compare with the original' }).click()
  await expect(page.getByTestId('changes').textContent()).resolves.toContain('Other title')
  expect(await violations(page)).toEqual([])
  await page.context().close()
})

test('a variant is a job of its own and leaves the original alone', async () => {
  put('link')
  const before = saved('link')
  const page = await bench.open()
  await openBook(page)
  await page.getByRole('button', { name: 'Duplicate' }).click()
  await page.getByText('2 jobs').waitFor()
  expect(saved('link-variant').title).toMatch(/, variant$/)
  expect(saved('link')).toEqual(before)
  await page.context().close()
})

test('two jobs are compared in words and on the plate', async () => {
  put('a')
  put('b', (j) => {
    const { setups } = j as unknown as { setups: { hardware: { at: unknown }[] }[] }
    setups[0]!.hardware[0]!.at = { slot: 'S3', radius: 88 }
  })
  const page = await bench.open()
  await openBook(page)
  await options(page).nth(0).click()
  await page.getByRole('button', { name: 'Compare', exact: true }).click()
  await options(page).nth(1).click()
  await page.getByRole('button', { name: /^Compare with / }).click()
  await expect(page.getByTestId('changes').textContent()).resolves.toMatch(
    /moved from slot S3 at radius .* mm to slot S3/,
  )
  // The number of the change stands on both plates.
  expect(await page.locator('dialog .mark text').allTextContents()).toEqual(['1', '1'])
  await page.context().close()
})

test('a run is recorded, saved, and shown when the job is repeated with its list', async () => {
  put('link')
  const page = await bench.open()
  await openBook(page)
  await openChosen(page)
  await page.keyboard.press('Control+e')
  await page.getByLabel('Date').fill('2026-10-01')
  await page.getByLabel('Who', { exact: true }).fill('Kim')
  await page.getByLabel('Speed used').fill('90')
  await page.getByLabel('What was trimmed').fill('w1 out by 4 mm')
  await page.getByLabel('Remarks').fill('ran quiet')
  await page
    .getByLabel('Photograph of the set-up')
    .setInputFiles(join('docs', 'pictures', 'window-light-1280.png'))
  await page.getByAltText('The set-up, as it goes into the job').waitFor()
  await page.getByRole('button', { name: 'Record it' }).click()
  await page.keyboard.press('Control+s')
  await page.getByText('Saved as link').waitFor()
  const [run, ...others] = saved('link').runs
  expect(others).toEqual([])
  expect(run).toMatchObject({ id: 'run1', date: '2026-10-01', setup: 'op10', by: 'Kim', speed: 90 })
  expect(run).toMatchObject({ trimmed: 'w1 out by 4 mm', remarks: 'ran quiet' })
  expect(run.photograph).toMatchObject({ type: 'image/jpeg', width: 1280, height: 800 })
  expect(run.photograph.data.length).toBeLessThan(800_000)
  await openBook(page)
  await page.getByText('last run 2026-10-01').first().waitFor()
  await page.getByRole('button', { name: 'Repeat this job' }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByText('w1 out by 4 mm').waitFor()
  const boxes = dialog.getByRole('checkbox')
  const count = await boxes.count()
  expect(count).toBeGreaterThan(4)
  expect(await violations(page)).toEqual([])
  for (let i = 0; i < count; i++) await boxes.nth(i).check()
  await dialog.getByText('All of it is here.').waitFor()
  await page.context().close()
})

test('unsaved work is there again after the window was killed', async () => {
  put('link')
  const page = await bench.open()
  await openBook(page)
  await openChosen(page)
  await page.getByRole('button', { name: /^3 Mounting/ }).click()
  await page.getByLabel('Packing', { exact: true }).fill('17')
  await page.keyboard.press('Enter')
  await page.waitForTimeout(4500)
  await page.context().close()
  const after = await bench.open({ recovering: true })
  const dialog = after.getByRole('dialog')
  await dialog.getByText('from link.evenswing').waitFor()
  expect(await violations(after)).toEqual([])
  await dialog.getByRole('button', { name: /^Open/ }).click()
  await after.getByText('link.evenswing, changed').waitFor()
  await after.keyboard.press('Control+s')
  await after.getByText('Saved as link').waitFor()
  expect(saved('link').setups[0].packing).toBe(17)
  await after.waitForTimeout(600)
  expect(readdirSync(join(bench.folder(), '.user', 'drafts'))).toEqual([])
  await after.context().close()
})

for (const how of ['Keep mine', 'Take theirs', 'Keep both'] as const)
  test(`a change by someone else: ${how.toLowerCase()}`, async () => {
    put('link')
    const page = await bench.open()
    await openBook(page)
    await openChosen(page)
    await page.getByRole('button', { name: /^3 Mounting/ }).click()
    await page.getByLabel('Packing', { exact: true }).fill('19')
    await page.keyboard.press('Enter')
    put('link', (j) => Object.assign(j, { title: 'Theirs' }))
    await page.keyboard.press('Control+s')
    const dialog = page.getByRole('dialog')
    await dialog.getByText('was changed by someone else').waitFor()
    await dialog.getByRole('button', { name: 'Show what differs' }).click()
    await expect(page.getByTestId('changes').textContent()).resolves.toMatch(/Theirs/)
    await page.getByRole('dialog').last().getByRole('button', { name: 'Close' }).click()
    await dialog.getByRole('button', { name: how }).click()
    if (how === 'Take theirs') {
      await page.getByRole('heading', { level: 1, name: 'Theirs' }).waitFor()
      expect(saved('link').title).toBe('Theirs')
    } else {
      await page.getByText(/Saved as link/).waitFor()
      expect(saved(how === 'Keep mine' ? 'link' : 'link-mine').setups[0].packing).toBe(19)
      if (how === 'Keep both') expect(saved('link').title).toBe('Theirs')
    }
    await page.context().close()
  })

test('an earlier version is looked at and gone back to, as a change that undo takes back', async () => {
  put('link')
  const page = await bench.open()
  await openBook(page)
  await openChosen(page)
  await page.getByRole('button', { name: /^3 Mounting/ }).click()
  await page.getByLabel('Packing', { exact: true }).fill('21')
  await page.keyboard.press('Enter')
  await page.keyboard.press('Control+s')
  await page.getByText('Saved as link').waitFor()
  await openBook(page)
  await page.getByRole('button', { name: 'Earlier versions' }).click()
  await page.getByRole('button', { name: /^Look at it/ }).click()
  await expect(page.getByTestId('changes').textContent()).resolves.toMatch(/packing .* → 21 mm/)
  await page.getByRole('button', { name: /^Go back to/ }).click()
  await page.getByText('link.evenswing, changed').waitFor()
  await page.keyboard.press('Control+z')
  await page.getByText('link.evenswing, changed').waitFor({ state: 'detached' })
  await page.context().close()
})

test('the shop library takes a job’s things, gives them to another, and offers what became different', async () => {
  put('link')
  const page = await bench.open()
  await page.keyboard.press('Control+Shift+l')
  const dialog = page.getByRole('dialog')
  await dialog.getByRole('button', { name: 'Add what this job holds' }).click()
  await dialog.getByText(/things are in the library now/).waitFor()
  expect(await violations(page)).toEqual([])
  await dialog.getByRole('button', { name: /^Weights/ }).click()
  await dialog
    .getByRole('button', { name: /^Add to the stock/ })
    .first()
    .click()
  await dialog.getByText(/is in the job now/).waitFor()
  const file = join(bench.folder(), 'shop.evenswing-library.json')
  const library = JSON.parse(readFileSync(file, 'utf8')) as { lathes: { value: { swingOverBed: number } }[] }
  library.lathes[0]!.value.swingOverBed = 345
  const other = JSON.stringify(library)
  await mkdir(join(bench.folder(), '.user'), { recursive: true })
  await dialog.getByLabel('Library file').setInputFiles({
    name: 'other.evenswing-library.json',
    mimeType: 'application/json',
    buffer: Buffer.from(other),
  })
  await dialog.getByText('other.evenswing-library.json is in the library now.').waitFor()
  const offers = dialog.getByTestId('offers')
  await offers
    .getByText(/^the lathe/)
    .first()
    .waitFor()
  await offers.getByRole('button', { name: /^Take the lathe/ }).click()
  await offers.waitFor({ state: 'detached' })
  await dialog.getByRole('button', { name: 'Export…' }).click()
  await dialog.getByText(/shop\.evenswing-library.*is in/).waitFor()
  await dialog.getByRole('button', { name: 'Close', exact: true }).click()
  await page.getByText('swing 345 mm').waitFor()
  await page.context().close()
})

test('settings are kept for the next start, damaged ones are set aside', async () => {
  const page = await bench.open()
  await page.keyboard.press('Control+,')
  await page.getByLabel('Your name').fill('Robin')
  await page.getByLabel('Light or dark').selectOption('dark')
  await expect.poll(() => page.evaluate(() => document.documentElement.dataset['theme'])).toBe('dark')
  expect(await violations(page)).toEqual([])
  await page.getByRole('button', { name: 'Close', exact: true }).click()
  await page.keyboard.press('Control+e')
  await expect(page.getByLabel('Who', { exact: true }).inputValue()).resolves.toBe('Robin')
  await page.keyboard.press('Escape')
  // A new job is drawn by whom the settings name.
  await page.getByRole('button', { name: 'New', exact: true }).click()
  await page.getByRole('textbox', { name: 'What is it?' }).fill('Bracket')
  await page.keyboard.press('Tab')
  await page.getByRole('button', { name: 'Put it on the plate' }).click()
  await page.getByRole('button', { name: /^7 Sheet/ }).click()
  await expect(page.getByLabel('Drawn by').inputValue()).resolves.toBe('Robin')
  await page.context().close()
  expect(JSON.parse(readFileSync(join(bench.folder(), '.user', 'settings.json'), 'utf8'))).toMatchObject({
    theme: 'dark',
    person: 'Robin',
  })
})

test('a book of thousands lists and scrolls by the rows that are seen', async () => {
  const text = exampleText('flat-link')
  for (let i = 0; i < 400; i++)
    writeFileSync(join(bench.folder(), `job-${i}.evenswing`), text.replace('EV-0417', `EV-${1000 + i}`))
  const page = await bench.open()
  await openBook(page)
  await page.getByText('400 jobs').waitFor()
  expect(await options(page).count()).toBeLessThan(40)
  await page.keyboard.press('PageDown')
  await page.keyboard.type('EV-1399')
  await options(page).filter({ hasText: 'EV-1399' }).first().waitFor()
  await page.context().close()
})
