/** Whether the setup holds: every joint judged, and what is said of it. */
import { uncertaintiesOf } from '../doubt/defaults.ts'
import { finding, type Finding } from '../findings/finding.ts'
import type { Point } from '../geometry/types.ts'
import { holderWord } from '../hardware/words.ts'
import { isClamp, type Hardware } from '../job/schema.ts'
import { centreOfMass } from '../mass/massMoments.ts'
import { placeInPlate } from '../mounting/shelf.ts'
import type { Mounted } from '../mounting/types.ts'
import { formatter, plain } from '../units/format.ts'
import { capital } from '../words/capital.ts'
import { blockFindings } from './blockFindings.ts'
import type { ClampState } from './clampState.ts'
import { crushFindings } from './crushing.ts'
import { CHUCK_FRICTION, frictionOf, frictionWords } from './friction.ts'
import { backingFindings } from './backingFindings.ts'
import { jointFindings } from './jointFindings.ts'
import {
  jointRow,
  judgeJoints,
  type JointRow,
  type JointsInput,
  type Judged,
  type JudgedJoint,
} from './judged.ts'
import { letGo, worstLetGo, type LetGo } from './letGo.ts'
import { padFriction } from './opening.ts'
import { bendFindings } from './partBends.ts'
import { neckFindings } from './partNeck.ts'
import { standSeen } from './stand.ts'
import { ASSUMED_TIME } from './working.ts'

/** A lathe maker's manual asks for at least three independent clamping devices on a faceplate. */
const LEAST_CLAMPS = 3
/** Above this a friction coefficient is no longer a fixture-design figure. */
const BOLD_FRICTION = 0.2

/** One clamp's part in the holding; `work_force_N` is the low side of the preload scatter. */
export interface ClampLoad {
  readonly item: string
  readonly preload_N: number
  readonly proof_N: number
  readonly work_force_N: number
  readonly nose: Point
}

/** The joint of the part on its seat. */
export interface Clamping {
  /** At the chosen speed, or standing still. */
  readonly factor: number
  /** rpm at which the factor falls to 2; null where it never does, 0 where it is below 2 at rest. */
  readonly rpm_at_factor_2: number | null
  /** Those that hold. */
  readonly clamps: readonly ClampLoad[]
}

export interface HoldingCheck {
  readonly joints: readonly JointRow[]
  readonly clamping: Clamping | null
  /** rpm at which the first of the judged joints falls to 2; null where none does. */
  readonly rpmAt2: number | null
  /** The same of those of which every press is known. */
  readonly rpmAt2Known: number | null
  /** What each piece would do if it let go at the chosen speed. */
  readonly letGo: readonly LetGo[]
  readonly findings: readonly Finding[]
}

export function holdingCheck(input: JointsInput): HoldingCheck {
  const { mounted, states } = input
  const judged = judgeJoints(input)
  const part = input.assembly.mountedPart
  const flies = letGo(mounted, mounted.setup.speed, part.m, centreOfMass(part))
  const all = judged.joints.filter((j) => j.result)
  return {
    joints: judged.joints.map(jointRow),
    clamping: clampingOf(mounted, judged, states),
    rpmAt2: lowest(all),
    rpmAt2Known: lowest(all.filter((j) => j.built.unknown.length === 0)),
    letGo: flies,
    findings: [
      ...clampCount(mounted, states),
      ...blockFindings(mounted, states),
      ...jointFindings(mounted, judged, flies),
      ...flyFindings(mounted, flies),
      ...packingFindings(mounted, judged),
      ...crushFindings(mounted, states),
      ...backingFindings(mounted, judged),
      ...assumptions(mounted),
      ...frictionFindings(mounted),
      ...bendFindings(mounted),
      ...neckFindings(mounted),
    ],
  }
}

/** What there is to fear, said once. */
function flyFindings({ job, setup }: Mounted, flies: readonly LetGo[]): Finding[] {
  if (setup.speed === null) return []
  const lines = worstLetGo(formatter(job.displayUnits), setup.speed, flies)
  return lines.length > 0 ? [finding('note', 'let-go', 'setup', lines.join(' '))] : []
}

function lowest(joints: readonly JudgedJoint[]): number | null {
  const rpm = Math.min(...joints.map((j) => j.rpmAt2))
  return Number.isFinite(rpm) ? rpm : null
}

function clampingOf(mounted: Mounted, { part }: Judged, states: readonly ClampState[]): Clamping | null {
  const { job } = mounted
  if (!part.result) return null
  const scatter = uncertaintiesOf(job).preloadScatter
  const clamps = states.flatMap(({ piece, state, preload, low, at }): ClampLoad[] =>
    state === 'holds' && preload
      ? [
          {
            item: piece.item.id,
            preload_N: preload.high / (1 + scatter),
            proof_N: preload.proof,
            work_force_N: low,
            nose: placeInPlate(standSeen(mounted, piece), at),
          },
        ]
      : [],
  )
  const fall = part.rpmAt2
  return { factor: part.result.factor, rpm_at_factor_2: Number.isFinite(fall) ? fall : null, clamps }
}

