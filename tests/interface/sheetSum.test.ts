/** From a printed sheet back to its job: what names the sheet is typed in, its check sum is scanned into the book's search. */
import { copyFile } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { expect, test } from 'vitest'
import { parseJob } from '../../src-core/job/parse.ts'
import { checkSum } from '../../src-core/job/checkSum.ts'
import { readFileSync } from 'node:fs'
import { useBench } from './window.ts'

const bench = useBench()

const EXAMPLE = resolve('examples/flat-link.evenswing')
function sumOf(file: string, setup: string): string {
  const read = parseJob(readFileSync(file, 'utf8'))
  if (!read.ok) throw new Error(`${file} has faults`)
  return checkSum(
    read.job,
    read.job.setups.find((s) => s.id === setup)!,
  )
}

test('document number and revisions are given with the sheet and stand on it', async () => {
  const page = await bench.open()
  await page.keyboard.press('Control+p')
  const drawn = () => page.getByRole('img', { name: /^Setup sheet/ }).innerHTML()
  await expect.poll(drawn).toContain(sumOf(EXAMPLE, 'op10'))
  await page.getByRole('button', { name: /^7 Sheet/ }).click()
  await page.getByLabel('Document number').fill('D-0417-02')
  await page.getByRole('button', { name: 'Add a revision' }).click()
  await page.getByLabel('What changed').fill('Strap c3 longer')
  await page.keyboard.press('Tab')
  await expect.poll(drawn).toContain('D-0417-02')
  await page.getByRole('button', { name: 'Add a revision' }).click()
  expect(await page.getByLabel('Mark', { exact: true }).inputValue()).toBe('B')
  expect(await page.getByLabel('Revision', { exact: true }).count()).toBe(0)
  await expect.poll(drawn).toContain('Strap c3 longer')
  // How it is drawn, and what is written about it, is not what is set up.
  expect(await drawn()).toContain(sumOf(EXAMPLE, 'op10'))
  if (process.env['EVENSWING_LOOK'])
    await page.screenshot({ path: join(process.env['EVENSWING_LOOK'], 'sheet-step.png') })
})

test('a scanned check sum opens the job at the setup of its sheet', async () => {
  await copyFile(EXAMPLE, join(bench.folder(), 'link.evenswing'))
  await copyFile(resolve('examples/bearing-bracket.evenswing'), join(bench.folder(), 'bracket.evenswing'))
  const page = await bench.open()
  await page.keyboard.press('Control+o')
  await page.getByText('2 jobs').waitFor()
  // As a scanner types, without the hyphen.
  await page.keyboard.type(sumOf(EXAMPLE, 'op20').replace('-', ''))
  expect(await page.getByTestId('book-count').innerText()).toBe('1 of 2')
  await page.keyboard.press('Enter')
  await expect.poll(() => page.getByTestId('job-book').count()).toBe(0)
  await page.getByRole('tab', { name: /^op20/, selected: true }).waitFor()

  await page.keyboard.press('Control+o')
  await page.getByLabel(/^Search title/).fill('V8MRW-R2PX9')
  await page.getByText('No job of this book has the check sum V8MRW-R2PX9 now.').waitFor()
  if (process.env['EVENSWING_LOOK'])
    await page.screenshot({ path: join(process.env['EVENSWING_LOOK'], 'book-sum.png') })
})
