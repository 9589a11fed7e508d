/** The program behind the window has ended: the work leaves the window as a file and goes on in a new one. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { useBench } from './window.ts'

const bench = useBench()

test('unsaved work is taken out as a file, and dropped on a new window it goes on there', async () => {
  const page = await bench.open()
  await page.getByRole('button', { name: /^3 Mounting/ }).click()
  await page.getByLabel('Packing', { exact: true }).fill('23')
  await page.keyboard.press('Enter')
  // As it is when nobody listens on the port any more; a reply that is no JSON logs no error of the network.
  await page.route('**/rpc/**', (route) => route.fulfill({ body: 'gone' }))
  await page.keyboard.press('Control+s')
  const dialog = page.getByRole('dialog')
  await dialog.getByText('does not answer').waitFor()
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    dialog.getByRole('button', { name: 'Save a copy to this computer' }).press('Enter'),
  ])
  const text = readFileSync(await download.path(), 'utf8')
  await dialog.getByText('is among this browser’s downloads').waitFor()
  const next = await bench.open()
  const carrier = await next.evaluateHandle(
    ([name, words]) => {
      const data = new DataTransfer()
      data.items.add(new File([words!], name!))
      return data
    },
    [download.suggestedFilename(), text],
  )
  await next.dispatchEvent('body', 'drop', { dataTransfer: carrier })
  await next.getByText('not saved yet, changed').waitFor()
  await next.getByRole('button', { name: /^3 Mounting/ }).click()
  expect(await next.getByLabel('Packing', { exact: true }).inputValue()).toBe('23')
})
