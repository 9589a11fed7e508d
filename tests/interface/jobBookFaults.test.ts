/** What goes wrong around the job book, and small things of its handling, in the real window on the real host. */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { beforeEach, expect, test } from 'vitest'
import { exampleJob, exampleText, soundJob } from '../helpers/jobs.ts'
import { useBench } from './window.ts'

const bench = useBench()
beforeEach(() => {
  for (const name of readdirSync(bench.folder()))
    if (name.endsWith('.json') || name.startsWith('.'))
      rmSync(join(bench.folder(), name), { recursive: true })
})

const path = (name: string) => join(bench.folder(), `${name}.evenswing`)
const put = (name: string, change: object = {}) =>
  writeFileSync(
    path(name),
    JSON.stringify({ ...(JSON.parse(exampleText('flat-link')) as object), ...change }),
  )
async function openBook(page: Page): Promise<void> {
  await page.keyboard.press('Control+o')
  await page.getByTestId('book-count').filter({ hasText: /\d/ }).waitFor()
}
async function openFirst(page: Page): Promise<void> {
  await openBook(page)
  await page.getByRole('button', { name: 'Open', exact: true }).click()
  await page.getByTestId('job-book').waitFor({ state: 'detached' })
}
async function pack(page: Page, mm: number): Promise<void> {
  await page.getByRole('button', { name: /^3 Mounting/ }).click()
  await page.getByLabel('Packing', { exact: true }).fill(String(mm))
  await page.keyboard.press('Enter')
}

test('Escape ends a comparison and leaves the book open', async () => {
  put('a')
  put('b', { title: 'Rocker arm' })
  const page = await bench.open()
  await openBook(page)
  await page.getByRole('option').nth(0).click()
  await page.getByRole('button', { name: 'Compare', exact: true }).click()
  await page.getByRole('option').nth(1).click()
  await page.getByRole('button', { name: /^Compare with / }).click()
  await page.getByTestId('changes').waitFor()
  await page.keyboard.press('Escape')
  await page.getByTestId('changes').waitFor({ state: 'detached' })
  expect(await page.getByTestId('job-book').count()).toBe(1)
})

test('letters typed in the list go to the search, and Enter opens what is found', async () => {
  put('a')
  put('b', { title: 'Rocker arm' })
  const page = await bench.open()
  await openBook(page)
  await page.getByRole('option').filter({ hasNotText: 'Rocker' }).click()
  await page.keyboard.type('rokcer')
  await page.getByText('1 of 2').waitFor()
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { level: 1, name: 'Rocker arm' }).waitFor()
})

test('earlier versions shown are those of the job beside them', async () => {
  put('a')
  put('b', { title: 'Rocker arm' })
  const page = await bench.open()
  await openBook(page)
  await page.getByRole('option').filter({ hasNotText: 'Rocker' }).click()
  await page.getByRole('button', { name: 'Earlier versions' }).click()
  const heading = page.getByRole('heading', { name: 'Earlier versions' })
  await heading.waitFor()
  await page.locator('#book-search').fill('rocker')
  await page.getByText('1 of 2').waitFor()
  await heading.waitFor({ state: 'detached' })
})

test('a damaged job is mended from an earlier version', async () => {
  put('link')
  const page = await bench.open()
  await openFirst(page)
  const before = await page.getByTestId('unbalance').innerText()
  await pack(page, 21)
  await page.keyboard.press('Control+s')
  await page.getByText('Saved as link').waitFor()
  writeFileSync(path('link'), readFileSync(path('link'), 'utf8').slice(0, 300))
  await openBook(page)
  await page.getByText(/Cannot be opened/).waitFor()
  await page.getByRole('button', { name: 'Earlier versions' }).click()
  await page.getByRole('button', { name: /^Open it/ }).click()
  await page.getByText(/Save it to replace the damaged file/).waitFor()
  expect(await page.getByTestId('unbalance').innerText()).toBe(before)
  await page.keyboard.press('Control+s')
  await page.getByText('Saved as link').waitFor()
  expect(soundJob(readFileSync(path('link'), 'utf8'))).toEqual(exampleJob('flat-link'))
})

test('settings that the host found damaged are said, though the first job comes after them', async () => {
  const page = await bench.open()
  await page.route('**/rpc/readSettings', async (route) => {
    const reply = (await (await route.fetch()).json()) as { value: object }
    await route.fulfill({ json: { ...reply, value: { ...reply.value, setAside: 'settings.damaged.json' } } })
  })
  // The first job comes last, and what is said must outlive it.
  await page.route('**/rpc/readExample', async (route) => {
    await new Promise((resolve) => setTimeout(resolve, 500))
    await route.continue()
  })
  await page.reload()
  await page.getByTestId('mass').waitFor()
  await page.getByText(/The settings were damaged.*settings\.damaged\.json/).waitFor({ timeout: 5000 })
})

test('a job that is not read yet, or was too much for the list, is opened all the same', async () => {
  writeFileSync(path('link'), exampleText('flat-link'))
  const page = await bench.open()
  const unread = {
    summary: null,
    waiting: false,
    mayOpen: true,
    fault: 'holds too much to be listed. Open it by itself',
  }
  for (const state of [unread, { ...unread, waiting: true, fault: null }]) {
    await page.route('**/rpc/listBook', async (route) => {
      const reply = (await (await route.fetch()).json()) as { value: { entries: object[] } }
      const entries = reply.value.entries.map((entry) => ({ ...entry, ...state }))
      await route.fulfill({ json: { ...reply, value: { ...reply.value, waiting: 0, entries } } })
    })
    await page.keyboard.press('Control+o')
    await page
      .getByText(state.fault === null ? 'being read…' : 'Holds too much to be listed')
      .first()
      .waitFor()
    expect(await page.getByRole('button', { name: 'Open', exact: true }).last().isEnabled()).toBe(true)
    await page.keyboard.press('Enter')
    await page.getByTestId('job-book').waitFor({ state: 'detached' })
    await page.unroute('**/rpc/listBook')
  }
})
