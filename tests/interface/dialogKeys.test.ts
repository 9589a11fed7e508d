/** Every dialog by keys alone: nothing is lost by Enter or Escape, and nothing is done before all is given. */
import { existsSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
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

const path = (name: string) => join(bench.folder(), `${name}.evenswing`)
const saved = (name: string) =>
  JSON.parse(readFileSync(path(name), 'utf8')) as { title: string; runs?: object[] }
const put = (name: string, change: object = {}) =>
  writeFileSync(
    path(name),
    JSON.stringify({ ...(JSON.parse(exampleText('flat-link')) as object), ...change }),
  )
const dialogs = (page: Page) => page.getByRole('dialog')
/** The accessible words of what has the focus: label, text or aria-label. */
const focused = (page: Page) =>
  page.evaluate(() => {
    const node = document.activeElement
    if (!(node instanceof HTMLElement)) return ''
    const label = 'labels' in node ? (node.labels as NodeListOf<HTMLElement> | null)?.[0] : null
    return (label ?? node).innerText.trim() || node.getAttribute('aria-label') || node.tagName
  })
async function keys(page: Page, ...all: string[]): Promise<void> {
  for (const key of all) {
    await page.keyboard.press(key)
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => setTimeout(done, 20))))
  }
}
async function openFirst(page: Page): Promise<void> {
  await keys(page, 'Control+o')
  await page.getByTestId('book-count').filter({ hasText: /\d/ }).waitFor()
  await keys(page, 'Enter')
  await page.getByTestId('job-book').waitFor({ state: 'detached' })
}
const gone = (page: Page) => expect.poll(() => dialogs(page).count()).toBe(0)

test('Save, then Enter, saves', async () => {
  const page = await bench.open()
  await keys(page, 'Control+s')
  expect(await focused(page)).toBe('Name in the job book')
  await page.keyboard.type('by-keys')
  await keys(page, 'Enter')
  await gone(page)
  expect(existsSync(path('by-keys'))).toBe(true)
  // The keyboard is where it was before: the next key works.
  await keys(page, 'Control+e')
  expect(await focused(page)).toBe('Date')
})

test('Enter replaces no job of the same name; a name with a fault stays to be mended', async () => {
  put('taken', { title: 'Of somebody else' })
  const page = await bench.open()
  await keys(page, 'Control+s')
  await page.keyboard.type('Taken')
  await keys(page, 'Enter')
  await dialogs(page).getByText('There is a job of this name').waitFor()
  expect(saved('taken').title).toBe('Of somebody else')
  await keys(page, 'Control+a')
  await page.keyboard.type('a/b')
  await keys(page, 'Enter', 'Enter')
  await dialogs(page).getByText('Leave out').waitFor()
  expect(await focused(page)).toBe('Name in the job book')
  expect(await violations(page)).toEqual([])
})

test('a job of the ending of before has its name too, and is replaced under it', async () => {
  const old = join(bench.folder(), 'taken.evenswing.json')
  writeFileSync(old, exampleText('flat-link'))
  const page = await bench.open()
  await keys(page, 'Control+s')
  await page.keyboard.type('taken')
  await dialogs(page).getByText('taken.evenswing.json is there already').waitFor()
  await dialogs(page).getByRole('button', { name: 'Replace it' }).press('Enter')
  await page.getByText('Saved as taken.evenswing.json').waitFor()
  expect(existsSync(path('taken'))).toBe(false)
})

test('a key held down from before answers nothing in a dialog', async () => {
  const page = await bench.open()
  await keys(page, 'Control+s')
  await page.keyboard.down('Enter')
  await gone(page)
  await keys(page, 'Control+Shift+s')
  // Still down: the browser repeats it.
  await page.keyboard.down('Enter')
  await page.keyboard.down('Enter')
  await page.waitForTimeout(200)
  expect(await dialogs(page).count()).toBe(1)
  await page.keyboard.up('Enter')
})

