/** Breaches of the accessibility rules that axe-core finds in a page, each with the place. */
import axe from 'axe-core'
import type { Page } from 'playwright-core'

interface Violation {
  readonly id: string
  readonly nodes: readonly { readonly target: readonly unknown[]; readonly failureSummary?: string }[]
}

export async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe.source)
  const found = (await page.evaluate(
    '(async () => (await axe.run(document, { resultTypes: ["violations"] })).violations)()',
  )) as Violation[]
  return found.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.target.join(' ')} ${n.failureSummary ?? ''}`))
}
