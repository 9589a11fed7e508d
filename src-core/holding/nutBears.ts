/**
 * Whether a nut carries its stud, and whether what it presses on carries the nut: by its height, its width and the area
 * that is left under it beside slot or hole. mm, N, N/mm².
 */
import { called, finding } from '../findings/finding.ts'
import { discArea } from '../geometry/discArea.ts'
import { circleRing } from '../geometry/edges.ts'
import { inRegion, nearestTo } from '../geometry/nearest.ts'
import { polygonArea, polygonDifference, polygonIntersection } from '../geometry/polygon.ts'
import type { Polygons } from '../geometry/polygonBox.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point, Ring } from '../geometry/types.ts'
import type { Thread } from '../hardware/threads.ts'
import type { Hardware } from '../job/schema.ts'
import { discPolygons, ringPolygons } from '../mounting/material.ts'
import type { Mounted, MountedFastening, MountedPiece, MountedSolid } from '../mounting/types.ts'
import { formatter, type Formatter } from '../units/format.ts'
import type { Ruling } from './ruling.ts'
import { openingsUnder, stackHoles, type Opening } from './studFit.ts'
import { hangsAt, pressesOver, IRON_SINKS_AT, sinksIn, SINKS_AT } from './washerContact.ts'

/** Of the thread's diameter: a full nut is as high at the least, a thin one at the least. ISO 898-2, from memory. */
const HIGH = { full: 0.8, thin: 0.45 } as const
/** N/mm² that a thin nut carries, class 04 of ISO 898-2, from memory. */
const THIN_CARRIES = 380
/** Of the thread's diameter: the narrowest nuts there are are 1.4 of it across their flats. Own choice. */
const NARROW = 1.25

/** mm² of a disc of a diameter that a slot of a width through its middle leaves. */
export function besideSlot(diameter: number, width: number): number {
  const [r, a] = [diameter / 2, Math.min(width, diameter) / 2]
  return 2 * (r ** 2 * Math.acos(a / r) - a * Math.sqrt(r ** 2 - a ** 2))
}

/**
 * Of one stud of a piece.
 * @param high N, the most that it pulls with; null where it is not known.
 */
export function nutRulings(
  mounted: Mounted,
  piece: MountedPiece,
  f: MountedFastening,
  high: number | null,
): Ruling[] {
  if (!f.thread) return []
  const fmt = formatter(mounted.job.displayUnits)
  const { item } = piece
  return [
    ...fitsStud(item, f, f.thread, high, fmt),
    ...openingsUnder(mounted, item, f.at).flatMap((o) => openingRulings(item, f, o, high, fmt)),
    ...pileRulings(mounted, piece, f, f.thread, high, fmt),
  ]
}

const stop = (
  code: 'nut-unfit' | 'washer-too-small' | 'washer-off',
  item: Hardware,
  message: string,
  { at }: MountedFastening,
): Ruling => ({ finding: finding('stop', code, item.id, message, at), makes: 'nothing' })

function fitsStud(
  item: Hardware,
  f: MountedFastening,
  thread: Thread,
  high: number | null,
  fmt: Formatter,
): Ruling[] {
  const { flats, height } = f.nut
  const d = thread.diameter
  const name = called(item)
  if (flats < NARROW * d - TOLERANCE.sum)
    return [
      stop(
        'nut-unfit',
        item,
        `The nut of ${name} is none for its stud: ${fmt.length(flats)} across its flats on ${thread.name}. Check its size.`,
        f,
      ),
    ]
  if (height >= HIGH.full * d - TOLERANCE.sum) return []
  const carries = height < HIGH.thin * d - TOLERANCE.sum ? 0 : THIN_CARRIES * thread.stressArea
  if (carries > 0 && (high ?? 0) <= carries) return []
  const why =
    carries > 0
      ? `a thin one carries ${fmt.force(carries)} and would get ${fmt.force(high!)}`
      : 'its thread strips'
  const message = `The nut of ${name} is too thin for its stud: ${why}. Use a full nut, ${fmt.length(HIGH.full * d)} high or more; it is ${fmt.length(height)} high on ${thread.name}.`
  return [stop('nut-unfit', item, message, f)]
}

