/** Every screen and dialog of the window, one after the other: what holds for all of them is looked at on each. */
import { existsSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { exampleText } from '../helpers/jobs.ts'
import { makePng } from '../helpers/pictures.ts'
import type { Bench } from './window.ts'

export type OpenOptions = NonNullable<Parameters<Bench['open']>[0]>
export interface ScreenBench {
  readonly open: Bench['open']
  readonly folder: () => string
}
/** Told when a screen stands; its name is one of a kind in a walk. */
export type Visit = (page: Page, name: string) => Promise<void>
type Walk = (bench: ScreenBench, options: OpenOptions, visit: Visit) => Promise<void>

export const STEPS = ['Lathe and plate', 'Part', 'Mounting', 'Clamps', 'Counterweights', 'Speed', 'Sheet']

const dialog = (page: Page, name?: string | RegExp) => page.getByRole('dialog', name ? { name } : {})
const press = async (page: Page, ...keys: string[]) => {
  for (const key of keys) await page.keyboard.press(key)
}
const shut = async (page: Page) => {
  await press(page, 'Escape')
  await dialog(page).waitFor({ state: 'detached' })
}
const chooseFile = (page: Page, name: string, mimeType: string, buffer: Buffer) =>
  dialog(page).locator('input[type=file]').setInputFiles({ name, mimeType, buffer })
const onPlate = (page: Page) => page.getByTestId('plate').focus()
const more = async (page: Page, name: string | RegExp) => {
  await page.getByRole('button', { name: /^More/ }).click()
  await page.getByRole('menuitem', { name }).click()
}

function put(bench: ScreenBench, name: string, change: object = {}): void {
  const job = JSON.parse(exampleText('flat-link')) as object
  writeFileSync(join(bench.folder(), `${name}.evenswing`), JSON.stringify({ ...job, ...change }))
}
function emptyBook(bench: ScreenBench): void {
  for (const name of readdirSync(bench.folder()))
    if (/(?:\.evenswing|\.evenswing-versions)$/.test(name))
      rmSync(join(bench.folder(), name), { recursive: true })
}
async function openFirst(page: Page): Promise<void> {
  await press(page, 'Control+o')
  await page.getByTestId('book-count').filter({ hasText: /\d/ }).waitFor()
  await press(page, 'Enter')
  await page.getByTestId('job-book').waitFor({ state: 'detached' })
}
async function change(page: Page): Promise<void> {
  await press(page, 'Control+e')
  await dialog(page).waitFor()
  await press(page, 'Control+Enter')
  await dialog(page).waitFor({ state: 'detached' })
}

/** Unsaved work is in a draft of its own. */
async function draftKept(bench: ScreenBench): Promise<void> {
  const folder = join(bench.folder(), '.user', 'drafts')
  const kept = () => existsSync(folder) && readdirSync(folder).some((n) => n.endsWith('.json'))
  while (!kept()) await new Promise((next) => setTimeout(next, 100))
}

const beginning: Walk = async (bench, options, visit) => {
  emptyBook(bench)
  const empty = await bench.open({ ...options, atStart: true })
  await visit(empty, 'start, nothing in the book')
  await empty.context().close()
  put(bench, 'link')
  const page = await bench.open({ ...options, atStart: true })
  await page.getByText('Worked on last').waitFor()
  await visit(page, 'start')
  await page.context().close()
}

const steps: Walk = async (bench, options, visit) => {
  const page = await bench.open(options)
  await visit(page, 'plate')
  for (const picture of ['Force', 'Side', 'Before/after']) {
    await page.getByRole('tab', { name: picture }).click()
    await visit(page, `picture ${picture}`)
  }
  for (const [i, step] of STEPS.entries()) {
    await press(page, `Alt+${i + 1}`)
    await visit(page, `step ${step}`)
  }
  await press(page, 'Alt+4')
  await page.getByRole('list', { name: 'Clamps' }).getByRole('button').first().click()
  await visit(page, 'a clamp')
  await press(page, 'Alt+5')
  await page.getByRole('list', { name: 'Counterweights' }).getByRole('button').first().click()
  await visit(page, 'a weight')
  await page.getByRole('button', { name: 'in', exact: true }).click()
  await visit(page, 'inches')
  await page.getByRole('button', { name: /^More/ }).click()
  await visit(page, 'more')
  await page.context().close()
}

const drawing: Walk = async (bench, options, visit) => {
  const page = await bench.open({ ...options, still: true })
  await page.getByRole('button', { name: 'Turn by hand' }).click()
  await visit(page, 'turning')
  await page.getByRole('button', { name: 'Stop turning' }).click()
  await page.getByRole('button', { name: 'Draw the part' }).click()
  await visit(page, 'drawing')
  await onPlate(page)
  await press(page, '.', '.')
  await visit(page, 'a vertex')
  await press(page, 'e')
  await visit(page, 'an edge')
  await press(page, 'Escape')
  await page.getByRole('button', { name: 'Move, turn, mirror, copy' }).click()
  await visit(page, 'a ring')
  await page.getByRole('button', { name: 'Outline of lines and arcs' }).click()
  for (const line of ['-60, 60', '60, 120', '60, 60', '-60, 80', '']) {
    await page.locator('#draw-entry').fill(line)
    await press(page, 'Enter')
  }
  await page.getByRole('button', { name: 'Keep the larger loop' }).first().waitFor()
  await visit(page, 'a fault')
  await page.context().close()
}

const CUBE = (() => {
  const v = [0, 1].flatMap((z) => [0, 1].flatMap((y) => [0, 1].map((x) => [x * 60, y * 40, z * 25])))
  const faces = [
    [0, 2, 3, 0, 3, 1], [4, 5, 7, 4, 7, 6], [0, 1, 5, 0, 5, 4],
    [2, 6, 7, 2, 7, 3], [0, 4, 6, 0, 6, 2], [1, 3, 7, 1, 7, 5],
  ] // prettier-ignore
  const facets = faces.flatMap((f) => [f.slice(0, 3), f.slice(3)])
  const words = facets.map(
    (f) =>
      `facet normal 0 0 0\nouter loop\n${f.map((i) => `vertex ${v[i]!.join(' ')}`).join('\n')}\nendloop\nendfacet`,
  )
  return `solid c\n${words.join('\n')}\nendsolid c`
})()

const windows: Walk = async (bench, options, visit) => {
  const page = await bench.open(options)
  await press(page, 'Control+b')
  await visit(page, 'planner asks')
  await dialog(page).getByRole('button', { name: 'Plan', exact: true }).click()
  await dialog(page).getByRole('button', { name: 'Plan again' }).waitFor()
  await visit(page, 'planner')
  await shut(page)
  await press(page, 'Control+p')
  await page.getByRole('img', { name: /^Setup sheet/ }).waitFor()
  await page.getByText(/^Dimensions: /).click()
  await visit(page, 'sheet')
  await press(page, 'Control+p', 'Control+i')
  await dialog(page).waitFor()
  await visit(page, 'import')
  await chooseFile(page, 'plate.csv', 'text/csv', Buffer.from('x,y\n0,0\n100,0\n100,40\n0,40\n'))
  await dialog(page).getByText('The file names no unit').waitFor()
  await visit(page, 'import, a table')
  await chooseFile(page, 'x.dxf', 'text/plain', Buffer.from('nonsense'))
  await dialog(page).getByRole('alert').waitFor()
  await visit(page, 'import, refused')
  await chooseFile(page, 'block.stl', 'model/stl', Buffer.from(CUBE))
  await dialog(page)
    .getByRole('combobox', { name: /names no unit/ })
    .selectOption('mm')
  await page.getByTestId('import-figures').waitFor()
  await page.getByRole('radio', { name: /On face 1/ }).waitFor()
  await visit(page, 'import, a mesh')
  await press(page, 'Escape')
  await dialog(page).getByText('What you gave here is not kept yet.').waitFor()
  await visit(page, 'closing asked about')
  await dialog(page).getByRole('button', { name: 'Close without it' }).click()
  await press(page, 'Control+l')
  await page.getByRole('button', { name: 'Thread table' }).click()
  await visit(page, 'catalogue')
  await shut(page)
  for (const [key, name] of [
    ['F1', 'keys'],
    ['Control+,', 'settings'],
    ['Control+e', 'run'],
    ['Control+Shift+l', 'library'],
    ['Control+Shift+s', 'save'],
    ['Control+n', 'new job'],
  ] as const) {
    await press(page, key)
    await dialog(page).waitFor()
    await visit(page, name)
    await shut(page)
  }
  await more(page, /^What to fetch/)
  await visit(page, 'fetch')
  await shut(page)
  await more(page, /^About/)
  await visit(page, 'about')
  await shut(page)
  await page.getByRole('button', { name: 'Add a setup' }).click()
  await dialog(page, 'Another setup').waitFor()
  await visit(page, 'second bore')
  await dialog(page).getByRole('button', { name: 'Add it' }).click()
  await page.getByRole('button', { name: 'Plan its weights' }).waitFor()
  await visit(page, 'second bore, added')
  await press(page, 'Control+n')
  await dialog(page, 'Changes not saved').waitFor()
  await visit(page, 'discard')
  await page.context().close()
}

const photograph: Walk = async (bench, options, visit) => {
  const page = await bench.open(options)
  await onPlate(page)
  await press(page, 'p')
  await dialog(page).waitFor()
  await visit(page, 'photograph')
  await chooseFile(page, 'p.png', 'image/png', makePng(300, 200))
  for (const at of [0.3, 0.7]) {
    const box = (await page.getByTestId('picture').boundingBox())!
    await page.mouse.click(box.x + at * box.width, box.y + at * box.height)
  }
  await visit(page, 'photograph with points')
  await page.getByRole('textbox', { name: 'Distance from 1 to 2' }).fill('50')
  await press(page, 'Enter')
  await page.getByRole('button', { name: 'Put it under the plan' }).click()
  await page.getByRole('checkbox', { name: 'Locked' }).click()
  await visit(page, 'photograph placed')
  await page.context().close()
}

const book: Walk = async (bench, options, visit) => {
  emptyBook(bench)
  const page = await bench.open(options)
  await press(page, 'Control+o')
  await page.getByText('No jobs are in').waitFor()
  await visit(page, 'empty book')
  await press(page, 'Escape')
  put(bench, 'a')
  put(bench, 'b', { title: 'Rocker arm' })
  writeFileSync(join(bench.folder(), 'broken.evenswing'), '{ "format": ')
  await press(page, 'Control+o')
  await page.getByText(/Cannot be opened/).waitFor()
  await visit(page, 'book')
  await page.getByRole('option').filter({ hasText: 'Rocker arm' }).click()
  await page.getByRole('button', { name: 'Compare', exact: true }).click()
  await visit(page, 'book, comparing')
  // Written in the same moment, either may stand first.
  await page
    .getByRole('option')
    .filter({ hasNotText: /Rocker arm|broken/ })
    .click()
  await page.getByRole('button', { name: /^Compare with / }).click()
  await page.getByTestId('changes').waitFor()
  await visit(page, 'compared')
  await page.context().close()
  emptyBook(bench)
}

const company: Walk = async (bench, options, visit) => {
  emptyBook(bench)
  put(bench, 'link')
  const page = await bench.open(options)
  await openFirst(page)
  await change(page)
  put(bench, 'link', { title: 'Theirs' })
  await press(page, 'Control+s')
  await dialog(page, /changed by someone else/).waitFor()
  await visit(page, 'conflict')
  await shut(page)
  await draftKept(bench)
  await page.context().close()
  const after = await bench.open({ ...options, recovering: true })
  await dialog(after, 'Work that was not saved').waitFor()
  await visit(after, 'recover')
  await after.context().close()
  emptyBook(bench)
}

const lathe: Walk = async (bench, options, visit) => {
  const page = await bench.open(options)
  await press(page, 'Control+j')
  const place = page.getByTestId('at-lathe')
  await place.waitFor()
  // It stands where it was left.
  for (let i = 0; i < 30; i++) await press(page, 'ArrowLeft')
  let last = ''
  for (let i = 0; i < 40; i++) {
    const title = await place.locator('h1').innerText()
    if (title === last) break
    last = title
    await visit(page, `at the lathe: ${i + 1} ${title}`)
    await press(page, 'ArrowRight')
  }
  await press(page, 'Escape')
  await visit(page, 'leaving the lathe')
  await page.context().close()
}

/** The part laid on an angle plate, looked at from its side and square to the shelf; the form for a part on a base. */
const onShelf: Walk = async (bench, options, visit) => {
  const page = await bench.open(options)
  await press(page, 'Alt+2')
  await page.getByRole('button', { name: 'Part on a base' }).click()
  await visit(page, 'part on a base')
  await shut(page)
  await press(page, 'Alt+3')
  await page.getByRole('button', { name: 'Angle plate', exact: true }).click()
  await onPlate(page)
  await press(page, 'v')
  await visit(page, 'side view')
  await press(page, 'v', '.')
  await visit(page, 'square to the shelf')
  await page.context().close()
}

export const WALKS = {
  beginning,
  steps,
  drawing,
  windows,
  photograph,
  book,
  company,
  lathe,
  onShelf,
} as const
