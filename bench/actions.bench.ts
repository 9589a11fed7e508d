/** How many actions it takes from nothing to a printed sheet, by mouse and by keys alone. */
import type { Page } from 'playwright-core'
import {
  fillLibrary,
  KeyHands,
  MOST_ACTIONS,
  MouseHands,
  walk,
  type Hands,
} from '../tests/interface/scenario.ts'
import type { Bench } from '../tests/interface/window.ts'
import { inBrowser } from './browser.ts'

const HANDS: readonly (readonly [string, (page: Page) => Hands])[] = [
  ['mouse', (page) => new MouseHands(page)],
  ['keys alone', (page) => new KeyHands(page)],
]

/** Lines to print. */
export const actionsBench = () => inBrowser('actions', lines)

async function lines(bench: Bench): Promise<string[]> {
  await fillLibrary(bench.folder)
  const found: string[] = []
  for (const [name, handsOf] of HANDS) {
    const page = await bench.open({ atStart: true })
    await page.evaluate('window.print = () => undefined')
    const hands = handsOf(page)
    await walk(page, hands)
    found.push(
      `actions: from nothing to a printed sheet by ${name}: ${hands.count}, to be at most ${MOST_ACTIONS}`,
    )
    await page.context().close()
  }
  return found
}
