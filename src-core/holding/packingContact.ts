/** Whether packing really lies between ${below} and the part. */
import { called, finding, type Finding } from '../findings/finding.ts'
import { polygonArea, polygonIntersection } from '../geometry/polygon.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import { isBox } from '../job/schema.ts'
import { missesShelf, SEAT_PLAY } from '../mounting/shelfSize.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { keptFor } from '../mounting/kept.ts'
import { isCarried, packingItems, packingOf, type Carried, type Packing } from './packing.ts'
import { partContact } from './partContact.ts'
import { offShelf } from './offShelf.ts'
import { offVee, veeOf } from './veeSeat.ts'
import { partStand, standWords } from './stand.ts'
import { underTwins } from './twinJoint.ts'

/** Of all packing and of the seat that it makes. */
export const packingFindings = keptFor(judgePacking, (mounted) => [
  ...packingItems(mounted),
  ...mounted.setup.hardware.filter((h) => h.kind === 'twin'),
])

function judgePacking(mounted: Mounted): readonly Finding[] {
  const all = packingOf(mounted)
  const contact = partContact(mounted)
  const twins = underTwins(mounted)
  return [
    ...(carriesPart(mounted) ? seatFindings(mounted, contact) : []),
    ...all.flatMap((p) => (twins.has(p.piece.item.id) ? [] : pieceFindings(mounted, all, contact, p))),
  ]
}

/** Not of the plate under a part on a shelf, nor of a shelf beside it. */
const carriesPart = (mounted: Mounted): boolean =>
  mounted.shelf ? mounted.shelf.carriesPart : partStand(mounted) === mounted

function seatFindings(mounted: Mounted, contact: readonly Carried[]): Finding[] {
  if (veeOf(mounted)) return offVee(mounted)
  if (contact.length > 0) return []
  const { setup, job, partFront } = mounted
  const seat = formatter(job.displayUnits).length(setup.packing)
  const below = setup.seat ? `sub-plate ${setup.seat.on}` : standWords(mounted)
  if (mounted.shelf && (setup.packing <= 0 || missesShelf(mounted) !== null))
    return [offShelf(mounted, mounted.shelf)]
  const message =
    setup.packing > 0
      ? `Nothing carries the part: it is said to stand on ${seat} of packing, but no piece of packing ${seat} high lies between ${below} and the part. Put one under each toe, or set the packing to 0.`
      : `Nothing carries the part: no face of it lies on ${below}. Give it packing, or check the heights of its bodies; its front is ${formatter(job.displayUnits).length(partFront)} from the plate.`
  return [finding('stop', 'part-not-carried', 'setup', message)]
}

function pieceFindings(
  mounted: Mounted,
  all: readonly Packing[],
  contact: readonly Carried[],
  p: Packing,
): Finding[] {
  const fmt = formatter(mounted.job.displayUnits)
  const { item, at } = p.piece
  const name = item.kind === 'packing' ? `Packing ${called(item)}` : `The packing of ${called(item)}`
  const { seat } = mounted
  const { z0, z1 } = p.solid
  const over = overWords(p.stand?.over ?? [])
  if (!isCarried(all, p)) {
    const below = z0 - SEAT_PLAY > 0
    const message = below
      ? `${name} hangs in the air: nothing ${fmt.length(z0)} high carries it. Lower it onto the plate, or put a piece of that height under it.`
      : z0 < -SEAT_PLAY
        ? `${name} stands ${fmt.length(-z0)} inside the plate. Set its base to 0.`
        : `${name} does not stand on the plate: it hangs over ${over}, only ${fmt.percent(p.stand?.share ?? 0)} of it is carried. Move it onto solid plate, or use a wider piece.`
    return [finding('stop', 'packing-not-carried', item.id, message, at)]
  }
  if (contact.some((c) => c.id === item.id) || all.some((q) => q !== p && restsOn(q, p))) return []
  const under = p.carries !== null
  if (under && z1 < seat - SEAT_PLAY) {
    return idle(
      p,
      `${name} is ${fmt.length(seat - z1)} too low to carry the part`,
      `Pack it up to ${fmt.length(seat)}, or take it out`,
    )
  }
  if (under && Math.abs(z1 - seat) <= SEAT_PLAY) {
    const message = `${name} tips under the part: what the part lies on hangs over ${over}. Move it onto solid plate.`
    return [finding('stop', 'packing-not-carried', item.id, message, at)]
  }
  return idle(
    p,
    `${name} does not lie under the part and carries nothing`,
    'Move it under the part, or take it out',
  )
}

/** What nothing presses on the plate flies off it, if it has no bolts of its own. */
function idle({ piece: { item, at } }: Packing, what: string, cure: string): Finding[] {
  const bolted = isBox(item) && (item.held?.length ?? 0) > 0
  return bolted
    ? [finding('caution', 'packing-idle', item.id, `${what}. ${cure}.`, at)]
    : [finding('stop', 'packing-idle', item.id, `${what}: it lies loose. ${cure}, before it flies off.`, at)]
}

const restsOn = (upper: Packing, lower: Packing): boolean =>
  Math.abs(upper.solid.z0 - lower.solid.z1) <= SEAT_PLAY &&
  polygonArea(polygonIntersection(upper.polygons, lower.polygons)) > TOLERANCE.clashArea

const overWords = (over: readonly string[]): string => over.join(' and ') || 'an edge'
