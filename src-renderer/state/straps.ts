/** Four straps put on in the window: at once, or once the part has its outline. */
import type { ClampPattern } from '../../src-core/hardware/usualClamp.ts'
import { putStraps, strapsWords, WANTED, type StrapsPut } from '../editor/edits/fourStraps.ts'
import type { App } from './app.svelte.ts'
import type { Notice } from './session.svelte.ts'

/** What was put on, and what was refused with its reason. */
export const strapsNotice = (put: StrapsPut): Notice => ({
  kind: put.ids.length === put.wanted ? 'done' : 'fault',
  text: strapsWords(put),
})

type Parts = Pick<App, 'jobs' | 'session' | 'results'>

/** Spread round the axis, each where it holds. */
export function putFourStraps(
  { jobs, session, results }: Parts,
  pattern: ClampPattern,
  wanted: number = WANTED,
): void {
  const put = putStraps(jobs.job, results.setup.id, pattern, wanted)
  if (put.ids.length > 0) jobs.edit(`Put on ${put.ids.join(', ')}`, () => put.job)
  session.notice = strapsNotice(put)
}

/** Those that a new job waits with, now that its part is there. */
export function putStrapsToCome(parts: Parts): void {
  const { session, results } = parts
  const pattern = session.strapsToCome
  session.strapsToCome = null
  if (pattern && results.mounted) putFourStraps(parts, pattern)
}
