/** Whether each stud goes into the slot or hole behind it, through what it holds, and is as long as it must be. */
import type { FindingCode, SeverityOf } from '../findings/codes.ts'
import { called, finding } from '../findings/finding.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import { findThread, type Thread } from '../hardware/threads.ts'
import type { Hardware, Job } from '../job/schema.ts'
import { BEYOND_NUT } from '../mounting/fastening.ts'
import { anchorUnder } from '../mounting/fixtures.ts'
import { anchorsBy, type Anchor } from '../mounting/plateFace.ts'
import { capital } from '../words/capital.ts'
import type { Mounted, MountedFastening, MountedPiece } from '../mounting/types.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { keptPer } from '../mounting/kept.ts'
import { standing, standWords } from './stand.ts'
import type { Ruling } from './ruling.ts'

/** mm by which an opening may be wider than its stud before it is worth a word. Own choice. */
const PLAY = 2
/** Diameters that a stud may stand out of its nut before it is worth a word. Own choice. */
const STANDS_OUT = 1.5
/** mm by which a tapped hole may be typed wider than its thread: what is wider has none. Own choice. */
const TAPPED_WIDE = 0.5

/** A bolt of a piece where it goes into the plate; what is not known of it is null. */
export interface BoltPlace {
  readonly piece: MountedPiece
  readonly at: Point
  readonly thread: Thread | null
  readonly fastening: MountedFastening | null
  /** What it goes into; null over solid plate. */
  readonly anchor: Anchor | null
}

/** Every bolt that is put into the plate. A piece of unknown bolts stands on one at its station; packing has none. */
export const boltPlaces = (mounted: Mounted): BoltPlace[] =>
  standing(mounted).flatMap((p) => boltPlacesOf(mounted, p))

export const boltPlacesOf = keptPer((mounted, piece): readonly BoltPlace[] => {
  const { item, at, fastenings } = piece
  const place = (p: Point, thread: Thread | null, fastening: MountedFastening | null): BoltPlace => ({
    piece,
    at: p,
    thread,
    fastening,
    anchor: anchorUnder(mounted, item.id, p),
  })
  if (fastenings.length > 0) return fastenings.map((f) => place(f.at, f.thread, f))
  if (item.kind === 'press') return [place(at, findThread(item.press?.thread ?? ''), null)]
  const unsaid = (item.kind === 'counterweight' || item.kind === 'bracket') && !item.held
  return unsaid ? [place(at, null, null)] : []
})

/** Of one piece. */
export function studRulings(mounted: Mounted, piece: MountedPiece, places: readonly BoltPlace[]): Ruling[] {
  const fmt = formatter(mounted.job.displayUnits)
  return places.flatMap((p) => [
    ...inPlate(mounted, p, fmt),
    ...(p.fastening ? lengthRulings(p.fastening, piece.item, fmt) : []),
    ...(p.fastening?.thread ? throughRulings(mounted, p.fastening, p.fastening.thread, piece.item, fmt) : []),
  ])
}

/** What is wrong makes a clamp hold nothing; what is only worth a word does not. */
const ruling = <C extends FindingCode>(
  severity: SeverityOf<C>,
  code: C,
  item: Hardware,
  message: string,
  at: Point,
): Ruling => ({
  finding: finding(severity, code, item.id, message, at),
  makes: severity === 'stop' ? 'nothing' : null,
})

function inPlate(mounted: Mounted, { piece, at, thread, anchor }: BoltPlace, fmt: Formatter): Ruling[] {
  const { item } = piece
  const name = called(item)
  if (!anchor) {
    const nearest = anchorsBy(mounted.job.plate, at)[0]
    const of = mounted.shelf ? `of ${standWords(mounted)} ` : ''
    const where = nearest
      ? `The nearest is ${nearest.anchor.kind} ${nearest.anchor.id}, its middle ${fmt.length(nearest.anchor.off)} away. Move it there`
      : `${capital(standWords(mounted))} has none. Bolt it elsewhere`
    const message = `${name} is bolted through solid plate: no slot or hole ${of}lies behind its bolt. ${where}.`
    return [ruling('stop', 'bolt-in-solid', item, message, at)]
  }
  return thread ? fitsAnchor(item, at, thread, anchor, fmt) : []
}

