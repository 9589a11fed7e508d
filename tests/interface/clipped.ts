/**
 * What does not fit into its place: figures that are cut off in their fields (a long name may be), words cut without an
 * ellipsis, buttons outside the window.
 */
import type { Page } from 'playwright-core'

/** As text: what the compiler adds to named functions is not known in the page. */
const LOOK = `(() => {
  const out = []
  // A window over all makes what is behind it no matter.
  const root = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document
  const named = (node) =>
    node.tagName.toLowerCase() + ' ' + (node.getAttribute('aria-label') ?? node.id) + ' "' + (node.textContent ?? '').trim().slice(0, 40) + '"'
  const wide = (node) => node.scrollWidth > node.clientWidth + 1
  for (const node of root.querySelectorAll('*')) {
    if (!node.checkVisibility({ visibilityProperty: true })) continue
    if (node.closest('.hidden, [inert], svg, [data-testid=picture]')) continue
    const style = getComputedStyle(node)
    if (node instanceof HTMLInputElement) {
      if (node.inputMode === 'decimal' && node.value !== '' && wide(node)) out.push('figures cut: ' + node.value + ' in ' + named(node))
      continue
    }
    const cuts = style.overflowX === 'hidden' || style.overflowX === 'clip'
    if (cuts && style.textOverflow !== 'ellipsis' && style.clipPath === 'none' && node.clientWidth > 1 && wide(node))
      out.push('cut: ' + named(node) + ' ' + node.scrollWidth + ' in ' + node.clientWidth)
    if (!(node instanceof HTMLButtonElement)) continue
    const box = node.getBoundingClientRect()
    if (box.left < -1 || box.right > innerWidth + 1) out.push('outside: ' + named(node))
    if (wide(node) && style.textOverflow !== 'ellipsis') out.push('words of a button cut: ' + named(node))
  }
  return out
})()`

export const clipped = (page: Page): Promise<string[]> => page.evaluate<string[]>(LOOK)