test('New: Enter in the title goes on, and the block is made once the last field is reached', async () => {
  const page = await bench.open()
  const before = await page.getByRole('heading', { level: 1 }).innerText()
  await keys(page, 'Control+n')
  await dialogs(page).waitFor()
  expect(await focused(page)).toBe('What is it?')
  await keys(page, 'Control+Enter')
  expect(await dialogs(page).count()).toBe(1)
  await page.keyboard.type('Motor foot')
  await keys(page, 'Enter')
  expect(await dialogs(page).count()).toBe(1)
  expect(await dialogs(page).getByLabel('What is it?').inputValue()).toBe('Motor foot')
  expect(await page.getByRole('heading', { level: 1 }).first().innerText()).toBe(before)
  for (let i = 0; (await focused(page)) !== 'There already ⌀'; i++) {
    expect(i).toBeLessThan(20)
    if ((await focused(page)) === 'Length') await page.keyboard.type('210')
    await keys(page, 'Enter')
  }
  await page.keyboard.type('nonsense')
  await keys(page, 'Enter')
  expect(await dialogs(page).count()).toBe(1)
  expect(await focused(page)).toBe('There already ⌀')
  await keys(page, 'Control+a')
  await page.keyboard.type('0')
  for (let i = 0; (await dialogs(page).count()) > 0; i++) {
    expect(i).toBeLessThan(20)
    await keys(page, 'Enter')
  }
  await page.getByRole('heading', { level: 1, name: 'Motor foot' }).waitFor()
  await gone(page)
})

test('Record a run: Enter after who goes on; Escape asks, twice Escape loses nothing', async () => {
  put('link')
  const page = await bench.open()
  await openFirst(page)
  await keys(page, 'Control+e', 'Enter')
  expect(await focused(page)).toBe('Who')
  await page.keyboard.type('Kim')
  await keys(page, 'Enter')
  expect(await dialogs(page).count()).toBe(1)
  expect(await focused(page)).toBe('Speed used')
  await keys(page, 'Enter')
  await page.keyboard.type('w1 out')
  await keys(page, 'Escape')
  await dialogs(page).getByText('What you gave here is not kept yet.').waitFor()
  expect(await focused(page)).toBe('Go on here')
  expect(await violations(page)).toEqual([])
  await keys(page, 'Escape')
  expect(await focused(page)).toContain('trimmed')
  await keys(page, 'Escape', 'Escape', 'Escape', 'Enter')
  expect(await dialogs(page).count()).toBe(1)
  await keys(page, 'End', 'Tab')
  await page.keyboard.type('ran quiet')
  await keys(page, 'Control+Enter')
  await gone(page)
  await keys(page, 'Control+s')
  await page.getByText('Saved as link').waitFor()
  expect(saved('link').runs).toMatchObject([{ by: 'Kim', trimmed: 'w1 out', remarks: 'ran quiet' }])
  // Left for good only by saying so.
  await keys(page, 'Control+e')
  await keys(page, 'Tab', 'Tab', 'Tab')
  await page.keyboard.type('not this')
  await keys(page, 'Escape', 'Tab', 'Enter')
  await gone(page)
})

test('a date that is none keeps the run from being recorded and the keyboard at the date', async () => {
  const page = await bench.open()
  await keys(page, 'Control+e')
  await page.keyboard.type('yesterday')
  await keys(page, 'Control+Enter')
  await dialogs(page).getByText('A date is wanted').waitFor()
  expect(await focused(page)).toBe('Date')
})

test('Settings are kept as they are left, by Escape too, and Enter goes through them', async () => {
  const page = await bench.open()
  await keys(page, 'Control+,')
  expect(await focused(page)).toBe('Light or dark')
  await keys(page, 'Enter')
  expect(await focused(page)).toContain('Your name')
  await page.keyboard.type('Robin')
  await keys(page, 'Escape')
  await gone(page)
  await keys(page, 'Control+,')
  expect(await dialogs(page).getByLabel('Your name').inputValue()).toBe('Robin')
  await keys(page, 'Enter', 'Enter')
  await page.keyboard.type('Works')
  await keys(page, 'Enter')
  await gone(page)
  await keys(page, 'Control+,')
  expect(await dialogs(page).getByLabel('Owner').inputValue()).toBe('Works')
})

