/** The key that the host handed over with the page's address; kept for this window alone, over a reload too. */
import { KEY_FRAGMENT } from '../../src-core/bridge/pageKey.ts'

const STORED = 'evenswing-key'

/** Takes the key out of the address, where it would stay to be seen; empty where there is none. */
export function takeKey(): string {
  if (typeof location === 'undefined' || typeof sessionStorage === 'undefined') return ''
  const given = new URLSearchParams(location.hash.slice(1)).get(KEY_FRAGMENT)
  try {
    if (given === null) return sessionStorage.getItem(STORED) ?? ''
    sessionStorage.setItem(STORED, given)
  } catch {
    // A browser that keeps nothing: the key lasts until the page is loaded again.
  }
  if (given !== null) history.replaceState(null, '', location.pathname)
  return given ?? ''
}
