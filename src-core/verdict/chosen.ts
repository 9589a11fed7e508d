/** The one verdict that window, command line and sheets lead with, and the bands of the rail. */
import { briefly, type Finding } from '../findings/finding.ts'
import type { Formatter } from '../units/format.ts'
import { limitWords, type Ceiling } from './limits.ts'
import { findingAt, verdictAt, type Judgement, type Verdict } from './speeds.ts'

export interface ChosenVerdict {
  readonly state: Verdict
  /** A short sentence without its full stop. */
  readonly reason: string
  /** What makes it so; null where nothing was found against it. */
  readonly finding: Finding | null
}

/** The verdict at the chosen speed in rpm; with none chosen, that of standing still and being turned by hand. */
export function chosenVerdict(chosen: number | null, judgement: Judgement, fmt: Formatter): ChosenVerdict {
  const rpm = chosen ?? 0
  const state = verdictAt(rpm, judgement)
  const finding = reasonFor(state, rpm, judgement)
  if (finding) return { state, reason: briefly(finding), finding }
  const at = chosen === null ? 'turning it by hand; no speed is chosen' : fmt.speed(rpm)
  if (state === 'go') return { state, reason: `nothing found against ${at}`, finding: null }
  const { bound, best } = judgement.ceilings
  return {
    state,
    reason: `${at} is above ${ceilingWords(state === 'stop' ? best : bound, fmt)}`,
    finding: null,
  }
}

function reasonFor(state: Verdict, rpm: number, judgement: Judgement): Finding | null {
  if (state === 'go') return null
  if (state === 'caution') return judgement.findings.find((f) => f.code === 'unbalance-near-limit') ?? null
  return findingAt(rpm, judgement, state === 'stop' ? 'stop' : 'unknown') ?? null
}

function ceilingWords({ rpm, limit }: Ceiling, fmt: Formatter): string {
  if (rpm === null || limit === null) return 'every limit'
  return `${fmt.speedLimit(rpm)}, set by ${limitWords(limit).long}`
}

export interface Band {
  /** rpm; `to` is null where it never ends. */
  readonly from: number
  readonly to: number | null
  readonly state: Verdict
}

/** Speeds from 0 on, cut where the verdict changes. */
export function verdictBands(judgement: Judgement): Band[] {
  const { ceilings, findings } = judgement
  const cuts = [
    ceilings.bound.rpm,
    ceilings.best.rpm,
    ...findings.map((f) => (f.effect === 'none' ? 0 : f.fromRpm)),
  ]
  const places = [...new Set([0, ...cuts.flatMap((rpm) => (rpm !== null && rpm > 0 ? [rpm] : []))])].sort(
    (a, b) => a - b,
  )
  return places.reduce<Band[]>((bands, from, i) => {
    const to = places[i + 1] ?? null
    const state = verdictAt(to === null ? from + 1 : (from + to) / 2, judgement)
    const last = bands.at(-1)
    if (last?.state === state) return [...bands.slice(0, -1), { ...last, to }]
    return [...bands, { from, to, state }]
  }, [])
}
