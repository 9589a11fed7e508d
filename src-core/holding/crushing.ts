/**
 * Whether what carries the part, or a toe, is pressed beyond yield. Mean pressure p = F/A with the high side of the
 * preload, against the weakest steel that packing is made of: what yields sinks in, and the grip goes with it.
 */
import { called, finding, type Finding } from '../findings/finding.ts'
import { polygonArea } from '../geometry/polygon.ts'
import { toeLength } from '../hardware/toe.ts'
import { WEAKEST_STEEL } from '../hardware/steels.ts'
import { findingsInPlate } from '../mounting/shelf.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter, type Formatter } from '../units/format.ts'
import type { ClampState } from './clampState.ts'
import { partContact } from './partContact.ts'
import { partStand } from './stand.ts'

/** N/mm² that is believed of steel that nothing is known of. */
const YIELDS_AT = WEAKEST_STEEL.yieldsAt

export function crushFindings(mounted: Mounted, states: readonly ClampState[]): readonly Finding[] {
  const stand = partStand(mounted)
  return findingsInPlate(stand, crushedOn(stand, states))
}

/** @param mounted as it looks from what carries the part. */
function crushedOn(mounted: Mounted, states: readonly ClampState[]): Finding[] {
  const contact = partContact(mounted)
  const own = states.flatMap((s) => {
    const packing = contact.find((c) => c.id === s.piece.item.id)
    return [
      ...(packing ? crushed(mounted, s, 'packing', polygonArea(packing.on)) : []),
      ...toeCrush(mounted, s),
    ]
  })
  return own.length > 0 ? own : seatCrush(mounted, states)
}

function toeCrush(mounted: Mounted, state: ClampState): Finding[] {
  const { item } = state.piece
  return item.kind === 'clamp' ? crushed(mounted, state, 'toe', toeLength(item.strap) * item.strap.width) : []
}

function crushed(mounted: Mounted, { piece, high, at }: ClampState, what: string, area: number): Finding[] {
  if (!(high > YIELDS_AT * area)) return []
  const fmt = formatter(mounted.job.displayUnits)
  const name = what === 'toe' ? `The toe of ${called(piece.item)}` : `The packing of ${called(piece.item)}`
  const cure = what === 'toe' ? 'Use a wider strap' : 'Use wider packing'
  const message = `${name} is crushed: ${fmt.force(high)} ${pressureWords(fmt, high, area)}. ${cure}, or tighten less.`
  return [finding('stop', 'pressed-beyond-yield', piece.item.id, message, at)]
}

/** All presses on all that carries the part. */
function seatCrush(mounted: Mounted, states: readonly ClampState[]): Finding[] {
  const area = partContact(mounted).reduce((sum, c) => sum + polygonArea(c.on), 0)
  const high = states.reduce((sum, s) => sum + s.high, 0)
  if (area <= 0 || high <= YIELDS_AT * area) return []
  const fmt = formatter(mounted.job.displayUnits)
  const message = `What carries the part is crushed: all clamps together press with ${fmt.force(high)} ${pressureWords(fmt, high, area)}. Use wider packing, or give the part a broader seat.`
  return [finding('stop', 'pressed-beyond-yield', 'setup', message)]
}

const pressureWords = (fmt: Formatter, force: number, area: number): string =>
  `on ${fmt.area(area)}, ${fmt.stress(force / area)}, where ${WEAKEST_STEEL.name} yields at ${fmt.stress(YIELDS_AT)}`
