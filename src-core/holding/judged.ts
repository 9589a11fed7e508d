/** All joints of a setup, judged. */
import type { CuttingAdvice } from '../cutting/advice.ts'
import type { Point3 } from '../geometry/types.ts'
import type { Assembly } from '../unbalance/assembly.ts'
import type { Mounted } from '../mounting/types.ts'
import type { BuiltJoint } from './builtJoint.ts'
import { clampJoint } from './clampJoint.ts'
import type { ClampState } from './clampState.ts'
import { Joint, type JointMode, type JointResult } from './joint.ts'
import { partJoint, type PartJoint } from './partJoint.ts'
import { studJoint } from './studJoint.ts'

/** Factor that Evenswing asks of a joint. Rule of thumb, its own: loads and friction are both rough. */
export const WANTED_FACTOR = 2

export interface JudgedJoint {
  readonly built: BuiltJoint
  readonly joint: Joint | null
  /** At the chosen speed, or standing still; null where it is not judged. */
  readonly result: JointResult | null
  /** rpm at which the factor falls to 2; 0 where it is below 2 at rest, Infinity where it never does. */
  readonly rpmAt2: number
}

function judge(built: BuiltJoint, rpm: number): JudgedJoint {
  const joint = built.input && new Joint(built.input)
  const result = joint?.at(rpm) ?? null
  if (!joint || !result?.judged) return { built, joint: null, result: null, rpmAt2: 0 }
  return { built, joint, result, rpmAt2: joint.rpmAtFactor(WANTED_FACTOR) }
}

export interface JointsInput {
  readonly mounted: Mounted
  readonly assembly: Assembly
  readonly cutting: CuttingAdvice | null
  readonly states: readonly ClampState[]
}

export interface Judged {
  readonly part: JudgedJoint & { readonly built: PartJoint }
  /** The part's first, the others in the order of the setup. */
  readonly joints: readonly JudgedJoint[]
}

export function judgeJoints({ mounted, assembly, cutting, states }: JointsInput): Judged {
  const rpm = mounted.setup.speed ?? 0
  const onSeat = partJoint(mounted, assembly.mountedPart, cutting, states)
  const part = { ...judge(onSeat, rpm), built: onSeat }
  const others = mounted.pieces.flatMap((piece, i) => {
    const state = states.find((s) => s.piece === piece)
    return (state ? clampJoint(mounted, state) : studJoint(mounted, piece, assembly.pieces[i]!)) ?? []
  })
  return { part, joints: [part, ...others.map((b) => judge(b, rpm))] }
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
