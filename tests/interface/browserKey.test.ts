/** The window in a browser: opened from a file that leads to it, loaded again, and without its key. */
import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { goingOnTo } from '../../src-main/web/goingOn.ts'
import { startBench, type Bench } from './window.ts'

let bench: Bench
beforeAll(async () => {
  bench = await startBench()
})
afterAll(() => bench.close())

test('a file that leads to the one-time address opens the window, which is loaded again with its key', async () => {
  const page = await bench.blank()
  const file = join(bench.folder, 'open.html')
  await writeFile(file, goingOnTo(bench.address()))
  await page.goto(pathToFileURL(file).href)
  await page.getByTestId('mass').waitFor()
  expect(new URL(page.url()).hash).toBe('')
  await page.reload()
  await page.getByTestId('mass').waitFor()
  await page
    .getByRole('button', { name: /Job book/ })
    .first()
    .click()
  await page.getByTestId('book-place').getByText(bench.folder).waitFor()
  // The same browser has the cookie; a page that was not handed the key gets nothing.
  const other = await page.context().newPage()
  await other.goto(new URL(page.url()).origin)
  await other.getByText(/not opened by the address/).waitFor()
})
