/** The joint of a round part in a vee, and what is said where it does not lie in it. */
import type { CuttingAdvice } from '../cutting/advice.ts'
import { finding, type Finding } from '../findings/finding.ts'
import { poseOf, type Pose } from '../geometry/space/pose.ts'
import { ROUNDING } from '../geometry/tolerance.ts'
import type { MassMoments } from '../mass/massMoments.ts'
import { isSound } from '../mounting/material.ts'
import { halfAngle, middleOfRound, middleOverLands } from '../mounting/inVee.ts'
import { standsOut } from '../mounting/shelf.ts'
import { faceSize, shelfSize } from '../mounting/shelfSize.ts'
import type { Mounted, VeeRound } from '../mounting/types.ts'
import type { Vee } from '../job/schema.ts'
import { formatter, plain } from '../units/format.ts'
import type { ClampState } from './clampState.ts'
import { frictionOf } from './friction.ts'
import { standSeen } from './stand.ts'
import type { PartJoint } from './partJoint.ts'
import type { Press } from './presses.ts'
import { BENDS_AT } from './support.ts'
import { onCrown } from './toeContact.ts'
import { thinWall } from './veeWall.ts'
import { partLoadings } from './working.ts'

/** The vee and the round of a setup looked at from the vee that its part is seated in; null for any other. */
export function veeOf({ shelf }: Mounted): { readonly item: Vee; readonly round: VeeRound } | null {
  return shelf?.item.kind === 'vee' && shelf.round ? { item: shelf.item, round: shelf.round } : null
}

/**
 * Straps press at the crown, along the bisector; their own grip is not counted, for a strap gives way before its stud
 * does. @param view from the vee. @param body mass moments of the part as mounted, plate frame.
 */
export function partInVee(
  whole: Mounted,
  view: Mounted,
  body: MassMoments,
  cutting: CuttingAdvice | null,
  states: readonly ClampState[],
): PartJoint | null {
  const vee = veeOf(view)
  if (!vee || !view.shelf) return null
  const { item, round } = vee
  const base = {
    id: 'part',
    kind: 'part' as const,
    what: `the part in ${item.id}`,
    name: 'The part',
    quiet: false,
    at: null,
    unknown: states.filter((s) => s.state === 'unknown').map((s) => s.piece.item.id),
    tall: [],
    unpressed: [],
  }
  if (!round.lies) return { ...base, input: null, lacks: [`it does not lie in ${item.id}`] }
  const { out, diameter } = round
  const { pose } = view.shelf
  const seat = poseOf(middleOfRound(pose, round), pose.n, { x: 0, y: 0, z: 1 })
  const loadings = partLoadings(whole, body, cutting, seat)
  const holding = states.filter((s) => s.state === 'holds')
  const aside = states.filter(
    ({ state, piece }) => state !== 'nothing' && !(piece.toe && onCrown(standSeen(whole, piece), piece.toe)),
  )
  const beyond = states.filter((s) => s.state === 'unknown' && (s.at.y < out[0] || s.at.y > out[1]))
  const lacks = [
    ...(isSound(whole) ? [] : ['its outline is faulty']),
    ...(loadings ? [] : ['the force of its cut is not known']),
    ...(holding.length === 0 && base.unknown.length > 0 ? ['how hard any clamp presses is not known'] : []),
    // Beside the crown it would turn the round, or push it to a side.
    ...aside.map(
      (s) => `what ${s.piece.item.id} does to the round is not known: it presses beside its crown`,
    ),
    ...beyond.map((s) => `how hard ${s.piece.item.id} presses beyond the flanks is not known`),
    ...(item.angle < SHARP - ROUNDING.length
      ? [
          `how hard flanks of ${plain(item.angle, 1)}° press is not known: in a vee sharper than ${SHARP}° friction carries much of the strap's force`,
        ]
      : []),
    ...wallLacks(whole, item, pose, round, holding),
  ]
  const presses = holding.map((s): Press => ({
    id: s.piece.item.id,
    at: { x: s.at.y, y: 0 },
    force: s.low,
    high: s.high,
  }))
  const input = {
    seat,
    touching: out.map((z) => ({ x: z, y: 0 })),
    face: 'pads' as const,
    grip: { presses },
    friction: frictionOf(whole.job, whole.setup),
    vee: { half: halfAngle(item), diameter, rubs: false },
    loadings: loadings ?? [],
  }
  return { ...base, input: lacks.length > 0 ? null : input, lacks }
}

