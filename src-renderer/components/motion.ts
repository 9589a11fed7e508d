/** Short, calm motion where something moves place, so that the eye can follow; none where the system asks for none. */
import { prefersReducedMotion } from 'svelte/motion'

/** ms: long enough to be followed, too short to be waited for. */
export const GLIDE = 180

/** A length of time, or none. */
export const calm = (ms: number): number => (prefersReducedMotion.current ? 0 : ms)

export type Places = ReadonlyMap<HTMLElement, DOMRect>

export const placesOf = (nodes: Iterable<HTMLElement>): Places =>
  new Map([...nodes].map((node) => [node, node.getBoundingClientRect()]))

/** Lets each go from where it was to where it is. */
export function glideFrom(before: Places): void {
  const duration = calm(GLIDE)
  if (duration === 0) return
  for (const [node, was] of before) {
    if (!node.isConnected || was.width === 0) continue
    const now = node.getBoundingClientRect()
    const [x, y] = [was.left - now.left, was.top - now.top]
    if (Math.hypot(x, y) > 1)
      node.animate([{ transform: `translate(${x}px, ${y}px)` }, { transform: 'none' }], {
        duration,
        easing: 'ease-out',
      })
  }
}
