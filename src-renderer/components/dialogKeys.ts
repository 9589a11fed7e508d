/** Where the keyboard goes in a dialog. A field inside `data-apart` is beside what the dialog asks: Enter leaves it be. */
const FIELD = 'input:not(:disabled, [tabindex="-1"]), select:not(:disabled), textarea:not(:disabled)'
const APART = '[data-apart]'

const isFile = (node: Element) => node instanceof HTMLInputElement && node.type === 'file'
const isTyped = (node: Element) =>
  node instanceof HTMLTextAreaElement ||
  (node instanceof HTMLInputElement && !['checkbox', 'radio', 'range', 'button'].includes(node.type))

/** The fields that are asked for, in the order of Tab. */
export function askedFields(form: HTMLElement): readonly HTMLElement[] {
  return [...form.querySelectorAll<HTMLElement>(FIELD)].filter(
    (node) => node.closest(APART) === null && node.checkVisibility(),
  )
}

/** The first asked field whose text was refused. */
export const faultyField = (form: HTMLElement): HTMLElement | null =>
  [...form.querySelectorAll<HTMLElement>('[aria-invalid="true"]')].find((n) => n.closest(APART) === null) ??
  null

/** The first asked field that stands empty. */
export const emptyField = (form: HTMLElement): HTMLElement | null =>
  askedFields(form).find((n) => isTyped(n) && (n as HTMLInputElement).value.trim() === '') ?? null

/** Whether closing would lose what this field was given: a choice among a few is soon made again. */
export const isWork = (target: EventTarget | null): boolean =>
  target instanceof Element && isTyped(target) && target.closest(APART) === null

/** What Enter means where it was pressed: `on` to the next field, `main` the main thing, `own` what the node does itself. */
export function meaningOfEnter(event: KeyboardEvent): 'on' | 'main' | 'own' | 'nothing' {
  const node = event.target
  const isArea = node instanceof HTMLTextAreaElement
  // A key that is still held from opening the dialog answers nothing in it.
  if (event.repeat && !isArea) return 'nothing'
  if (event.ctrlKey || event.metaKey) return 'main'
  if (!(node instanceof HTMLElement) || isArea || isFile(node)) return 'own'
  return node.matches('input, select') && node.closest(APART) === null ? 'on' : 'own'
}

/** Ready to be typed over. */
export function focusField(node: HTMLElement | null | undefined): void {
  node?.focus()
  if (node instanceof HTMLInputElement && isTyped(node) && !isFile(node)) node.select()
}
