/** Names of the channels between preload and main; they never reach the page. */
import type { HostVerb } from '../../src-core/bridge/contract.ts'

export const channelOf = (verb: HostVerb): string => `evenswing:${verb}`