function fitsAnchor(item: Hardware, at: Point, thread: Thread, anchor: Anchor, fmt: Formatter): Ruling[] {
  const name = called(item)
  const hole = `${anchor.kind} ${anchor.id}`
  if (anchor.thread !== null) {
    const tapped = findThread(anchor.thread)
    if (tapped?.name === thread.name) {
      if (anchor.width <= thread.diameter + TAPPED_WIDE) return shallow(item, at, thread, anchor, fmt)
      const message = `The stud of ${name} finds no thread in ${hole}: it is said to be tapped ${anchor.thread}, and ${fmt.length(anchor.width)} wide. Correct its diameter or its thread.`
      return [ruling('stop', 'stud-does-not-fit', item, message, at)]
    }
    const message = `The stud of ${name} does not fit ${hole}: it is ${thread.name}, the hole is tapped ${anchor.thread}. Use a stud of the hole's thread.`
    return [ruling('stop', 'stud-does-not-fit', item, message, at)]
  }
  const room = anchor.width - 2 * anchor.off
  if (thread.diameter > anchor.width + TOLERANCE.sum) {
    const message = `The stud of ${name} does not go into ${hole}: ${thread.name} is ${fmt.length(thread.diameter)} thick, the ${anchor.kind} ${fmt.length(anchor.width)} wide. Use a thinner stud, or another ${anchor.kind}.`
    return [ruling('stop', 'stud-does-not-fit', item, message, at)]
  }
  if (thread.diameter > room + 2 * PLACED) {
    const message = `The stud of ${name} does not go into ${hole}: it stands ${fmt.length(anchor.off)} off its middle. Move it to the middle; ${thread.name} in ${fmt.length(anchor.width)} leaves ${fmt.length((anchor.width - thread.diameter) / 2)} to each side.`
    return [ruling('stop', 'stud-does-not-fit', item, message, at)]
  }
  const play = anchor.width - thread.diameter
  if (play <= PLAY + TOLERANCE.sum) return []
  const message = `The stud of ${name} is loose in ${hole}: ${fmt.length(play)} of play. Set it by measure and see that it cannot shift, or use a thicker stud; ${thread.name} in ${fmt.length(anchor.width)}.`
  return [ruling('caution', 'stud-loose', item, message, at)]
}
/** A diameter of thread carries what the stud does, steel in steel. Common practice, no source. */
function shallow(
  item: Hardware,
  at: Point,
  { name, diameter }: Thread,
  anchor: Anchor,
  fmt: Formatter,
): Ruling[] {
  if (anchor.depth >= diameter - TOLERANCE.sum) return []
  const message = `The stud of ${called(item)} has too little thread in hole ${anchor.id}: ${fmt.length(anchor.depth)} of it, ${fmt.length(diameter)} wanted for ${name}. Use a thicker sub-plate or a thinner stud.`
  return [ruling('stop', 'stud-does-not-fit', item, message, at)]
}

/** mm by which a point may be typed beside the middle of its slot or hole. Own choice. */
const PLACED = 0.05

function lengthRulings(f: MountedFastening, item: Hardware, fmt: Formatter): Ruling[] {
  const { thread, length, needed, at } = f
  if (!thread || length === null) return []
  const name = called(item)
  const beyond = BEYOND_NUT * thread.pitch
  if (length < needed - beyond - TOLERANCE.sum) {
    const message = `The stud of ${name} is too short: ${fmt.length(needed - length)} short of a full nut with two threads out. Use one of ${fmt.length(needed)} or more; it is ${fmt.length(length)} long.`
    return [ruling('stop', 'stud-short', item, message, at)]
  }
  if (length < needed - TOLERANCE.sum) {
    const message = `The stud of ${name} hardly stands out of its nut: ${fmt.length(length - needed + beyond)} instead of two threads. Use one of ${fmt.length(needed)} or more; it is ${fmt.length(length)} long.`
    return [ruling('caution', 'stud-flush', item, message, at)]
  }
  const out = length - needed + beyond
  if (out <= STANDS_OUT * thread.diameter + TOLERANCE.sum) return []
  const message = `The stud of ${name} stands ${fmt.length(out)} out of its nut. Nothing guards it; use one of about ${fmt.length(needed)}, it is ${fmt.length(length)} long.`
  return [ruling('caution', 'stud-stands-out', item, message, at)]
}

/** Of what is held: whether the stud goes through it. */
function throughRulings(
  mounted: Mounted,
  f: MountedFastening,
  thread: Thread,
  item: Hardware,
  fmt: Formatter,
): Ruling[] {
  const name = called(item)
  return openingsOf(mounted, item).flatMap(({ what, width }): Ruling[] => {
    if (thread.diameter <= width + TOLERANCE.sum) return []
    const message = `The stud of ${name} does not go through ${what}: ${thread.name} is ${fmt.length(thread.diameter)} thick, the opening ${fmt.length(width)}. Use a thinner stud.`
    return [ruling('stop', 'stud-does-not-fit', item, message, f.at)]
  })
}

/** An opening that a nut presses beside. mm */
export interface Opening {
  readonly what: string
  readonly width: number
  readonly slot: boolean
  /** In a plate, which is of iron. */
  readonly iron: boolean
}

/** What a stud goes through, in front and behind; a tee slot and a tapped hole have no nut behind. */
export function openingsUnder(mounted: Mounted, item: Hardware, at: Point): readonly Opening[] {
  const anchor = anchorUnder(mounted, item.id, at)
  const nut = anchor && anchor.thread === null && !isTee(mounted, anchor)
  return [
    ...openingsOf(mounted, item),
    ...(nut
      ? [
          {
            what: `${anchor.kind} ${anchor.id}`,
            width: anchor.width,
            slot: anchor.kind === 'slot',
            iron: true,
          },
        ]
      : []),
  ]
}

const isTee = ({ job }: Mounted, anchor: Anchor): boolean =>
  anchor.kind === 'slot' && job.plate.slots.some((s) => s.id === anchor.id && s.kind === 'tee')

function openingsOf({ job }: Mounted, item: Hardware): Opening[] {
  if (item.kind === 'clamp')
    return [{ what: 'its strap', width: item.strap.opening, slot: item.strap.slotted > 0, iron: false }]
  return stackHoles(job, item).flatMap(({ stock, hole }) =>
    hole > 0 ? [{ what: `weight ${stock}`, width: hole, slot: false, iron: false }] : [],
  )
}

/** The hole of each piece of a stack, undermost first, mm; 0 where it is bored to suit. None of what is no stack. */
export const stackHoles = ({ stock: owned }: Job, item: Hardware): { stock: string; hole: number }[] =>
  item.kind === 'weight'
    ? item.stack.map(({ stock }) => ({ stock, hole: owned.find((s) => s.id === stock)?.hole ?? 0 }))
    : []
