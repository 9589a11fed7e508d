import { expect, test } from 'vitest'
import type { Page } from 'playwright-core'
import { HANDS, type Hands } from './hands.ts'
import {
  fillShelfLibrary,
  MOST_SHELF_ACTIONS,
  walkBlock,
  walkCasting,
  walkLooseBlock,
} from './shelfScenario.ts'
import { onPage, text, useBench } from './window.ts'

const bench = useBench()

async function start(walk: (page: Page, hands: Hands) => Promise<void>, handsOf: (page: Page) => Hands) {
  await fillShelfLibrary(bench.folder())
  const page = await bench.open({ atStart: true, still: true })
  const hands = handsOf(page)
  await walk(page, hands)
  return { page, hands }
}
const stops = (page: Page) =>
  page.getByRole('region', { name: 'Findings' }).getByRole('button', { name: /^(stop|not judged)/ })
const size = async (page: Page) => {
  await page.keyboard.press('Alt+3')
  return page.getByTestId('shelf-size').innerText()
}

test.each(HANDS)(
  'a bearing block on an angle plate, from nothing to a verdict, by %s',
  async (_, handsOf) => {
    const { page, hands } = await start(walkBlock, handsOf)
    expect(hands.count).toBeLessThanOrEqual(MOST_SHELF_ACTIONS)
    await expect.poll(() => text(page, 'verdict')).toMatch(/^go/)
    expect(await stops(page).count()).toBe(0)
    expect(await size(page)).toBe('63.50 mm')
    await page.getByRole('button', { name: /^Undo: Put on/ }).click()
    await expect.poll(() => text(page, 'verdict')).toMatch(/^stop/)
  },
)

test.each(HANDS)('a round casting in a vee, from nothing to a verdict, by %s', async (_, handsOf) => {
  const { page, hands } = await start(walkCasting, handsOf)
  expect(hands.count).toBeLessThanOrEqual(MOST_SHELF_ACTIONS)
  await expect.poll(() => text(page, 'verdict')).toMatch(/^go/)
  expect(await stops(page).count()).toBe(0)
  // The middle of a round of 80 mm lies 40/sin 45° over a vee's bottom, and its lands half the mouth of 62 mm.
  expect(await size(page)).toBe(`${(40 / Math.sin(Math.PI / 4) - 31).toFixed(2)} mm`)
  await page.getByRole('button', { name: /^Undo: Put on/ }).click()
  await expect.poll(() => text(page, 'verdict')).toMatch(/^stop/)
})

test.each(HANDS)('the casting in a loose block, from nothing to a verdict, by %s', async (_, handsOf) => {
  const { page, hands } = await start(walkLooseBlock, handsOf)
  expect(hands.count).toBeLessThanOrEqual(MOST_SHELF_ACTIONS)
  await expect.poll(() => text(page, 'verdict')).toMatch(/^go/)
  expect(await stops(page).count()).toBe(0)
  // Under the axis a block of 50 mm, and of the round's middle over its lands what the vee bolted to the plate has.
  expect(await size(page)).toBe(`${(50 + 40 / Math.sin(Math.PI / 4) - 31).toFixed(2)} mm`)
})

test('in plan a loose block is dragged along its shelf, and caught where the round lies in it', async () => {
  const { page } = await start(walkLooseBlock, HANDS[0][1])
  const from = await onPage(page, -45, -70)
  const drag = async (by: number) => {
    await page.mouse.move(from.x, from.y)
    await page.mouse.down()
    await page.mouse.move(from.x + by, from.y, { steps: 4 })
  }
  await drag(40)
  await page.mouse.up()
  await page.getByRole('button', { name: 'Undo: Move V1' }).waitFor()
  await expect.poll(() => text(page, 'verdict')).toMatch(/^stop/)
  // Its place, to type, by Enter from the plate.
  await page.getByTestId('plate').focus()
  await page.keyboard.press('Enter')
  await expect.poll(() => page.getByRole('textbox', { name: 'Along' }).first().inputValue()).not.toBe('0')
  await page.getByRole('button', { name: 'Undo: Move V1' }).click()
  await expect.poll(() => text(page, 'verdict')).toMatch(/^go/)
  // Near to where the round lies in it, it goes there.
  await drag(3)
  await page.mouse.up()
  await expect.poll(() => text(page, 'verdict')).toMatch(/^go/)
})

