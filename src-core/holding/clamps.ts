/** Whether the clamps hold the part: preload, proof load, lever, and the factor against slip at each speed. */
import type { CuttingAdvice } from '../cutting/advice.ts'
import type { Finding } from '../findings/finding.ts'
import { uncertaintiesOf, type Uncertainties } from '../doubt/defaults.ts'
import { polar } from '../geometry/angles.ts'
import type { Point, Point3 } from '../geometry/types.ts'
import type { Job, Setup } from '../job/schema.ts'
import { pressPoint } from '../mounting/press.ts'
import type { Mounted, MountedPiece } from '../mounting/types.ts'
import { angularSpeed, rpmOf } from '../unbalance/static.ts'
import { formatter, plain, significant } from '../units/format.ts'
import { called, finding } from '../findings/finding.ts'
import { frictionOf, frictionWords } from './friction.ts'
import { boltPreload, strapForce } from '../hardware/preload.ts'
import { SlipGroup, type FrictionPoint, type SlipLoads } from './slip.ts'
import { fastenerOf } from '../hardware/fastener.ts'
import { findThread, proofLoad, type Thread } from '../hardware/threads.ts'

/** Factor against slip that Evenswing asks for. Rule of thumb, its own: loads and friction are both rough. */
export const WANTED_FACTOR = 2
/** A lathe maker's manual asks for at least three independent clamping devices on a faceplate. */
export const LEAST_CLAMPS = 3
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

export interface Clamping {
  /** Factor against slip at the chosen speed (standing still where no speed is chosen). */
  readonly factor: number
  /** rpm at which the factor falls to 2; null where it never does, 0 where it is below 2 at rest. */
  readonly rpm_at_factor_2: number | null
  readonly clamps: readonly ClampLoad[]
  /** Ids of clamps of which too little is known: they count as holding nothing. */
  readonly unjudged: readonly string[]
}

export interface ClampInput {
  readonly job: Job
  readonly setup: Setup
  readonly mounted: Mounted
  readonly partMass_kg: number
  /** Centre of mass of the part, plate frame. */
  readonly partCentre: Point3
  readonly speeds: readonly number[]
  readonly chosenRpm: number | null
  readonly cutting: CuttingAdvice | null
}

export interface ClampCheck {
  readonly clamping: Clamping | null
  /** Factor at a speed in rpm; null where it was not checked. */
  readonly factorAt: (rpm: number) => number | null
  readonly findings: readonly Finding[]
}

export function clampingCheck(input: ClampInput): ClampCheck {
  const { job, mounted } = input
  const doubt = uncertaintiesOf(job)
  const pieces = mounted.pieces.filter((p) => p.item.kind === 'clamp' || p.item.kind === 'press')
  const findings = countFindings(pieces.length)
  if (pieces.length === 0) return { clamping: null, factorAt: () => null, findings }
  const unjudged: { piece: MountedPiece; why: string }[] = []
  const loads: ClampLoad[] = []
  for (const piece of pieces) {
    const made = madeOf(piece)
    if (typeof made === 'string') unjudged.push({ piece, why: made })
    else loads.push(clampLoad(job, piece, made, doubt, findings))
  }
  findings.push(...boldFriction(input))
  const unchecked = notChecked(input, loads, findings)
  if (unchecked) {
    findings.push(...unjudged.map(({ piece, why }) => unjudgedFinding(piece, why, 0)))
    return { clamping: null, factorAt: () => null, findings }
  }
  const groups = slipGroups(input, loads)
  const factorAt = (rpm: number) => Math.min(...groups.map((g) => g.factor(angularSpeed(rpm))))
  const factor = factorAt(input.chosenRpm ?? 0)
  const fall = Math.min(...groups.map((g) => g.speedAtFactor(WANTED_FACTOR)))
  const clamping: Clamping = {
    factor,
    rpm_at_factor_2: Number.isFinite(fall) ? rpmOf(fall) : null,
    clamps: loads,
    unjudged: unjudged.map(({ piece }) => piece.item.id),
  }
  findings.push(...factorFindings(input, clamping))
  // Where the others hold, theirs is the verdict.
  findings.push(...unjudged.map(({ piece, why }) => unjudgedFinding(piece, why, clamping.rpm_at_factor_2)))
  return { clamping, factorAt, findings }
}