function clampCount({ pieces }: Mounted, states: readonly ClampState[]): Finding[] {
  const count = pieces.filter((p) => isClamp(p.item)).length
  if (states.every((s) => s.state === 'nothing')) {
    const message =
      count === 0
        ? 'Nothing holds the part: no clamp is placed and no bolt goes through it. Add clamps.'
        : 'Nothing holds the part: none of its clamps presses it. Mend what is said of each of them.'
    return [finding('stop', 'no-clamp', 'setup', message)]
  }
  const pressing = states.filter((s) => s.state !== 'nothing').map((s) => s.piece.item)
  if (pressing.length >= LEAST_CLAMPS) return []
  const word = holderWord(pressing)
  const asked = `A lathe maker's manual asks for at least three independent clamping points on a faceplate, at low speed. Add ${word === 'bolt' ? 'bolts or clamps' : 'clamps'}.`
  return pressing.length === 1
    ? [
        finding(
          'caution',
          'one-clamp',
          'setup',
          `One ${word} alone holds the part: if it lets go, nothing does. ${asked}`,
        ),
      ]
    : [finding('caution', 'few-clamps', 'setup', `The part is held by ${holders(pressing)}. ${asked}`)]
}

/** `two bolts`; `a clamp and a bolt`. */
function holders(items: readonly Hardware[]): string {
  const bolts = items.filter((item) => item.kind === 'bolt').length
  return bolts === 1 ? 'a clamp and a bolt' : `two ${holderWord(items)}s`
}

function packingFindings(mounted: Mounted, { part }: Judged): Finding[] {
  const { job, setup } = mounted
  const fmt = formatter(job.displayUnits)
  const friction = frictionOf(job, setup)
  const tall = part.built.tall.map(({ id, height, width }) => {
    const counted = plain(padFriction(height, width, friction), 3)
    const message = `The packing of ${id} tips before it slides: ${fmt.length(height)} tall on ${fmt.length(width)}. It counts with friction ${counted} instead of ${plain(friction, 2)}. Use lower or wider packing.`
    return finding('caution', 'packing-tall', id, message)
  })
  return [...tall, ...part.built.unpressed.flatMap((id) => unpressedFinding(mounted, id))]
}

/** Loose packing that nothing presses for certain; bolted packing stays. */
function unpressedFinding({ pieces }: Mounted, id: string): Finding[] {
  const piece = pieces.find((p) => p.item.id === id)
  const bolted = piece?.item.kind === 'packing' && piece.fastenings.length > 0
  if (!piece || bolted) return []
  const message = `Whether anything presses the packing ${id} is not known: no toe lies over it, and the part may rest on the others. It would fly off. Put a toe over it, bolt it down, or take it out.`
  return [finding('note', 'packing-unpressed', id, message, piece.at)]
}

/** What was taken for granted, or left out. */
function assumptions({ job, setup }: Mounted): Finding[] {
  const findings: Finding[] = []
  const times = [...(job.lathe.startTime ? [] : ['starting']), ...(job.lathe.brakeTime ? [] : ['stopping'])]
  if (times.length > 0) {
    const message = `${times.join(' and ')} within ${ASSUMED_TIME} s is assumed for the joints: the lathe's own times are not given.`
    findings.push(finding('note', 'start-stop-assumed', 'lathe', capital(message)))
  }
  if (!setup.cuts) {
    const message =
      'What is cut is not known: the part is judged against pull, weight, start and stop alone. List the cuts, or say that nothing is cut.'
    findings.push(finding('caution', 'no-cut', 'setup', message))
  }
  return findings
}

function frictionFindings({ job, setup }: Mounted): Finding[] {
  const friction = frictionOf(job, setup)
  const said = setup.frictionCoefficient ?? friction
  const findings: Finding[] = []
  if (said > BOLD_FRICTION) {
    const counted = said > friction ? ` It counts as ${plain(friction, 2)}.` : ''
    const message = `Friction ${plain(said, 2)} is above fixture-design figures (${frictionWords()}). Clean, dry bench values do not hold in a workshop.${counted}`
    findings.push(finding('caution', 'friction-bold', 'setup', message))
  }
  const ground = job.part.surface === 'ground' || job.plate.surface === 'ground'
  if (ground && friction > CHUCK_FRICTION.ground) {
    const message = `Faces are ground: chuck makers reckon with friction ${CHUCK_FRICTION.ground} there, ${plain(friction, 2)} is taken here. Give your own figure if you know it lower.`
    findings.push(finding('note', 'friction-ground', 'setup', message))
  }
  return findings
}
