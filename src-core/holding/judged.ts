/** All joints of a setup, judged. */
import type { CuttingAdvice } from '../cutting/advice.ts'
import { outOf } from '../geometry/space/pose.ts'
import type { Point3 } from '../geometry/types.ts'
import type { Assembly } from '../unbalance/assembly.ts'
import { isShelf, type Fixture, type Hardware, type Shelf } from '../job/schema.ts'
import type { MassMoments } from '../mass/massMoments.ts'
import { fixturesOf } from '../mounting/fixtures.ts'
import { keptLast } from '../geometry/kept.ts'
import { isVeeBlock, type VeeBlock } from '../mounting/shelf.ts'
import { SEAT_PLAY } from '../mounting/shelfSize.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { capacityAt, type Backing } from './backing.ts'
import type { BuiltJoint } from './builtJoint.ts'
import { blockJoint } from './blockJoint.ts'
import { carriedBy, fixtureJoint } from './fixtureJoint.ts'
import { clampJoint } from './clampJoint.ts'
import type { ClampState } from './clampState.ts'
import { BackedJoint } from './backedJoint.ts'
import { backingsOf, type Backed } from './backings.ts'
import { Joint, type JointMode, type JointResult } from './joint.ts'
import { fromOwnSeat, isAcross } from './ownSeat.ts'
import { partJoint, type PartJoint } from './partJoint.ts'
import { partStand, standOf } from './stand.ts'
import { studJoint } from './studJoint.ts'
import { partInVee } from './veeSeat.ts'
import { twinJoint } from './twinJoint.ts'

/** Factor that Evenswing asks of a joint. Rule of thumb, its own: loads and friction are both rough. */
export const WANTED_FACTOR = 2

export interface JudgedJoint {
  readonly built: BuiltJoint
  /** At the chosen speed, or standing still; null where it is not judged. */
  readonly result: JointResult | null
  /** rpm at which the factor falls to 2; 0 where it is below 2 at rest, Infinity where it never does. */
  readonly rpmAt2: number
}

function judge(built: BuiltJoint, rpm: number, backings: readonly Backing[] = []): JudgedJoint {
  const { input } = built
  const joint = input && (backings.length > 0 ? new BackedJoint(input, backings) : new Joint(input))
  const result = joint?.at(rpm) ?? null
  if (!joint || !result?.judged) return { built, result: null, rpmAt2: 0 }
  return { built, result, rpmAt2: joint.rpmAtFactor(WANTED_FACTOR) }
}

export interface JointsInput {
  readonly mounted: Mounted
  readonly assembly: Assembly
  readonly cutting: CuttingAdvice | null
  readonly states: readonly ClampState[]
}

export interface Judged {
  readonly part: JudgedJoint & { readonly built: PartJoint }
  /** Stops and pins, in the order of the setup, with the N that each bears of the part at the chosen speed. */
  readonly backed: readonly (Backed & { readonly bears: number })[]
  /** The part's first, the others in the order of the setup. */
  readonly joints: readonly JudgedJoint[]
}

/** Every joint of a setup at its chosen speed, or standing still where it has none. */
export function judgeJoints(input: JointsInput): Judged {
  const { mounted, assembly, states } = input
  const rpm = mounted.setup.speed ?? 0
  const stops = backingsOf(mounted, assembly.pieces)
  const part = judgePart(input, stops)
  const others = mounted.pieces.flatMap((piece, i) => {
    const state = states.find((s) => s.piece.item.id === piece.item.id)
    const { stand, seen } = standOf(mounted, piece)
    if (piece.item.kind === 'fixture' || isShelf(piece.item)) return judgeFixture(input, piece, piece.item)
    if (piece.item.kind === 'twin')
      return judgeKept(piece.item, twinJoint(mounted, piece, piece.item, assembly.pieces[i]!), rpm)
    const joint = state ? judgeClamp(stand, state) : judgeStuds(stand, seen, assembly.pieces[i]!)
    return joint ?? []
  })
  const backed = stops.map((b) => ({
    ...b,
    bears: b.backing ? capacityAt(b.backing, rpm) : 0,
  }))
  return { part, backed, joints: [part, ...others] }
}

const keptJoints = new WeakMap<
  object,
  { readonly key: string; readonly judged: Omit<JudgedJoint, 'built'> }
>()

/**
 * Judged anew only where its input or the speed has changed; what is on a shelf as it looks from its own seat.
 * @param owner the part or the piece, immutable.
 */
