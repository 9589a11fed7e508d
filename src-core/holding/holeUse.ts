/** One bolt, one hole; and pins in holes that take them. */
import { called, finding, type Finding } from '../findings/finding.ts'
import { TOLERANCE } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import { anchorAt, holeAt, type Anchor } from '../mounting/plateFace.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import { standing } from './stand.ts'
import type { BoltPlace } from './studFit.ts'

/** mm that stands for the diameter of a bolt that is not known: the thinnest that is used here. Own choice. */
const UNKNOWN_BOLT = 6

/** mm of play with which a pin does not stay in its hole as the plate turns. Own choice: holes are measured to tenths. */
const FALLS_OUT = 0.5

interface Filled {
  readonly piece: MountedPiece
  readonly at: Point
  readonly diameter: number
  /** The hole that it is in; null for a slot or solid plate. */
  readonly hole: string | null
}

export function holeFindings(mounted: Mounted, bolts: readonly BoltPlace[]): Finding[] {
  const filled = (piece: MountedPiece, at: Point, diameter: number, anchor: Anchor | null): Filled => ({
    piece,
    at,
    diameter,
    hole: anchor?.kind === 'hole' ? anchor.id : null,
  })
  const dowels = standing(mounted).flatMap((piece): Filled[] =>
    piece.item.kind === 'dowel'
      ? [filled(piece, piece.at, piece.item.diameter, anchorAt(mounted.job.plate, piece.at))]
      : [],
  )
  const all = [
    ...bolts.map((b) => filled(b.piece, b.at, b.thread?.diameter ?? UNKNOWN_BOLT, b.anchor)),
    ...dowels,
  ]
  return [
    ...all.flatMap((a, i) => all.slice(i + 1).flatMap((b) => sharedFindings(mounted, a, b))),
    ...dowels.flatMap((d) => dowelFindings(mounted, d)),
  ]
}

function sharedFindings({ job }: Mounted, a: Filled, b: Filled): Finding[] {
  const apart = Math.hypot(a.at.x - b.at.x, a.at.y - b.at.y)
  const sameHole = a.hole !== null && a.hole === b.hole
  const least = (a.diameter + b.diameter) / 2
  if (!sameHole && apart >= least) return []
  const fmt = formatter(job.displayUnits)
  const [one, other] = [called(a.piece.item), called(b.piece.item)]
  const both = a.piece === b.piece ? `Two bolts of ${one}` : `The bolts of ${one} and ${other}`
  const message = sameHole
    ? `${both} are in one hole, ${a.hole}. Move one of them.`
    : `${both} are in each other's way. Move one of them; their middles are ${fmt.length(apart)} apart and want ${fmt.length(least)}.`
  return [finding('stop', 'hole-taken', a.piece.item.id, message, a.at)]
}

function dowelFindings({ job }: Mounted, { piece, at, diameter }: Filled): Finding[] {
  const fmt = formatter(job.displayUnits)
  const name = called(piece.item)
  const stop = (code: 'bolt-in-solid' | 'stud-does-not-fit', message: string) => [
    finding('stop', code, piece.item.id, message, at),
  ]
  const anchor = holeAt(job.plate, at)
  if (!anchor)
    return stop('bolt-in-solid', `Dowel ${name} has no hole of the plate behind it. Put it into one.`)
  if (anchor.thread !== null)
    return stop(
      'stud-does-not-fit',
      `Dowel ${name} stands in tapped hole ${anchor.id}, which does not guide a pin. Use a plain hole.`,
    )
  if (anchor.width - diameter > FALLS_OUT)
    return stop(
      'stud-does-not-fit',
      `Dowel ${name} falls out of hole ${anchor.id}: ${fmt.length(diameter)} in ${fmt.length(anchor.width)}. Use a pin that fits, or take it out.`,
    )
  if (diameter <= anchor.width + TOLERANCE.sum) return []
  return stop(
    'stud-does-not-fit',
    `Dowel ${name} does not go into hole ${anchor.id}: ${fmt.length(diameter)} in ${fmt.length(anchor.width)}. Use a thinner pin, or another hole.`,
  )
}
