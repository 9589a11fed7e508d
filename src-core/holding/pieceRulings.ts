/** What is to be said of each piece of hardware by itself: its studs, and of a clamp its toe, heel and strap. */
import { uncertaintiesOf } from '../doubt/defaults.ts'
import { called, finding } from '../findings/finding.ts'
import { isClamp, type Hardware } from '../job/schema.ts'
import type { FasteningFields } from '../mounting/fastening.ts'
import type { MountedFastening, MountedPiece } from '../mounting/types.ts'
import { heelRulings } from './heelStand.ts'
import { keptPer } from '../mounting/kept.ts'
import { nutRulings } from './nutBears.ts'
import { mostPull, preloadOf } from './preloadOf.ts'
import { proofRulings } from './proofLoad.ts'
import type { Ruling } from './ruling.ts'
import { strapRulings } from './strapStrength.ts'
import { bendRulings } from './studBend.ts'
import { boltPlacesOf, studRulings } from './studFit.ts'
import { lipRulings } from './teeLip.ts'
import { toeRulings } from './toeContact.ts'

interface Fastened {
  readonly fastening: MountedFastening
  readonly fields: FasteningFields
}

/** Each stud of a piece with how it is tightened. */
export function fastenedBy({ item, fastenings }: MountedPiece): Fastened[] {
  return fastenings.flatMap((fastening, i) => {
    const fields = fieldsOf(item, i)
    return fields ? [{ fastening, fields }] : []
  })
}

function fieldsOf(item: Hardware, index: number): FasteningFields | null {
  if ('stud' in item) return item
  if ('bolts' in item) return item.bolts[index] ?? null
  return item.kind === 'dowel' ? null : (item.held?.[index] ?? null)
}

/** kg that hangs on a stud if what it holds slips. */
const hangsOn = ({ solids, fastenings }: MountedPiece): number =>
  solids.filter((s) => s.role !== 'packing').reduce((sum, s) => sum + s.mass, 0) /
  Math.max(1, fastenings.length)

/** Kept per piece while its surroundings are the same; the part's outlines must be sound. */
export const pieceRulings = keptPer((mounted, piece): readonly Ruling[] => {
  const { item, toe } = piece
  const doubt = uncertaintiesOf(mounted.job)
  const studs = fastenedBy(piece).flatMap(({ fastening, fields }): Ruling[] => {
    const { preload } = preloadOf(fields, doubt)
    return [
      ...proofRulings(mounted, item, fields, fastening.at),
      ...lengthUnknown(piece, fastening),
      ...nutRulings(mounted, piece, fastening, mostPull(preload)),
      ...(preload ? bendRulings(mounted, piece, fastening, fields, preload, hangsOn(piece)) : []),
      ...(preload ? lipRulings(mounted, piece, fastening.at, preload.high) : []),
      ...(preload && item.kind === 'clamp' && toe ? strapRulings(mounted, piece, item, toe, preload) : []),
    ]
  })
  return [
    ...toeRulings(mounted, piece),
    ...studRulings(mounted, piece, boltPlacesOf(mounted, piece)),
    ...heelRulings(mounted, piece),
    ...studs,
  ]
})

/** Of a clamp it is said among all else that is missing. */
function lengthUnknown({ item }: MountedPiece, { thread, length, at }: MountedFastening): Ruling[] {
  if (isClamp(item) || length !== null || !thread) return []
  const message = `Whether the stud of ${called(item)} is long enough is not known: its length is not given. Give it, or let it be cut to suit.`
  return [{ finding: finding('caution', 'stud-length-unknown', item.id, message, at), makes: null }]
}