function judgeKept<B extends BuiltJoint>(
  owner: object,
  built: B,
  rpm: number,
  backings: readonly Backing[] = [],
) {
  const { input } = built
  const own = input && backings.length === 0 && isAcross(input.seat) ? fromOwnSeat(input) : null
  const seen = own ? { ...built, input: own } : built
  const key = JSON.stringify([seen.input, rpm, backings])
  let kept = keptJoints.get(owner)
  if (kept?.key !== key) keptJoints.set(owner, (kept = { key, judged: judge(seen, rpm, backings) }))
  const { result, rpmAt2 } = kept.judged
  const at = own && input && result?.at ? outOf(input.seat, result.at) : result?.at
  return { built, result: result && { ...result, at: at ?? null }, rpmAt2 }
}

function judgeFixture(input: JointsInput, piece: MountedPiece, item: Fixture | Shelf): JudgedJoint {
  const { mounted, assembly, cutting, states } = input
  const built = isVeeBlock(item)
    ? buildBlock(input, piece, item)
    : fixtureJoint(mounted, piece, item, assembly, cutting, states)
  return judgeKept(item, built, mounted.setup.speed ?? 0)
}

function buildBlock(
  { mounted, assembly, cutting, states }: JointsInput,
  piece: MountedPiece,
  item: VeeBlock,
): BuiltJoint {
  const { stand, seen } = standOf(mounted, piece)
  const body = carriedBy(mounted, item, assembly, mounted.setup.seat?.on === item.id)
  return blockJoint(mounted, stand, seen, item, body, cutting, states)
}

/** Kept per part while all that it hangs on stays, so that a weight is dragged without a search. */
function judgePart(
  { mounted, assembly, cutting, states }: JointsInput,
  backed: readonly Backed[],
): Judged['part'] {
  const stand = partStand(mounted)
  const part = assembly.mountedPart
  const built =
    partInVee(mounted, stand, part, cutting, states) ?? partJoint(mounted, stand, part, cutting, states)
  const backings = backed.flatMap((b) => b.backing ?? [])
  return judgeKept(mounted.job.part, built, mounted.setup.speed ?? 0, backings)
}

const keptPieces = keptLast<Hardware, JudgedJoint | null>()

/** Kept per piece, which is immutable, while what its joint hangs on besides stays; of one on a shelf that is its pose too. */
function keep(
  { shelf, setup }: Mounted,
  item: Hardware,
  hangsOn: readonly unknown[],
  build: () => BuiltJoint | null,
): JudgedJoint | null {
  const rpm = setup.speed ?? 0
  if (shelf) {
    const built = build()
    return built && judgeKept(item, built, rpm)
  }
  return keptPieces(item, hangsOn, () => {
    const built = build()
    return built && judge(built, rpm)
  })
}

const surroundings = ({ job, setup }: Mounted): unknown[] => [
  job.plate,
  job.stock,
  job.lathe,
  job.uncertainty,
  setup.frictionState,
  ...fixturesOf(setup),
  setup.speed,
]

function judgeClamp(mounted: Mounted, state: ClampState): JudgedJoint | null {
  const { piece } = state
  const rest = piece.toe?.rest
  const hangsOn = [state.state, state.low, state.high, rest?.z, rest?.share, ...surroundings(mounted)]
  // A toe partly off the work lies anywhere on it.
  const whole = rest && rest.share >= 1 ? piece.item : { ...piece.item }
  return keep(mounted, whole, hangsOn, () => clampJoint(mounted, state))
}

function judgeStuds(mounted: Mounted, piece: MountedPiece, body: MassMoments): JudgedJoint | null {
  const build = () => studJoint(mounted, piece, body)
  if (piece.z0 <= SEAT_PLAY) return keep(mounted, piece.item, surroundings(mounted), build)
  const built = build()
  return built && judge(built, mounted.setup.speed ?? 0)
}

/** One joint as `check --json` prints it. */
export interface JointRow {
  /** 'part', or the id of the piece. */
  readonly id: string
  readonly what: string
  /** At the chosen speed; null: not judged. */
  readonly factor: number | null
  /** Whichever is nearer; null where it is not judged or nothing loads it. */
  readonly mode: JointMode | null
  /** λ_s and λ_t; null where nothing slides or tips it, or it is not judged. */
  readonly sliding: number | null
  readonly tipping: number | null
  /** rpm at which the factor falls to 2; null where it never does, or it is not judged. */
  readonly rpm_at_2: number | null
  /** The press or the middle of the edge that it hangs on, plate frame, mm. */
  readonly at: Point3 | null
}

const finite = (n: number | undefined): number | null => (n !== undefined && Number.isFinite(n) ? n : null)

export const jointRow = ({ built, result, rpmAt2 }: JudgedJoint): JointRow => ({
  id: built.id,
  what: built.what,
  factor: finite(result?.factor),
  mode: result?.mode ?? null,
  sliding: finite(result?.sliding),
  tipping: finite(result?.tipping),
  rpm_at_2: result && finite(rpmAt2),
  at: result?.at ?? null,
})
