/**
 * From nothing to a printed sheet: a part of one outline and bore, four clamps, a planned weight. The same walk by mouse
 * and by keys alone, each action counted: a press of a button or key, a drag, a field filled or a choice made, with the
 * key that leaves it.
 */
import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Locator, Page } from 'playwright-core'
import { serialiseLibrary } from '../../src-core/shop/parse.ts'
import { EMPTY_LIBRARY } from '../../src-core/shop/schema.ts'
import { collect } from '../../src-core/shop/use.ts'
import { shippedJob } from '../helpers/jobs.ts'
import { drawPart, namesOf, type Hands } from './hands.ts'

/** How many actions the walk may take. */
export const MOST_ACTIONS = 45

/** mm from the middle of the bore: a crank arm, both ends round. */
const OUTLINE = [
  '-55, 40',
  '-55, -40 radius 60',
  '55, -40',
  '75, -25',
  '105, -25',
  '105, 25 radius 30',
  '75, 25',
  '55, 40',
]

/** The shop's library, as another job of this shop left it. */
export async function fillLibrary(folder: string): Promise<void> {
  const { library } = collect(
    shippedJob('bearing-bracket'),
    collect(shippedJob('flat-link'), EMPTY_LIBRARY).library,
  )
  await writeFile(join(folder, 'shop.evenswing-library.json'), serialiseLibrary(library))
}

/** After a dialog the keyboard is where it was. */
async function hasKeyboard(target: Locator): Promise<void> {
  const isThere = () => target.evaluate((node) => node === document.activeElement)
  for (let i = 0; i < 20 && !(await isThere()); i++) await target.page().waitForTimeout(50)
  if (!(await isThere())) throw new Error(`the keyboard did not come back to ${target}`)
}

/** The walk, from the first screen to the printer. */
export async function walk(page: Page, hands: Hands): Promise<void> {
  const { dialog, button, box, list } = namesOf(page)

  await drawPart(page, hands, 'Crank arm, bore the big end', 'point')
  await hands.fill(box('Thickness'), '40')
  await hands.fill(box('Finish ⌀'), '50')
  await hands.fill(box('There already ⌀'), '44')
  await hands.choose(list('Lathe'), 'Bench')
  await hands.choose(list('Plate'), '300')
  await hands.press(button('Draw its outline'), 'Control+Enter')

  const entry = page.locator('#draw-entry')
  for (const point of OUTLINE) await hands.fill(entry, point, 'Enter')
  await hands.press(page.locator('form').getByRole('button', { name: 'Enter', exact: true }), 'Enter')
  await hands.press(button('Done'), 'Control+d')

  // The fastest that the cut wants; a weight has to settle it there.
  await hands.press(button(/^6 Speed/), 'Alt+6')
  await hands.fill(page.getByRole('textbox', { name: 'Spindle speed' }), '155')
  await hands.press(button(/^5 Counterweights/), 'Alt+5')
  await hands.press(button('Plan from the stock'))
  await hands.press(dialog.getByRole('button', { name: 'Plan', exact: true }), 'Control+Enter')
  await dialog.getByRole('article').first().waitFor()
  await hands.press(dialog.getByRole('button', { name: 'Put plan 1 on the plate' }), 'Control+Enter')
  await hands.press(dialog.getByRole('button', { name: 'Back to the plate' }), 'Control+Enter')
  await hasKeyboard(button('Plan from the stock'))

  await hands.press(button(/^7 Sheet/), 'Alt+7')
  await hands.fill(page.getByRole('textbox', { name: 'Part number' }), 'CA-12')
  await hands.press(button('Show the sheet beside the plate'), 'Control+p')
  await hands.press(button('Print'), 'Control+Shift+p')
}
