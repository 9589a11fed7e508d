/** What is said of loose vee blocks by themselves: that nothing presses one, or that it does not lie wholly or flat on its shelf. */
import { called, finding, type Finding } from '../findings/finding.ts'
import { KIND_WORDS } from '../hardware/words.ts'
import type { Shelf } from '../job/schema.ts'
import { isVeeBlock, type VeeBlock } from '../mounting/shelf.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { formatter, type Formatter } from '../units/format.ts'
import { capital } from '../words/capital.ts'
import { strapsOver } from './blockJoint.ts'
import type { ClampState } from './clampState.ts'
import { standOf, standWords } from './stand.ts'

/** mm by which a block may stand out over its shelf's edge, or into the plate: what is set by hand. Own choice. */
const EDGE = 0.05

export function blockFindings(mounted: Mounted, states: readonly ClampState[]): Finding[] {
  const fmt = formatter(mounted.job.displayUnits)
  return mounted.pieces.flatMap((piece) => {
    const { item } = piece
    if (!isVeeBlock(item)) return []
    const { stand } = standOf(mounted, piece)
    if (!stand.shelf) return []
    return [
      ...loose(mounted, stand, piece, item, states),
      ...overhang(stand, piece, item, fmt),
      ...onFoot(stand, piece, item, fmt),
    ]
  })
}

/** Neither a strap from its shelf over the round nor a bolt of its own, known or not. */
function loose(
  mounted: Mounted,
  stand: Mounted,
  { at }: MountedPiece,
  item: VeeBlock,
  states: readonly ClampState[],
): Finding[] {
  if (item.bolts.length > 0 || strapsOver(mounted, item, states).length > 0) return []
  const shelf = standWords(stand)
  const own = mounted.pieces.some((p) => p.shelf === item.id)
    ? ` What stands on its own lands holds the part in it, not it on ${shelf}.`
    : ''
  const cure =
    mounted.setup.seat?.on === item.id
      ? `Put a strap that stands on ${shelf} over the round, or bolt it through its lands`
      : 'Seat the part in it and put a strap over that, bolt it through its lands, or take it off'
  const message = `Nothing presses ${KIND_WORDS.vee} ${called(item)} on ${shelf}: it lies there loose. ${cure}.${own}`
  return [finding('stop', 'block-loose', item.id, message, at)]
}

/** What hangs over carries nothing, and chatters. */
function overhang({ shelf }: Mounted, { at }: MountedPiece, item: VeeBlock, fmt: Formatter): Finding[] {
  if (!shelf) return []
  const [across, , length] = item.size
  const { along, out } = item.at
  const name = `${capital(KIND_WORDS.vee)} ${called(item)}`
  const stop = (message: string) => [finding('stop', 'block-overhangs', item.id, message, at)]
  if (out < -EDGE)
    return stop(
      `${name} reaches ${fmt.length(-out)} into the plate. Let it begin 0 out from the plate, or further.`,
    )
  const wide = Math.abs(along) + across / 2 - shelf.item.size[0] / 2
  const far = out + length - shelf.item.size[2]
  const over = [
    ...(far > EDGE ? [`${fmt.length(far)} over the outer edge`] : []),
    ...(wide > EDGE
      ? [`${fmt.length(wide)} over ${along === 0 ? 'an end' : 'the end that it is nearer to'}`]
      : []),
  ]
  if (over.length === 0) return []
  return stop(
    `${name} does not lie wholly on the shelf of ${shelf.item.id}: it hangs ${over.join(' and ')}. ${cureOf(item, shelf.item, far, wide, fmt)}`,
  )
}

/** A foot behind its block is for the plate: the block cannot lie on its back with it. */
function onFoot(stand: Mounted, { at }: MountedPiece, item: VeeBlock, fmt: Formatter): Finding[] {
  if (item.foot.length === 0) return []
  const message = `${capital(KIND_WORDS.vee)} ${called(item)} does not lie flat on ${standWords(stand)}: it has a foot of ${fmt.length(item.foot.length)} behind its block. Use a block without a foot, or bolt it to the plate.`
  return [finding('stop', 'block-on-foot', item.id, message, at)]
}

function cureOf({ at, size }: VeeBlock, shelf: Shelf, far: number, wide: number, fmt: Formatter): string {
  if (size[0] > shelf.size[0] + EDGE)
    return `It is wider than that is long: use a narrower block, or an angle plate of at least ${fmt.length(size[0])} along.`
  if (size[2] > shelf.size[2] + EDGE)
    return `It is longer than that stands out: use a shorter block, or an angle plate that stands out at least ${fmt.length(size[2])}.`
  const moves = [
    ...(far > EDGE ? [`${fmt.length(far)} nearer to the plate`] : []),
    ...(wide > EDGE ? [`${fmt.length(wide)} ${at.along > 0 ? 'back' : 'on'} along it`] : []),
  ]
  return `Move it ${moves.join(' and ')}.`
}
