/**
 * The joint of a loose vee block on its shelf: the block, the part in it and what stands on its lands are one body there,
 * pressed by straps that stand on the shelf and reach over the round, and by bolts of its own.
 */
import type { CuttingAdvice } from '../cutting/advice.ts'
import { called } from '../findings/finding.ts'
import { flattenRing } from '../geometry/flatten.ts'
import { KIND_WORDS } from '../hardware/words.ts'
import type { MassMoments } from '../mass/massMoments.ts'
import { standOnPlate } from '../mounting/plateFace.ts'
import { placeInPlate, type VeeBlock } from '../mounting/shelf.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { blockFoot } from '../mounting/veeBlock.ts'
import { capital } from '../words/capital.ts'
import { CONTACT_CHORD, touchingOf, type BuiltJoint } from './builtJoint.ts'
import type { ClampState } from './clampState.ts'
import { ContactHull } from './contact.ts'
import { hardwareFriction } from './friction.ts'
import { faceOf } from './partJoint.ts'
import { studPresses, type Press } from './presses.ts'
import { seatAt, standWords } from './stand.ts'
import { studsOf } from './studJoint.ts'
import { ownLoadings, partLoadings } from './working.ts'

/** The straps that press a block through the part that lies in it: those that stand on its shelf. */
export const strapsOver = (
  mounted: Mounted,
  { id, at }: VeeBlock,
  states: readonly ClampState[],
): ClampState[] =>
  mounted.setup.seat?.on === id
    ? states.filter(
        ({ state, piece }) =>
          state !== 'nothing' && mounted.pieces.some((p) => p.item.id === piece.item.id && p.shelf === at.on),
      )
    : []

/**
 * @param whole the setup; `stand` as it looks from the shelf, and `seen` the block there.
 * @param body mass moments of the block with all that it carries, plate frame.
 */
export function blockJoint(
  whole: Mounted,
  stand: Mounted,
  seen: MountedPiece,
  item: VeeBlock,
  body: MassMoments,
  cutting: CuttingAdvice | null,
  states: readonly ClampState[],
): BuiltJoint {
  const { along, out } = item.at
  const foot = [flattenRing(blockFoot(item, { x: along, y: out }), CONTACT_CHORD)]
  const touching = touchingOf(standOnPlate(stand.job.plate, foot).on)
  const hull = new ContactHull(touching)
  const { known, unknown, lacks: studs } = studsOf(stand, seen, item.bolts)
  const straps = strapsOver(whole, item, states)
  const unsure = straps.filter((s) => s.state === 'unknown')
  const presses = straps.filter((s) => s.state === 'holds').map(pressOf)
  const seat = seatAt(stand, 0)
  const carriesPart = whole.setup.seat?.on === item.id
  const loadings = carriesPart ? partLoadings(whole, body, cutting, seat) : ownLoadings(whole.job.lathe, body)
  const pressed = presses.length + known.length > 0
  const base = {
    id: item.id,
    kind: 'piece' as const,
    what: `${KIND_WORDS.vee} ${item.id} on ${standWords(stand)}`,
    name: `${capital(KIND_WORDS.vee)} ${called(item)}`,
    // That nothing presses it is said with a stop.
    quiet: !pressed && unsure.length + unknown.length === 0,
    at: placeInPlate(stand, seen.at),
  }
  const lacks = [
    ...(pressed ? [] : ['how hard anything presses it is not known', ...studs]),
    ...(touching.length === 0 ? [`nothing of it lies on ${standWords(stand)}`] : []),
    ...(loadings ? [] : ['the force of its cut is not known']),
    ...([...unsure.map(pressOf), ...unknown.flatMap(studPresses)].every((p) => hull.holds(p.at))
      ? []
      : ['how hard something presses beyond what it lies on is not known']),
  ]
  if (lacks.length > 0) return { ...base, input: null, lacks, unknown: [] }
  const input = {
    seat,
    touching,
    face: faceOf(1, touching),
    grip:
      known.length === 1 && presses.length === 0
        ? { stud: known[0]! }
        : { presses: [...presses, ...known.flatMap(studPresses)] },
    friction: hardwareFriction(whole.setup),
    loadings: loadings ?? [],
  }
  const ids = [...unsure.map((s) => s.piece.item.id), ...unknown.map((s) => s.id)]
  return { ...base, input, lacks: studs, unknown: [...new Set(ids)] }
}

const pressOf = ({ piece, at, low, high }: ClampState): Press => ({
  id: piece.item.id,
  at,
  force: low,
  high,
})