test('changes not saved: Enter saves them and loses nothing', async () => {
  put('link')
  const page = await bench.open()
  await openFirst(page)
  await keys(page, 'Control+e')
  await keys(page, 'Tab', 'Tab', 'Tab')
  await page.keyboard.type('x')
  await keys(page, 'Control+Enter', 'Control+n')
  await dialogs(page).getByText('in no file yet').waitFor()
  expect(await focused(page)).toBe('Save first')
  await keys(page, 'Enter')
  // What was asked for comes then.
  await page.getByRole('dialog', { name: 'New job' }).waitFor()
  expect(saved('link').runs).toHaveLength(1)
})

test('someone else’s change: Enter keeps both', async () => {
  put('link')
  const page = await bench.open()
  await openFirst(page)
  await keys(page, 'Control+e', 'Control+Enter')
  put('link', { title: 'Theirs' })
  await keys(page, 'Control+s')
  await dialogs(page).getByText('was changed by someone else').first().waitFor()
  expect(await focused(page)).toBe('Keep both')
  await keys(page, 'Enter')
  await page.getByText('Saved as link-mine').waitFor()
  expect([saved('link').title, saved('link-mine').runs?.length]).toEqual(['Theirs', 1])
})

test('hardware: Enter goes on, the last field puts it on the plate, what was typed is asked about', async () => {
  const page = await bench.open()
  await keys(page, 'Control+l')
  await dialogs(page).waitFor()
  expect(await focused(page)).toBe('Usual sizes')
  await keys(page, 'Enter', 'Enter', 'Enter')
  await page.keyboard.type('77')
  await keys(page, 'Escape', 'Escape')
  await dialogs(page).getByText('What you gave here is not kept yet.').waitFor()
  await keys(page, 'Enter')
  for (let i = 0; (await dialogs(page).count()) > 0; i++) {
    expect(i).toBeLessThan(20)
    await keys(page, 'Enter')
  }
  await page.getByText('is on the plate. Drag it').waitFor()
})

test('the planner plans by Ctrl+Enter; drawing and photograph start at their file; both leave by Escape', async () => {
  const page = await bench.open()
  await keys(page, 'Control+b')
  await dialogs(page).waitFor()
  expect(await focused(page)).toBe('Stations')
  await keys(page, 'Control+Enter')
  await dialogs(page).getByRole('button', { name: 'Plan again' }).waitFor()
  await keys(page, 'Escape')
  await gone(page)
  await page.getByTestId('plate').focus()
  for (const open of ['Control+i', 'p']) {
    await keys(page, open)
    await dialogs(page).waitFor()
    expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).type)).toBe('file')
    await keys(page, 'Escape')
    await gone(page)
  }
})

test('what is ticked on the list to fetch is there again', async () => {
  const page = await bench.open()
  const more = page.getByRole('button', { name: 'More', exact: true })
  const repeat = async () => {
    await more.press('Enter')
    await expect.poll(() => focused(page)).toMatch(/^At the lathe/)
    await keys(page, 'ArrowDown')
    await expect.poll(() => focused(page)).toMatch(/^What to fetch/)
    await keys(page, 'Enter')
  }
  await repeat()
  await dialogs(page).waitFor()
  await keys(page, 'Space', 'Escape')
  await gone(page)
  await repeat()
  expect(await dialogs(page).getByRole('checkbox').first().isChecked()).toBe(true)
})

test('dialogs to read are scrolled by keys, and each is left by Escape with the keyboard given back', async () => {
  put('a')
  put('b', { title: 'Rocker arm' })
  const page = await bench.open()
  await page.getByRole('button', { name: 'More', exact: true }).focus()
  for (const open of ['F1', 'Control+Shift+l']) {
    await keys(page, open)
    await dialogs(page).waitFor()
    expect(await focused(page)).not.toBe('Close')
    await keys(page, 'Escape')
    await gone(page)
    expect(await focused(page)).toBe('More')
  }
  await keys(page, 'Control+o')
  await page.getByText('2 jobs').waitFor()
  await page.getByRole('button', { name: 'Compare', exact: true }).press('Enter')
  await page.locator('#book-list').press('ArrowDown')
  await page.getByRole('button', { name: /^Compare with/ }).press('Enter')
  await page.getByTestId('changes').waitFor()
  await keys(page, 'Enter')
  expect(await dialogs(page).count()).toBe(1)
  await keys(page, 'Escape')
  await gone(page)
  expect(await page.getByTestId('job-book').count()).toBe(1)
})

