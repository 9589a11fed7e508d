/** How many actions it takes from nothing to a printed sheet, by mouse and by keys alone. */
import { HANDS } from '../tests/interface/hands.ts'
import { fillLibrary, MOST_ACTIONS, walk } from '../tests/interface/scenario.ts'
import type { Bench } from '../tests/interface/window.ts'
import { inBrowser } from './browser.ts'

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
