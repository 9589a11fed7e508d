/** Puts a drawing onto the page as SVG elements, so that it is set in the page's own fonts and prints as lines. */
import type { Drawing } from '../../../src-core/drawing/model/model.ts'
import { writeSvg } from '../../../src-core/drawing/writers/writeSvg.ts'

/** The drawing's SVG root. The writer escapes every text, and the page's policy runs no script in it. */
export function paperElement(drawing: Drawing): SVGElement {
  const parsed = new DOMParser().parseFromString(writeSvg(drawing), 'image/svg+xml')
  const root = document.importNode(parsed.documentElement, true) as unknown as SVGElement
  // Two sheets on one page would have the same names.
  for (const node of root.querySelectorAll('[id]')) node.removeAttribute('id')
  root.querySelector('title')?.remove()
  root.setAttribute('role', 'img')
  root.setAttribute('aria-label', `Setup sheet: ${drawing.title}`)
  return root
}
