/** The keyboard goes back to where it was, or to the plate where that is gone. */
import { onDestroy, tick } from 'svelte'

/** Unless something else has taken it meanwhile. */
export function giveBackTo(opener: Element | null): void {
  if (document.activeElement !== document.body) return
  if (opener instanceof HTMLElement && opener !== document.body && opener.isConnected) opener.focus()
  else document.querySelector<HTMLElement>('[data-plate]')?.focus()
}

/**
 * For what fills the window: to be called while it is made. `stands`: whether what had the keyboard still means what it
 * did; else the plate has it.
 */
export function givesBack(stands: () => boolean = () => true): void {
  const opener = document.activeElement
  onDestroy(() => void tick().then(() => giveBackTo(stands() ? opener : null)))
}