test('a message about the window waits until the dialog is closed, and takes no keys away', async () => {
  put('link')
  const page = await bench.open()
  await openFirst(page)
  await keys(page, 'Control+e')
  const answered = page.waitForResponse('**/rpc/fileState')
  await page.route('**/rpc/fileState', async (route) => {
    await new Promise((done) => setTimeout(done, 400))
    await route.fulfill({ json: { ok: true, value: { stamp: 'other', readOnly: false } } })
  })
  await keys(page, 'Escape')
  await page.evaluate(() => dispatchEvent(new Event('focus')))
  await keys(page, 'Control+e', 'Tab', 'Tab', 'Tab')
  await page.keyboard.type('half a rem')
  await answered
  await page.keyboard.type('ark')
  expect(await page.getByText('was changed by someone else').count()).toBe(0)
  expect(await dialogs(page).getByLabel('What was trimmed').inputValue()).toBe('half a remark')
  await keys(page, 'Control+Enter')
  await gone(page)
  await page.getByText('was changed by someone else').waitFor()
  await page.getByRole('button', { name: 'What to do' }).waitFor()
})

const tabTo = async (page: Page, words: string | RegExp) => {
  for (let i = 0; !(await focused(page)).match(words); i++) {
    expect(i, String(words)).toBeLessThan(60)
    await keys(page, 'Tab')
  }
}
/** A change that is in no file yet. */
async function change(page: Page): Promise<void> {
  await keys(page, 'Control+e', 'Control+Enter')
  await gone(page)
}

test('Save first of a job without a name asks for it, and then what was asked for comes', async () => {
  const page = await bench.open()
  await change(page)
  await keys(page, 'Control+n', 'Enter')
  await page.getByRole('dialog', { name: 'Save the job' }).waitFor()
  await page.keyboard.type('first')
  await keys(page, 'Enter')
  await page.getByRole('dialog', { name: 'New job' }).waitFor()
  expect(saved('first').runs).toHaveLength(1)
  await keys(page, 'Escape')
  await gone(page)
  // Left without a name, nothing comes, now or with a later save.
  await change(page)
  await keys(page, 'Control+n', 'Escape')
  await gone(page)
  await keys(page, 'Control+s')
  await page.getByText('Saved as first').waitFor()
  await page.waitForTimeout(200)
  expect(await dialogs(page).count()).toBe(0)
})

test('someone else’s change: theirs is taken by keys, and undo brings mine back', async () => {
  put('link')
  const page = await bench.open()
  await openFirst(page)
  await change(page)
  put('link', { title: 'Theirs' })
  await keys(page, 'Control+s')
  await dialogs(page).getByText('was changed by someone else').first().waitFor()
  await tabTo(page, /^Take theirs/)
  await keys(page, 'Enter')
  await page.getByText('Undo brings yours back').waitFor()
  await page.getByRole('heading', { level: 1, name: 'Theirs' }).waitFor()
  await keys(page, 'Control+z', 'Control+s')
  await page.getByText('Saved as link').waitFor()
  expect(saved('link').runs).toHaveLength(1)
})

test('work that was not saved: a discarded draft is brought back by the same key, and opened by Enter', async () => {
  put('link')
  const drafts = () => readdirSync(join(bench.folder(), '.user', 'drafts')).filter((n) => n.endsWith('.json'))
  const page = await bench.open()
  await openFirst(page)
  await change(page)
  await expect.poll(() => existsSync(join(bench.folder(), '.user', 'drafts')) && drafts().length).toBe(1)
  await page.context().close()
  const after = await bench.open({ recovering: true })
  await dialogs(after).getByText('from link.evenswing').waitFor()
  expect(await focused(after)).toMatch(/^Open/)
  await keys(after, 'Tab', 'Enter')
  await dialogs(after).getByText('discarded once this window is closed').waitFor()
  expect(await focused(after)).toMatch(/^Discard/)
  expect(await violations(after)).toEqual([])
  await keys(after, 'Enter')
  await dialogs(after).getByText('discarded once').waitFor({ state: 'detached' })
  await keys(after, 'Escape')
  await gone(after)
  expect(drafts()).toHaveLength(1)
  await after.context().close()
  const third = await bench.open({ recovering: true })
  await dialogs(third).waitFor()
  await keys(third, 'Enter')
  await third.getByText('link.evenswing, changed').waitFor()
  await gone(third)
  await keys(third, 'Control+s')
  await third.getByText('Saved as link').waitFor()
  expect(saved('link').runs).toHaveLength(1)
  await expect.poll(drafts).toEqual([])
})

