/** Names of the channels between preload and main; they never reach the page. */
import type { HostVerb } from '../../src-core/bridge/contract.ts'

export const channelOf = (verb: HostVerb): string => `evenswing:${verb}`

/** Main tells the page something. */
export const EVENT_CHANNEL = 'evenswing:event'
/** The page listens from now on. */
export const LISTEN_CHANNEL = 'evenswing:listen'
/** The preload has the path of a file that was dropped on the window. */
export const ADOPT_CHANNEL = 'evenswing:adopt'