function countFindings(count: number): Finding[] {
  if (count >= LEAST_CLAMPS) return []
  if (count === 0) {
    const message = `Nothing holds the part: there is no clamp. A lathe maker's manual asks for at least three independent clamping points on a faceplate. Add clamps.`
    return [finding('stop', 'no-clamp', 'setup', message)]
  }
  const message = `The part is held by ${count === 1 ? 'one clamp' : 'two clamps'}. A lathe maker's manual asks for at least three independent clamping points on a faceplate, at low speed. Add clamps.`
  return [finding('caution', 'few-clamps', 'setup', message)]
}

function boldFriction({ job, setup }: ClampInput): Finding[] {
  const friction = frictionOf(job, setup)
  if (!(friction > BOLD_FRICTION)) return []
  const message = `Friction ${plain(friction, 2)} is above fixture-design figures (${frictionWords()}). Clean, dry bench values do not hold in a workshop.`
  return [finding('caution', 'friction-bold', 'setup', message)]
}

/** What a clamp that can be judged is made of; a word why where it cannot. */
function madeOf(piece: MountedPiece): ClampMade | string {
  const fastener = fastenerOf(piece.item)
  const { toWork, toHeel } = leversOf(piece)
  if (
    !fastener?.thread ||
    !fastener.strengthClass ||
    !fastener.torque ||
    toWork === null ||
    toHeel === null
  ) {
    const missing = [
      ...(fastener?.thread ? [] : ['thread']),
      ...(fastener?.strengthClass ? [] : ['strength class']),
      ...(fastener?.torque ? [] : ['torque']),
      ...(toWork === null ? ['distance from bolt to work'] : []),
      ...(toHeel === null ? ['distance from bolt to heel'] : []),
    ]
    return `${missing.join(', ')} not given`
  }
  const thread = findThread(fastener.thread)
  if (!thread) return `thread ${fastener.thread} is not in the table`
  const proof = proofLoad(thread, fastener.strengthClass)
  if (proof === null) return `class ${fastener.strengthClass} is not in the table for ${thread.name}`
  return { thread, strength: fastener.strengthClass, torque: fastener.torque, proof, toWork, toHeel }
}

interface ClampMade {
  readonly thread: Thread
  readonly strength: string
  readonly torque: number
  readonly proof: number
  readonly toWork: number
  readonly toHeel: number
}

/** @param holds rpm up to which the others hold without it; null where they always do. */
function unjudgedFinding({ item, at }: MountedPiece, why: string, holds: number | null): Finding {
  const message = `${called(item)} not checked: ${why}. It counts as holding nothing`
  if (holds === null)
    return finding('note', 'clamp-not-checked', item.id, `${message}; the others hold without it.`, at)
  return finding('caution', 'clamp-not-checked', item.id, `${message}.`, at, holds)
}

/** A clamp that can be judged; over its proof load is found. */
function clampLoad(
  job: Job,
  piece: MountedPiece,
  made: ClampMade,
  doubt: Uncertainties,
  findings: Finding[],
): ClampLoad {
  const { item } = piece
  const { thread, strength, torque, proof } = made
  const fmt = formatter(job.displayUnits)
  const preload = boltPreload(torque, doubt.nutFactor, thread.diameter)
  const high = preload * (1 + doubt.preloadScatter)
  if (high > proof) {
    const over = preload > proof ? 'stop' : 'caution'
    const message = `${called(item)} ${over === 'stop' ? 'is' : 'may be'} tightened over its proof load: ${fmt.torque(torque)} on ${thread.name} ${strength} gives ${fmt.force(preload)} (nut factor ${plain(doubt.nutFactor, 2)}; up to ${fmt.force(high)} with ±${fmt.percent(doubt.preloadScatter)} scatter) against a proof load of ${fmt.force(proof)}. Tighten to ${fmt.torque((torque * proof) / high)} or less, or use a stronger stud.`
    findings.push(finding(over, 'over-proof-load', item.id, message, piece.at))
  }
  const low = Math.min(preload * (1 - doubt.preloadScatter), proof)
  return {
    item: item.id,
    preload_N: preload,
    proof_N: proof,
    work_force_N: strapForce(low, made.toWork, made.toHeel),
    nose: nosePoint(piece, made.toWork),
  }
}

/** mm from the bolt to work and heel: worked out of a clamp, as typed of a press. */
function leversOf({ item, toe }: MountedPiece): { toWork: number | null; toHeel: number | null } {
  if (toe) return toe
  const press = item.kind === 'press' ? item.press : null
  return { toWork: press?.boltToWork ?? null, toHeel: press?.boltToHeel ?? null }
}

