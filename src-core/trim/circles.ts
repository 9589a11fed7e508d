/**
 * Where circles meet, by least squares. With |V₀| = O read first and trial weights wᵢ (g·mm) at places of their own, a
 * machine that answers in proportion reads Tᵢ = |V₀ + k·wᵢ|. Known are O and Tᵢ; unknown the direction of V₀ against the
 * plate and k. It is the construction of circles about the trial places, generalised to any places and weights; O is
 * the radius on which they stand, and is taken as read.
 */
import { FULL_TURN, angleOf } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'

export interface TrialRun {
  /** g·mm, plate frame. */
  readonly weight: Point
  readonly amplitude: number
}

export interface CircleFit {
  /** Direction of the heavy side, rad. */
  readonly angle: number
  /** Amplitude that 1 g·mm gives. */
  readonly perGmm: number
  /** Reading less what the fit gives, for each trial. */
  readonly left: readonly number[]
  /** Sum of their squares. */
  readonly squares: number
  /** By how much angle (rad) and ln k follow each trial's reading, and the first one. */
  readonly byTrial: readonly Slope[]
  readonly byFirst: Slope
}

export interface Slope {
  readonly angle: number
  readonly lnK: number
}

const DIRECTIONS = 48
/** Starting effects of the trial weights over the first reading. */
const EFFECTS = [0.05, 0.2, 0.5, 1, 2, 5]
/** Off any line of symmetry that the trial places may have: there a descent stays on the ridge between two answers. */
const ASIDE = 0.37
const ROUNDS = 80
/** Two ends nearer than this (rad, and share of k) are one. */
const SAME = 1e-5

/** All local best fits, best first. The weights must not all be nought. */
export function fitCircles(first: number, trials: readonly TrialRun[]): CircleFit[] {
  const size = trials.reduce((s, t) => s + Math.hypot(t.weight.x, t.weight.y), 0) / trials.length
  const found: State[] = []
  for (let i = 0; i < DIRECTIONS; i++)
    for (const effect of EFFECTS) {
      const start = { angle: (FULL_TURN * (i + ASIDE)) / DIRECTIONS, lnK: Math.log((effect * first) / size) }
      const end = descend(first, trials, start)
      if (end && !found.some((f) => near(f, end))) found.push(end)
    }
  return found
    .map((f) => fitAt(first, trials, f))
    .filter((f) => f !== null)
    .sort((a, b) => a.squares - b.squares)
}

type State = Slope

const near = (a: State, b: State) =>
  Math.abs(Math.cos(a.angle) - Math.cos(b.angle)) < SAME &&
  Math.abs(Math.sin(a.angle) - Math.sin(b.angle)) < SAME &&
  Math.abs(a.lnK - b.lnK) < SAME

interface Row {
  readonly left: number
  readonly dAngle: number
  readonly dLnK: number
  readonly dFirst: number
}

/** Residual of one trial and its slopes; at the centre of a circle, where it has none, they are nought. */
function rowOf(first: number, { weight, amplitude }: TrialRun, { angle, lnK }: State): Row {
  const k = Math.exp(lnK)
  const ux = Math.cos(angle)
  const uy = Math.sin(angle)
  const x = first * ux + k * weight.x
  const y = first * uy + k * weight.y
  const length = Math.hypot(x, y)
  if (!(length > 0)) return { left: -amplitude, dAngle: 0, dLnK: 0, dFirst: 0 }
  return {
    left: length - amplitude,
    dAngle: (first * (-x * uy + y * ux)) / length,
    dLnK: (k * (x * weight.x + y * weight.y)) / length,
    dFirst: (x * ux + y * uy) / length,
  }
}

const rowsOf = (first: number, trials: readonly TrialRun[], at: State) =>
  trials.map((t) => rowOf(first, t, at))
const squaresOf = (rows: readonly Row[]) => rows.reduce((s, r) => s + r.left * r.left, 0)

interface Normal {
  readonly aa: number
  readonly ak: number
  readonly kk: number
}

const normalOf = (rows: readonly Row[]): Normal =>
  rows.reduce(
    (n, r) => ({
      aa: n.aa + r.dAngle * r.dAngle,
      ak: n.ak + r.dAngle * r.dLnK,
      kk: n.kk + r.dLnK * r.dLnK,
    }),
    { aa: 0, ak: 0, kk: 0 },
  )

/** Solves the two normal equations, their diagonal raised by a share; null where they tell too little. */
function solved({ aa, ak, kk }: Normal, right: State, damping: number): State | null {
  const a = aa * (1 + damping)
  const k = kk * (1 + damping)
  const det = a * k - ak * ak
  if (!(det > 1e-12 * a * k)) return null
  return {
    angle: (k * right.angle - ak * right.lnK) / det,
    lnK: (a * right.lnK - ak * right.angle) / det,
  }
}

/** Levenberg's damped descent; null where it leads to a weight that tells nothing, or all. */
function descend(first: number, trials: readonly TrialRun[], start: State): State | null {
  let at = start
  let rows = rowsOf(first, trials, at)
  let squares = squaresOf(rows)
  let damping = 1e-3
  for (let round = 0; round < ROUNDS; round++) {
    const right = rows.reduce(
      (s, r) => ({ angle: s.angle - r.dAngle * r.left, lnK: s.lnK - r.dLnK * r.left }),
      { angle: 0, lnK: 0 },
    )
    const step = solved(normalOf(rows), right, damping)
    if (!step) return null
    const size = Math.hypot(step.angle, step.lnK)
    if (size < 1e-13) break
    const next = { angle: at.angle + step.angle, lnK: at.lnK + step.lnK }
    if (Math.abs(next.lnK - start.lnK) > 20) return null
    const nextRows = rowsOf(first, trials, next)
    const nextSquares = squaresOf(nextRows)
    if (nextSquares <= squares) {
      at = next
      rows = nextRows
      squares = nextSquares
      damping = Math.max(1e-12, damping / 5)
    } else {
      damping *= 6
      if (damping > 1e12) break
    }
  }
  return at
}

function fitAt(first: number, trials: readonly TrialRun[], at: State): CircleFit | null {
  const rows = rowsOf(first, trials, at)
  const normal = normalOf(rows)
  const slopeOf = (weight: number, row: Row) =>
    solved(normal, { angle: row.dAngle * weight, lnK: row.dLnK * weight }, 0)
  const byTrial = rows.map((r) => slopeOf(1, r))
  const byFirst = rows.map((r) => slopeOf(-r.dFirst, r))
  if (!byTrial.every((s) => s !== null) || !byFirst.every((s) => s !== null)) return null
  return {
    angle: angleOf({ x: Math.cos(at.angle), y: Math.sin(at.angle) }),
    perGmm: Math.exp(at.lnK),
    left: rows.map((r) => -r.left),
    squares: squaresOf(rows),
    byTrial,
    byFirst: byFirst.reduce((s, b) => ({ angle: s.angle + b.angle, lnK: s.lnK + b.lnK }), {
      angle: 0,
      lnK: 0,
    }),
  }
}
