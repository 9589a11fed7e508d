/**
 * The part turned on the plate as one more way to balance: the heavy side is brought opposite to a slot. Turning
 * changes what is free, so turns are tried every few degrees, and between them where a weight that fits there
 * would leave nothing: the part's pull P and the rest R meet when |R + a·u| = |P|. With no weight or one station of
 * few pieces; sampled, so not proven to be the best.
 */
import { pressPoint } from '../mounting/press.ts'
import type { Analysis } from '../analysis/result.ts'
import { clashFindings } from '../clearance/clashes.ts'
import { directionOf, turnBetween, turnPoint } from '../geometry/angles.ts'
import { inRegion } from '../geometry/nearest.ts'
import type { Point } from '../geometry/types.ts'
import type { Job } from '../job/schema.ts'
import { findSetup, mountSetup } from '../mounting/mount.ts'
import type { Mounted } from '../mounting/types.ts'
import { changeSetup } from './apply.ts'
import { NOTHING } from './choose.ts'
import { amountAt, type Entry } from './entries.ts'
import { FreeRadii } from './free.ts'
import type { Front } from './front.ts'
import { Model, type Bolting, type ModelOptions } from './searchModel.ts'
import { searchModel, type SearchLimits, type SearchState } from './search.ts'

export interface TurnInput {
  /** Without the counterweights that come off. */
  readonly job: Job
  readonly setupId: string
  readonly analysis: Analysis
  readonly bolting: Bolting
  readonly options: ModelOptions & { readonly swingMargin: number }
  readonly front: Front
  readonly limits: SearchLimits
}

/** Degrees between the turns that are tried. */
const STEP = 5
const MOST_PIECES = 3
/** Proposals between the steps that are looked into, for each number of pieces. */
const MOST_PROPOSALS = 4

interface Proposal {
  readonly turn: number
  readonly pieces: number
  readonly mass: number
}

export function searchTurns(input: TurnInput): void {
  const { job, setupId, analysis, limits } = input
  const start = findSetup(job, setupId).turn
  const part = analysis.terms.find((t) => t.item === 'part')!.unbalance_g_mm
  const rest = analysis.terms.reduce(
    (sum, t) => (t.item === 'part' ? sum : { x: sum.x + t.unbalance_g_mm.x, y: sum.y + t.unbalance_g_mm.y }),
    { x: 0, y: 0 },
  )
  const stands = standing(mountSetup(job, setupId))
  const limitsHere: SearchLimits = {
    ...limits,
    mostStations: Math.min(1, limits.mostStations),
    mostPieces: Math.min(MOST_PIECES, limits.mostPieces),
  }
  const baseAt = (turn: number): Point => {
    const p = turnPoint(part, turn - start)
    return { x: rest.x + p.x, y: rest.y + p.y }
  }
  const state: SearchState = { complete: true, lower: Infinity, stopped: false }
  const modelAt = (turn: number): Model | null => {
    const mounted = mountSetup(turned(job, setupId, turn), setupId)
    if (!stands(mounted)) return null
    const free = new FreeRadii(mounted, input.options.clearance, input.options.swingMargin)
    return new Model(mounted, input.bolting, free, input.options, [])
  }
  const tryTurn = (turn: number): Model | null => {
    const model = modelAt(turn)
    if (model) searchModel(model, baseAt(turn), 1, turn, input.front, limitsHere, state)
    return model
  }
  const proposals: Proposal[] = []
  if (part.x !== 0 || part.y !== 0)
    proposals.push({
      turn: start + directionOf({ x: -rest.x, y: -rest.y }) - directionOf(part),
      pieces: 0,
      mass: 0,
    })
  for (let by = 0; by < 360; by += STEP) {
    if (limits.shouldStop()) return
    limits.onStep(`part turned by ${by}°`)
    const model = by === 0 ? modelAt(start) : tryTurn(turnBetween(0, start + by))
    if (!model) continue
    for (let pieces = 1; pieces <= limitsHere.mostPieces; pieces++) {
      if (input.front.reached(pieces, 1, 1) <= NOTHING) break
      for (const found of exactTurns(model, pieces, part, rest, start))
        if (Math.abs(turnBetween(start + by, found.turn)) <= STEP / 2) proposals.push(found)
    }
  }
  for (let pieces = 0; pieces <= limitsHere.mostPieces; pieces++) {
    const list = proposals
      .filter((p) => p.pieces === pieces)
      .sort((a, b) => a.mass - b.mass || a.turn - b.turn)
    for (const { turn } of list.slice(0, MOST_PROPOSALS)) {
      if (input.front.reached(pieces, Math.min(1, pieces), 1) <= NOTHING || limits.shouldStop()) break
      tryTurn(turnBetween(0, turn))
    }
  }
}

const turned = (job: Job, setupId: string, turn: number): Job =>
  changeSetup(job, setupId, (setup) => ({ ...setup, turn }))

/** Whether a turned setup has no clash that it had not before, and every clamp's nose that was on the part still is. */
function standing(before: Mounted): (mounted: Mounted) => boolean {
  const stops = (m: Mounted) =>
    clashFindings(m)
      .filter((f) => f.severity === 'stop')
      .map((f) => `${f.code} ${f.item}`)
  const known = new Set(stops(before))
  const onPart = (m: Mounted, nose: Point) =>
    m.bodies.some((b) => b.body.effect === 'adds' && b.regions.some((r) => inRegion(r, nose)))
  const noses = before.pieces.flatMap((p) => {
    const nose = pressPoint(p)
    return nose && onPart(before, nose) ? [nose] : []
  })
  return (mounted) => noses.every((n) => onPart(mounted, n)) && stops(mounted).every((s) => known.has(s))
}

/** Turns at which one stack of so many pieces leaves nothing: |R + a·u| = |P| with a between its ends. */
function exactTurns(model: Model, pieces: number, part: Point, rest: Point, start: number): Proposal[] {
  const pull = Math.hypot(part.x, part.y)
  const found: Proposal[] = []
  const solve = (e: Entry) => {
    const u = model.directions[e.line]!
    const rx = rest.x - e.across * u.y
    const ry = rest.y + e.across * u.x
    const along = rx * u.x + ry * u.y
    const square = along * along - (rx * rx + ry * ry - pull * pull)
    if (square < 0) return
    for (const a of [-along - Math.sqrt(square), -along + Math.sqrt(square)]) {
      if (a < amountAt(e, e.r0) || a > amountAt(e, e.r1)) continue
      const wanted = directionOf({ x: -(rx + a * u.x), y: -(ry + a * u.y) })
      found.push({ turn: start + wanted - directionOf(part), pieces, mass: e.mass })
    }
  }
  for (let s = 0; s < model.stations.length; s++) for (const entry of model.entries(s, pieces)) solve(entry)
  return found
}