/** Where the clamp presses: as known, else from its bolt along its length. */
function nosePoint(piece: MountedPiece, toWork: number): Point {
  const known = pressPoint(piece)
  if (known) return { x: known.x, y: known.y }
  const out = polar(toWork, piece.facing)
  return { x: piece.at.x + out.x, y: piece.at.y + out.y }
}

function notChecked(
  { setup, cutting, job }: ClampInput,
  loads: readonly ClampLoad[],
  findings: Finding[],
): boolean {
  if (loads.length === 0) {
    findings.push(
      finding(
        'caution',
        'clamps-not-checked',
        'setup',
        'Clamps not checked: no clamp has thread, class, torque and lever given. Whether they hold is not known.',
      ),
    )
    return true
  }
  if (!setup.cut) {
    findings.push(
      finding(
        'note',
        'no-cut',
        'setup',
        'No cut is given: the clamps are judged against the pull and the weight of the part alone.',
      ),
    )
    return false
  }
  if (cutting && cutting.torque_N_m !== null) return false
  findings.push(
    finding(
      'caution',
      'clamps-not-checked',
      'setup',
      `Clamps not checked: the cutting force in "${job.part.material}" is not known. Name a material of the table, or leave the cut out to judge pull and weight alone.`,
    ),
  )
  return true
}

/** One group for boring and, where a drill opens the bore, one for drilling; the lower factor counts. */
function slipGroups(input: ClampInput, loads: readonly ClampLoad[]): SlipGroup[] {
  const { setup, cutting } = input
  const friction = frictionOf(input.job, setup)
  const points: FrictionPoint[] = loads.map((l) => ({
    at: l.nose,
    capacity: friction * l.work_force_N,
  }))
  const load = (force: number, torque: number): SlipLoads => ({
    mass: input.partMass_kg,
    centre: input.partCentre,
    force,
    torque: torque * 1000,
  })
  if (!setup.cut || !cutting) return [new SlipGroup(points, load(0, 0))]
  const groups = [new SlipGroup(points, load(cutting.tangential_force_N ?? 0, cutting.torque_N_m ?? 0))]
  if (cutting.drill_torque_N_m !== null) groups.push(new SlipGroup(points, load(0, cutting.drill_torque_N_m)))
  return groups
}

function factorFindings({ job, setup, chosenRpm, cutting }: ClampInput, clamping: Clamping): Finding[] {
  const fmt = formatter(job.displayUnits)
  const total = clamping.clamps.reduce((s, c) => s + c.work_force_N, 0)
  const cutWords =
    setup.cut && cutting
      ? `, cut ${fmt.force(cutting.tangential_force_N ?? 0)} and ${fmt.torque(Math.max(cutting.torque_N_m ?? 0, cutting.drill_torque_N_m ?? 0))}`
      : ', no cut'
  const count = clamping.clamps.length
  const { nutFactor, preloadScatter } = uncertaintiesOf(job)
  const friction = frictionOf(job, setup)
  const figures = `${count === 1 ? '1 clamp presses' : `${count} clamps press`} ${fmt.force(total)} (nut factor ${plain(nutFactor, 2)}, low side of ±${fmt.percent(preloadScatter)} scatter), friction ${plain(friction, 2)}${cutWords}`
  const at = chosenRpm === null ? 'standing still' : `at ${fmt.speed(chosenRpm)}`
  const factor = `factor against slip ${significant(clamping.factor, 2)} ${at}`
  const wanted = `Evenswing asks for ${WANTED_FACTOR} as a rule of thumb`
  // Written so that a factor that is no number never passes.
  if (!(clamping.factor >= WANTED_FACTOR)) {
    const from = clamping.rpm_at_factor_2 ?? 0
    if (clamping.unjudged.length > 0) {
      const message = `Whether the clamps hold is not known: without ${clamping.unjudged.join(', ')} ${factor}; ${figures}. ${wanted}. Give what is missing.`
      return [finding('caution', 'clamps-slip', 'setup', message, null, from)]
    }
    const message = `The clamps may not hold: ${factor}; ${figures}. ${wanted}. Add clamps, spread them, tighten within the proof load, or cut lighter.`
    return [finding('stop', 'clamps-slip', 'setup', message, null, from)]
  }
  const fall =
    clamping.rpm_at_factor_2 === null
      ? ''
      : `; it falls to ${WANTED_FACTOR} at ${fmt.speed(clamping.rpm_at_factor_2)}`
  return [
    finding(
      'note',
      'clamps-hold',
      'setup',
      `By friction alone the clamps have ${factor}${fall}; ${figures}. ${wanted}.`,
    ),
  ]
}
