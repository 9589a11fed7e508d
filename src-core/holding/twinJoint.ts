/** Another workpiece alike: its bolts, and its joint on the plate, as those of a part. */
import { called, finding, type Finding } from '../findings/finding.ts'
import type { Twin } from '../job/schema.ts'
import type { MassMoments } from '../mass/massMoments.ts'
import { asTwin } from '../mounting/asTwin.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { formatter } from '../units/format.ts'
import type { BuiltJoint } from './builtJoint.ts'
import { clampStates } from './clampState.ts'
import { partContact } from './partContact.ts'
import { partJoint } from './partJoint.ts'

/** @param body mass moments of the twin as mounted, its bolts with it. */
export function twinJoint(mounted: Mounted, piece: MountedPiece, item: Twin, body: MassMoments): BuiltJoint {
  const view = asTwin(mounted, piece, item)
  const { input, lacks, unknown } = partJoint(view, view, body, null, clampStates(view))
  return {
    id: item.id,
    kind: 'piece',
    what: `twin ${item.id} on the plate`,
    name: `Twin ${called(item)}`,
    quiet: false,
    at: piece.at,
    input,
    lacks,
    unknown,
  }
}

/** What is to be said of what carries it, and of its bolts, each by its number. */
export function twinFindings(mounted: Mounted, piece: MountedPiece, item: Twin): Finding[] {
  const view = asTwin(mounted, piece, item)
  const states = clampStates(view)
  const bolts = [
    ...states.flatMap((s) => s.findings.map((f) => ({ ...f, item: item.id }))),
    ...(states.filter((s) => s.state !== 'nothing').length === 1 ? [oneBolt(item, piece)] : []),
  ]
  if (partContact(view).length > 0) return bolts
  const raised = formatter(mounted.job.displayUnits).length(item.raised)
  const message =
    item.raised > 0
      ? `Nothing carries twin ${called(item)}: it is said to stand ${raised} in front of the plate, but no packing so high lies under it. Put packing under each of its bolts, or set it flat on the plate.`
      : `Nothing carries twin ${called(item)}: no face of it lies on the plate. Move it onto solid plate, or give it packing.`
  return [finding('stop', 'part-not-carried', item.id, message, piece.at), ...bolts]
}

function oneBolt(item: Twin, { at }: MountedPiece): Finding {
  const message = `One bolt alone holds twin ${called(item)}: if it lets go, nothing does. Bolt it twice at the least.`
  return finding('caution', 'one-clamp', item.id, message, at)
}

/** Ids of the packing that carries twins. */
export const underTwins = (mounted: Mounted): ReadonlySet<string> =>
  new Set(
    mounted.pieces.flatMap((p) =>
      p.item.kind === 'twin' ? partContact(asTwin(mounted, p, p.item)).map((c) => c.id) : [],
    ),
  )