test('work that was not saved: discarded and closed, it is gone', async () => {
  const page = await bench.open()
  await change(page)
  const folder = join(bench.folder(), '.user', 'drafts')
  const drafts = () => (existsSync(folder) ? readdirSync(folder).filter((n) => n.endsWith('.json')) : [])
  await expect.poll(() => drafts().length).toBe(1)
  await page.context().close()
  const after = await bench.open({ recovering: true })
  await dialogs(after).waitFor()
  await tabTo(after, /^Discard/)
  await keys(after, 'Space', 'Escape')
  await gone(after)
  await expect.poll(drafts).toEqual([])
})

test('About: reached, read through and left by keys', async () => {
  const page = await bench.open()
  await keys(page, 'F1')
  await dialogs(page).waitFor()
  await tabTo(page, /^About Evenswing/)
  await keys(page, 'Enter')
  await page.getByRole('dialog', { name: 'About Evenswing' }).waitFor()
  expect(await focused(page)).toBe('Done')
  await keys(page, 'Tab')
  expect(await focused(page)).toBe('Keyboard')
  await keys(page, 'Enter')
  await page.getByRole('dialog', { name: 'Keyboard' }).waitFor()
  await tabTo(page, /^About Evenswing/)
  await keys(page, 'Enter')
  await page.getByRole('dialog', { name: 'About Evenswing' }).waitFor()
  await keys(page, 'Enter')
  await gone(page)
})

test('import: fields by Enter, what was read is asked about, and taken in from the last field', async () => {
  const page = await bench.open()
  await keys(page, 'Control+i')
  await dialogs(page).waitFor()
  await dialogs(page)
    .locator('input[type=file]')
    .setInputFiles({
      name: 'plate.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from('x,y\n0,0\n100,0\n100,40\n0,40\n'),
    })
  await dialogs(page).getByText('The file names no unit').waitFor()
  await tabTo(page, /names no unit/)
  // Not all is given yet: it says what is wanted and takes nothing in.
  await keys(page, 'Control+Enter')
  await dialogs(page).getByText('Say which unit the file is in.').waitFor()
  expect(await dialogs(page).count()).toBe(1)
  await page.keyboard.type('mm')
  await keys(page, 'Enter')
  expect(await focused(page)).toBe('Thickness')
  await keys(page, 'Escape')
  await dialogs(page).getByText('What you gave here is not kept yet.').waitFor()
  await keys(page, 'Escape')
  expect(await focused(page)).toBe('Thickness')
  await page.keyboard.type('12')
  await keys(page, 'Enter')
  expect(await focused(page)).toBe('Which way up')
  await keys(page, 'Enter')
  expect(await focused(page)).toBe('It becomes')
  await keys(page, 'Enter')
  await page.getByRole('button', { name: 'Undo: Import plate.csv' }).waitFor()
  await gone(page)
})

test('the end of a job’s details: an earlier version is looked at and gone back to by keys', async () => {
  put('link')
  const page = await bench.open()
  await openFirst(page)
  await change(page)
  await keys(page, 'Control+s')
  await page.getByText('Saved as link').waitFor()
  await keys(page, 'Control+o')
  await page.getByTestId('book-count').filter({ hasText: /\d/ }).waitFor()
  await tabTo(page, /^Earlier versions/)
  await keys(page, 'Enter')
  await page.getByRole('button', { name: /^Look at it/ }).waitFor()
  await tabTo(page, /^Look at it/)
  await keys(page, 'Enter')
  await page.getByTestId('changes').waitFor()
  await keys(page, 'Escape')
  expect(await focused(page)).toMatch(/^Look at it/)
  await keys(page, 'Enter')
  await tabTo(page, /^Go back to/)
  await keys(page, 'Enter')
  await page.getByText('link.evenswing, changed').waitFor()
  expect(await page.getByTestId('job-book').count()).toBe(0)
})