/** Degrees between the flanks of the sharpest vee in use; from memory. */
const SHARP = 60

function wallLacks(
  whole: Mounted,
  item: Vee,
  pose: Pose,
  round: Extract<VeeRound, { lies: true }>,
  holding: readonly ClampState[],
): string[] {
  const force = holding.reduce((sum, s) => sum + s.high, 0)
  const thin = thinWall(whole, item, pose, round, force)
  if (!thin) return []
  const fmt = formatter(whole.job.displayUnits)
  return [
    `whether its wall bears the flanks is not known: it is ${fmt.length(thin.thickness)} thick there and as a ring would be bent with ${fmt.stress(thin.stress)} by ${fmt.force(force)} (rule of thumb: ${fmt.stress(BENDS_AT)}). Tighten less, or leave more wall`,
  ]
}

/** Where the part does not lie in its vee. */
export function offVee(view: Mounted): Finding[] {
  const vee = veeOf(view)
  if (!vee || vee.round.lies || !view.shelf) return []
  const { item, round } = vee
  const fmt = formatter(view.job.displayUnits)
  const { diameter } = view.shelf
  const d = diameter === null ? '' : fmt.length(diameter)
  const stop = (message: string) => [
    finding('stop', 'part-off-vee', item.id, message, { x: 0, y: standsOut(item) }),
  ]
  switch (round.why) {
    case 'not given':
      return [
        finding(
          'caution',
          'vee-unjudged',
          item.id,
          `Which round of the part lies in ${item.id} is not known, so what it holds is not judged. Give its diameter.`,
        ),
      ]
    case 'too large':
      return stop(
        `The vee ${item.id} is too small for a round of ${d}: it would lie on the edges of its mouth. Use a larger vee; this one takes up to ${fmt.length(round.most)}.`,
      )
    case 'too small':
      return stop(
        `The vee ${item.id} is too large for a round of ${d}: that sinks ${fmt.length(-round.crown)} below its lands, where no strap presses it. Use a smaller vee.`,
      )
    case 'not drawn':
      return stop(
        `No round of ${d} is drawn on the part, so nothing lies in ${item.id}. Give the diameter that lies in it, or draw it.`,
      )
    case 'bare':
      return stop(
        `The round of ${d} does not lie on both flanks of ${item.id}: something is cut away there, or it stands beyond the vee's end. Turn the part, or let it stand nearer the plate.`,
      )
    case 'off': {
      const size = shelfSize(view)
      const wanted = size && size.stands - round.off
      const beside = Math.abs(round.beside)
      const how = [
        ...(Math.abs(round.off) > 0.005
          ? [`${fmt.size(Math.abs(round.off))} ${round.off > 0 ? 'off its flanks' : 'into them'}`]
          : []),
        ...(beside > 0.005 ? [`${fmt.size(beside)} beside its middle`] : []),
      ].join(' and ')
      const over =
        diameter === null
          ? ''
          : `; its middle then lies ${fmt.size(Math.abs(middleOverLands(item, diameter)))} ${middleOverLands(item, diameter) >= 0 ? 'over' : 'below'} ${view.shelf.under ? 'its lands' : 'them'}, ${plain(item.angle, 1)}° between the flanks`
      const beyond = round.off - faceSize(view.shelf)
      if (beyond >= 0)
        return stop(
          `The vee ${item.id} is too large for a round of ${d} that is turned about this axis: with it on the flanks the lands would stand ${fmt.size(beyond)} beyond the axis. Use a smaller vee, or turn the part.`,
        )
      const face = view.shelf.under ? `the shelf of ${view.shelf.under.id}` : 'the lands'
      return stop(
        `The round of ${d} does not lie in ${item.id}: it stands ${how}. Set ${face} ${wanted === null ? '' : fmt.size(wanted)} from the axis and the vee's middle under the round${over}.`,
      )
    }
  }
}
