/** How a piece is bolted on, as one reads it beside the machine. */
import { fastenerOf, fastenerWords } from '../hardware/fastener.ts'
import { convert } from '../units/convert.ts'
import { onFixtureWords } from '../hardware/words.ts'
import { nutSize } from '../hardware/nuts.ts'
import { directionOf } from '../geometry/angles.ts'
import { isOnFixture, type At } from '../job/schema.ts'
import type { MountedPiece } from '../mounting/types.ts'
import { clockPosition, plain, spannerPull, type Formatter } from '../units/format.ts'
import { facts, type Fact } from './step.ts'

/** `slot S2, 110 mm out, 2 o'clock`. */
export function placeWords(piece: MountedPiece, fmt: Formatter): string {
  const { item, at } = piece
  const radius = Math.hypot(at.x, at.y)
  const out = radius > 0 ? `${fmt.length(radius)} out, ${clockPosition(directionOf(at))}` : 'on the axis'
  const station = 'at' in item ? stationWords(item.at, fmt) : 'through the part'
  return [station, out].filter(Boolean).join(', ')
}

function stationWords(at: At, fmt: Formatter): string {
  if ('slot' in at) return `slot ${at.slot}`
  if (isOnFixture(at)) return onFixtureWords(at, fmt.length)
  if ('hole' in at) return `hole ${at.hole}`
  return ''
}

/** mm across the flats of the nut; null where the thread is not known. */
export function wrench({ item, fastenings }: MountedPiece): number | null {
  if ('nut' in item && item.nut) return item.nut.acrossFlats
  const thread = fastenings[0]?.thread
  return thread ? (nutSize(thread)?.flats ?? null) : null
}

/** As it is stamped on the wrench, whatever the job is shown in: `18 mm`, `3/4 in`; anything else in the job's own units. */
export function wrenchWords(flats: number, fmt: Formatter): string {
  const sixteenths = convert(flats, 'mm', 'in') * 16
  const [inch, mm] = [Math.round(sixteenths), Math.round(flats)]
  if (Math.abs(flats - mm) < STAMPED) return `${mm} mm`
  if (Math.abs(sixteenths - inch) < STAMPED) return `${mixed(inch)} in`
  return fmt.units === 'in' ? fmt.length(flats) : `${plain(flats, 1)} mm`
}

/** mm, or sixteenths of an inch, by which a size is off through rounding alone. */
const STAMPED = 1e-6

/** Sixteenths as a mixed number in its lowest terms: 3/4, 1-1/8, 2. */
function mixed(sixteenths: number): string {
  const whole = Math.floor(sixteenths / 16)
  let [over, under] = [sixteenths % 16, 16]
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2]
  return [whole > 0 ? plain(whole, 0) : '', over > 0 ? `${over}/${under}` : ''].filter(Boolean).join('-')
}

/** Stud, wrench, torque and its pull on a spanner of a length in mm; null: of usual length. */
export function boltFacts(piece: MountedPiece, fmt: Formatter, spanner: number | null): Fact[] {
  const fastener = fastenerOf(piece.item)
  if (!fastener) return []
  const known = piece.fastenings[0]
  const length = known ? (known.length ?? known.needed) : null
  const flats = wrench(piece)
  const stud = [fastenerWords(fastener), length === null ? '' : `${fmt.length(length)} long`]
    .filter(Boolean)
    .join(', ')
  const lubricated = 'lubricated' in piece.item ? piece.item.lubricated : null
  return facts(
    ['Stud', stud],
    ['Wrench', flats === null ? null : wrenchWords(flats, fmt)],
    [
      'Torque',
      fastener.torque === null
        ? 'not given'
        : `${fmt.torque(fastener.torque)}${lubricated ? ', threads oiled' : ''}`,
    ],
    ['By hand', fastener.torque === null ? null : spannerPull(fmt, fastener.torque, spanner)],
  )
}

/** What is missing to tighten it by. */
export function boltWarns({ item }: MountedPiece): string[] {
  const fastener = fastenerOf(item)
  if (!fastener || fastener.torque !== null) return []
  return ['No torque is given: what it holds is not known. Ask before power.']
}
