/** What the system says about how its windows should look. */
import type { Session } from './session.svelte.ts'

type Look = Pick<Session, 'systemDark' | 'forcedColours' | 'strong'>

/** Follows the system until the function that comes back is called. */
export function followSystem(look: Look): () => void {
  const dark = matchMedia('(prefers-color-scheme: dark)')
  const forced = matchMedia('(forced-colors: active)')
  const more = matchMedia('(prefers-contrast: more)')
  const follow = () => {
    look.systemDark = dark.matches
    look.forcedColours = forced.matches
    look.strong = forced.matches || more.matches
  }
  follow()
  const all = [dark, forced, more]
  for (const query of all) query.addEventListener('change', follow)
  return () => {
    for (const query of all) query.removeEventListener('change', follow)
  }
}
