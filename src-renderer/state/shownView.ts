/** Which picture of the setup stands in the middle: what is asked for, as far as there is something to show. */
import { strapStand } from '../../src-core/holding/stand.ts'
import type { Mounted } from '../../src-core/mounting/types.ts'
import type { App } from './app.svelte.ts'
import type { ViewName } from './session.svelte.ts'

/** The setup as it looks from the shelf that the part is seated on, of a loose block from that below it, or else the first that carries something. */
export const shelfView = (mounted: Mounted | null): Mounted | null => {
  const stand = mounted && strapStand(mounted)
  return stand?.shelf ? stand : (mounted?.shelves?.[0] ?? null)
}

export function shownView({ session, draw, results }: Pick<App, 'session' | 'draw' | 'results'>): ViewName {
  const { view } = session
  if (draw.active || session.spindleTurn !== null || !results.mounted) return 'plan'
  return view === 'shelf' && !shelfView(results.mounted) ? 'plan' : view
}
