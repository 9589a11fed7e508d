/** What a walk through the window is done with: the mouse, or keys alone. Each action is counted. */
import type { Locator, Page } from 'playwright-core'

/** Leaves a field: on to the next, or what it holds is done. */
type Leave = 'Tab' | 'Enter'

export interface Hands {
  readonly count: number
  /** A button; by keys `key`, or the button reached and pressed. */
  press(button: Locator, key?: string): Promise<void>
  fill(field: Locator, text: string, leave?: Leave): Promise<void>
  /** An option by the first word of its label. */
  choose(field: Locator, word: string): Promise<void>
}

export class MouseHands implements Hands {
  readonly #page: Page
  count = 0

  constructor(page: Page) {
    this.#page = page
  }
  async press(button: Locator): Promise<void> {
    await button.click()
    this.count++
  }
  async fill(field: Locator, text: string, leave: Leave = 'Tab'): Promise<void> {
    await field.click({ clickCount: 3 })
    await this.#page.keyboard.type(text)
    await this.#page.keyboard.press(leave)
    this.count++
  }
  async choose(field: Locator, word: string): Promise<void> {
    const labels = await field.locator('option').allInnerTexts()
    await field.selectOption({ label: labels.find((l) => l.startsWith(word))! })
    this.count++
  }
}

/** Touches the page by its keyboard only: a field further on is reached by as many presses as it takes. */
export class KeyHands implements Hands {
  readonly #page: Page
  count = 0

  constructor(page: Page) {
    this.#page = page
  }
  async press(button: Locator, key?: string): Promise<void> {
    if (key === undefined) await this.#reach(button)
    await this.#key(key ?? 'Enter')
  }
  async fill(field: Locator, text: string, leave: Leave = 'Tab'): Promise<void> {
    await this.#reach(field)
    await this.#page.keyboard.type(text)
    await this.#key(leave)
  }
  async choose(field: Locator, word: string): Promise<void> {
    await this.#reach(field)
    await this.#page.keyboard.type(word)
    await this.#key('Tab')
  }

  async #key(key: string): Promise<void> {
    await this.#page.keyboard.press(key)
    this.count++
  }
  /** By Tab, with something to see where the keyboard is at each stop. */
  async #reach(target: Locator): Promise<void> {
    await target.waitFor()
    const isThere = () => target.evaluate((node) => node === document.activeElement)
    for (let i = 0; i < 2 && !(await isThere()); i++) await this.#page.waitForTimeout(50)
    for (let steps = 0; !(await isThere()); steps++) {
      if (steps > 60) throw new Error(`not reached by Tab: ${target}`)
      await this.#key('Tab')
    }
    const shown = await target.evaluate((node) => node.matches(':focus-visible'))
    if (!shown) throw new Error(`the focus is not shown: ${target}`)
  }
}

export const HANDS = [
  ['the mouse', (page: Page): Hands => new MouseHands(page)],
  ['keys alone', (page: Page): Hands => new KeyHands(page)],
] as const

/** From the first screen: what the part is and its outline, by the first word of that. */
export async function drawPart(page: Page, hands: Hands, title: string, outline: string): Promise<void> {
  const { button, box, list } = namesOf(page)
  await hands.press(button(/^Draw a part/))
  await hands.fill(box('What is it?'), title)
  await hands.choose(list('Outline'), outline)
}

/** Buttons of the page, fields of the dialog, by their names. */
export function namesOf(page: Page) {
  const dialog = page.getByRole('dialog')
  return {
    dialog,
    button: (name: string | RegExp) => page.getByRole('button', { name, exact: true }),
    box: (name: string) => dialog.getByRole('textbox', { name, exact: true }),
    list: (name: string) => dialog.getByRole('combobox', { name, exact: true }),
  }
}
