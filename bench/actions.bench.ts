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
import { startBench } from '../tests/interface/window.ts'

const HANDS: readonly (readonly [string, (page: Page) => Hands])[] = [
  ['mouse', (page) => new MouseHands(page)],
  ['keys alone', (page) => new KeyHands(page)],
]

/** Lines to print. */
export async function actionsBench(): Promise<string[]> {
  const bench = await startBench().catch((error: unknown) => {
    console.log(`actions: not counted, ${error instanceof Error ? error.message : String(error)}`)
    return null
  })
  if (!bench) return []
  try {
    await fillLibrary(bench.folder)
    const lines: string[] = []
    for (const [name, handsOf] of HANDS) {
      const page = await bench.open({ atStart: true })
      await page.evaluate('window.print = () => undefined')
      const hands = handsOf(page)
      await walk(page, hands)
      lines.push(
        `actions: from nothing to a printed sheet by ${name}: ${hands.count}, to be at most ${MOST_ACTIONS}`,
      )
      await page.context().close()
    }
    return lines
  } finally {
    await bench.close()
  }
}