/** What an opening leaves under a nut and its washer. */
function openingRulings(
  item: Hardware,
  f: MountedFastening,
  { what, width, slot, iron }: Opening,
  high: number | null,
  fmt: Formatter,
): Ruling[] {
  const name = called(item)
  if (f.washer.diameter <= width + TOLERANCE.sum) {
    const message = `The washer of ${name} falls into ${what}: it is ${fmt.length(f.washer.diameter)} across, the opening ${fmt.length(width)} wide. Use a larger washer.`
    return [stop('washer-too-small', item, message, f)]
  }
  const over = pressesOver(f)
  if (over <= width + TOLERANCE.sum) {
    const message = `The nut of ${name} pulls its washer into ${what}: the washer is ${fmt.length(f.washer.thickness)} thick, and the nut ${fmt.length(f.nut.flats)} wide over an opening of ${fmt.length(width)}. Use a thicker washer.`
    return [stop('washer-too-small', item, message, f)]
  }
  const area = slot ? besideSlot(over, width) : discArea(over) - discArea(width)
  return sinksIn(item, f, `beside ${what}`, area, high, fmt, iron ? IRON_SINKS_AT : SINKS_AT)
}

const BORED: ReadonlySet<MountedSolid['role']> = new Set(['weight', 'block', 'fixture'])

/** What is bored for a stud, undermost first; the hole through it as wide as it is said to be, else as the stud. */
interface Bored {
  readonly ring: Ring
  readonly hole: number
}

/** Whether the nut has enough of a block under it, and each piece of a stack of the one on it. */
function pileRulings(
  mounted: Mounted,
  { item, solids }: MountedPiece,
  f: MountedFastening,
  thread: Thread,
  high: number | null,
  fmt: Formatter,
): Ruling[] {
  const holes = stackHoles(mounted.job, item)
  const pile = solids
    .filter((s) => BORED.has(s.role) && !s.lies)
    .map(({ ring }, i): Bored => ({ ring, hole: Math.max(thread.diameter, holes[i]?.hole ?? 0) }))
  // Of a stud beside them the joint says that its nut has nothing under it.
  if (pile.length === 0 || !pile.every((p) => inRegion({ outline: p.ring, holes: [] }, f.at))) return []
  const over = pressesOver(f)
  const nut: Bored = { ring: circleRing(f.at, over), hole: 0 }
  const top = pile.at(-1)!
  const rim = Math.min(over, f.nut.flats)
  if (nearestTo(top.ring, f.at).distance < rim / 2 && hangsAt(leftOf(top, f.at), f.at, rim)) {
    const message = `The nut of ${called(item)} does not lie on it all round: its edge is too near to the stud, or the hole too wide. Put the stud further in, or use a wider piece.`
    return [stop('washer-off', item, message, f)]
  }
  return pile.flatMap((p, i) => {
    const above = pile[i + 1] ?? nut
    if (high !== null && high <= SINKS_AT * roundLeft(p, above, f.at)) return []
    const area = polygonArea(polygonIntersection(leftOf(p, f.at), leftOf(above, f.at)))
    if (area <= TOLERANCE.clashArea) {
      const message = `Nothing is left of ${called(item)} round its stud that a nut could hold: a hole of ${fmt.length(p.hole)} takes all of it. Check the sizes, or use a wider piece.`
      return [stop('washer-too-small', item, message, f)]
    }
    return sinksIn(item, f, pile[i + 1] ? 'between its pieces' : 'on what it holds', area, high, fmt)
  })
}

/** mm² round a stud that two pieces share at the least: what both have of it all round, less the wider hole. */
function roundLeft(a: Bored, b: Bored, at: Point): number {
  const room = Math.min(nearestTo(a.ring, at).distance, nearestTo(b.ring, at).distance)
  return discArea(2 * room) - discArea(Math.max(a.hole, b.hole))
}

const leftOf = ({ ring, hole }: Bored, at: Point): Polygons =>
  hole > 0 ? polygonDifference(ringPolygons(ring), discPolygons(at, hole)) : ringPolygons(ring)
