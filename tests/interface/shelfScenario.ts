/** Parts that do not lie flat, from nothing to a verdict: the same walk by mouse and by keys alone, each action counted. */
import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { serialiseLibrary } from '../../src-core/shop/parse.ts'
import { EMPTY_LIBRARY } from '../../src-core/shop/schema.ts'
import { collect } from '../../src-core/shop/use.ts'
import { bearingBlock } from '../helpers/shelfJobs.ts'
import { shippedJob } from '../helpers/jobs.ts'
import { drawPart, MouseHands, namesOf, type Hands } from './hands.ts'

/** How many actions a walk may take. */
export const MOST_SHELF_ACTIONS = 60

/** A lathe of 250 mm centre height and a faceplate of 400 mm, with the weights of another job. */
export async function fillShelfLibrary(folder: string): Promise<void> {
  const job = bearingBlock()
  const { library } = collect(
    {
      ...job,
      lathe: { ...job.lathe, name: 'Gap lathe' },
      plate: { ...job.plate, name: '400 mm faceplate' },
      stock: shippedJob('flat-link').stock,
    },
    EMPTY_LIBRARY,
  )
  await writeFile(join(folder, 'shop.evenswing-library.json'), serialiseLibrary(library))
}

/** A step of the work, open and with the keyboard in it. */
async function openStep(page: Page, hands: Hands, n: number): Promise<void> {
  const step = page.getByRole('navigation').getByRole('button', { name: new RegExp(`^${n} `) })
  const isOpen = (await step.getAttribute('aria-expanded')) === 'true'
  if (!(isOpen && hands instanceof MouseHands)) await hands.press(step, `Alt+${n}`)
}

/** A bearing block bored parallel to its base, 63.5 mm above it, bolted through its base on an angle plate. */
export async function walkBlock(page: Page, hands: Hands): Promise<void> {
  const { dialog, button, box, list } = namesOf(page)
  await drawPart(page, hands, 'Bearing block, bore it', 'on a base')
  await hands.choose(list('Material'), 'grey')
  await hands.fill(box('Finish ⌀'), '42')
  await hands.fill(box('There already ⌀'), '38')
  await hands.press(dialog.getByRole('button', { name: 'Give its sizes' }), 'Control+Enter')

  await hands.fill(box('Base to bore'), '63.5')
  await hands.fill(box('Base length'), '150')
  await hands.fill(box('Slots apart'), '112')
  await hands.press(dialog.getByRole('button', { name: 'Make it the part' }), 'Control+Enter')

  await openStep(page, hands, 3)
  await hands.press(button('Angle plate'))
  await openStep(page, hands, 4)
  await hands.press(button('Bolts through its base'))
}

/** A round casting of 80 mm, to be bored 12 mm off its middle, on the plate with nothing on it. */
async function drawCasting(page: Page, hands: Hands): Promise<void> {
  const { dialog, box, list } = namesOf(page)
  await drawPart(page, hands, 'Round casting, bore it off its middle', 'disc')
  await hands.fill(box('Diameter'), '80')
  await hands.fill(box('Thickness'), '100')
  await hands.choose(list('Material'), 'grey')
  await hands.fill(box('Finish ⌀'), '30')
  await hands.fill(box('There already ⌀'), '24')
  await hands.fill(box('From the middle'), '12')
  await hands.choose(list('Four of these, where they hold'), 'nothing')
  await hands.press(dialog.getByRole('button', { name: 'Put it on the plate' }), 'Control+Enter')
  await openStep(page, hands, 3)
}

/** Strapped in a vee that is bolted to the plate. */
export async function walkCasting(page: Page, hands: Hands): Promise<void> {
  const { button } = namesOf(page)
  await drawCasting(page, hands)
  await hands.press(button('Vee'))
  await openStep(page, hands, 4)
  await hands.press(button('Straps over the vee'))
}

/** In a loose vee block on an angle plate, both pressed by straps from its shelf; a light cut, for straps alone hold the block. */
export async function walkLooseBlock(page: Page, hands: Hands): Promise<void> {
  const { button } = namesOf(page)
  await drawCasting(page, hands)
  await hands.press(button(/^Bore A/))
  await hands.fill(page.getByRole('textbox', { name: 'Depth of cut' }), '0.5')
  await openStep(page, hands, 3)
  await hands.press(button('Angle plate'))
  await hands.press(button('Vee block on A1'))
  await openStep(page, hands, 4)
  await hands.press(button('Straps over the vee'))
}