test('under a finger the choice of views lies over no tool, and a short message is one line', async () => {
  await fillShelfLibrary(bench.folder())
  const page = await bench.open({ atStart: true, still: true, touch: true })
  await walkBlock(page, HANDS[0][1](page))
  const box = (name: string) => page.getByRole('button', { name, exact: true }).boundingBox()
  const [views, closer] = [(await box('Shelf'))!, (await box('Closer'))!]
  expect(views.y + views.height).toBeLessThanOrEqual(closer.y)
  const [said, cross] = [
    (await page.getByText('Put on: t1, t2.').boundingBox())!,
    (await box('Close this message'))!,
  ]
  expect(cross.y).toBeLessThan(said.y + said.height)
})

test('in the side view a shelf is dragged off, set back by one press, and typed', async () => {
  const { page } = await start(walkBlock, HANDS[0][1])
  await page.getByRole('group', { name: 'Seen from' }).getByRole('button', { name: 'Side' }).click()
  // On the end of the shelf, before the part.
  const from = await onPage(page, 112, -70)
  const camera = () => page.getByTestId('plate').getAttribute('data-camera')
  const before = await camera()
  await page.mouse.move(from.x, from.y)
  await page.mouse.down()
  for (const by of [30, -30, 30]) {
    await page.mouse.move(from.x, from.y + by, { steps: 4 })
    // The verdict beside it takes now one line, now two: the picture stays under the hand.
    expect(await camera()).toBe(before)
  }
  await page.mouse.up()
  await page.getByRole('button', { name: 'Undo: Move A1' }).waitFor()
  await expect.poll(() => text(page, 'verdict')).toMatch(/^stop/)
  await page.keyboard.press('Alt+3')
  await page.getByRole('button', { name: 'Move A1 there' }).click()
  await expect.poll(() => text(page, 'verdict')).toMatch(/^go/)
  const field = page.getByRole('group', { name: 'Its place, to type' }).getByRole('textbox')
  await field.fill('70')
  await field.press('Enter')
  await expect.poll(() => text(page, 'verdict')).toMatch(/^stop/)
  expect(await page.getByRole('status', { name: 'Size to set' }).innerText()).toMatch(
    /A1 stands at 70\.00 mm/,
  )
})

test('a part on a shelf is moved along the spindle by keys in the side view', async () => {
  const { page } = await start(walkBlock, HANDS[0][1])
  await page.getByTestId('plate').focus()
  await page.keyboard.press('Escape')
  await page.keyboard.press('v')
  await page.keyboard.press('.')
  await page.keyboard.press('ArrowRight')
  await page.getByRole('button', { name: 'Undo: Move the part' }).waitFor()
  await page.keyboard.press('Alt+3')
  expect(await page.getByRole('textbox', { name: "Plate to the part's back" }).first().inputValue()).toBe(
    '11',
  )
})

test('square to the shelf a bolt is dragged along the slot, which it keeps to', async () => {
  const { page } = await start(walkBlock, HANDS[0][1])
  await page.getByRole('group', { name: 'Seen from' }).getByRole('button', { name: 'Shelf' }).click()
  await page.getByTestId('plate').focus()
  const place = page.getByRole('group', { name: 'Its place, to type' })
  const along = await place.getByRole('textbox', { name: 'Along' }).inputValue()
  const out = Number(await place.getByRole('textbox', { name: 'Out from the plate' }).inputValue())
  const from = await onPage(page, Number(along), out)
  const to = await onPage(page, Number(along) + 1, out + 5)
  await page.mouse.move(from.x, from.y)
  await page.mouse.down()
  await page.mouse.move(to.x, to.y, { steps: 4 })
  await page.mouse.up()
  expect(await place.getByRole('textbox', { name: 'Along' }).inputValue()).toBe(along)
  expect(Number(await place.getByRole('textbox', { name: 'Out from the plate' }).inputValue())).toBeCloseTo(
    out + 5,
    0,
  )
})
