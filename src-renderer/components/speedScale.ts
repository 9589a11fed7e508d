import { LIMITS, limitWords, type Ceiling, type SpeedLimits } from '../../src-core/verdict/limits.ts'

/** The spindle's speeds on a logarithmic rule, as a gearbox spaces them. */
export interface Rule {
  readonly from: number
  readonly to: number
}

/** A rule that holds all speeds with room at both ends. rpm. */
export function ruleFor(speeds: readonly number[]): Rule {
  const low = Math.min(...speeds)
  const high = Math.max(...speeds)
  return { from: low / 1.32, to: high * 1.32 }
}

/** 0 at the rule's left end, 1 at its right; speeds beyond stay at the end. */
export function place(rule: Rule, rpm: number): number {
  if (!(rpm > 0)) return 0
  return Math.min(1, Math.max(0, Math.log(rpm / rule.from) / Math.log(rule.to / rule.from)))
}

export interface Tick {
  readonly rpm: number
  readonly at: number
  readonly major: boolean
}

/** 1-2-5 ticks with the units between. */
export function ticks(rule: Rule): Tick[] {
  const list: Tick[] = []
  for (let decade = 10 ** Math.floor(Math.log10(rule.from)); decade <= rule.to; decade *= 10)
    for (let n = 1; n < 10; n += 0.5) {
      const rpm = n * decade
      if (rpm < rule.from || rpm > rule.to) continue
      list.push({ rpm, at: place(rule, rpm), major: n === 1 || n === 2 || n === 5 })
    }
  return list
}

export interface Flag {
  /** What it marks, the same however far it moves. */
  readonly of: string
  readonly at: number
  readonly text: string
  readonly kind: 'ceiling' | 'limit'
}

/** A flag for the ceiling and one for each other limit that the rule reaches; a limit that is none has none. */
export function limitFlags(rule: Rule, limits: SpeedLimits, ceiling: Ceiling): Flag[] {
  const list: Flag[] = []
  if (ceiling.rpm !== null && ceiling.limit !== null) {
    const word = limitWords(ceiling.limit).short
    list.push({
      of: 'ceiling',
      at: place(rule, ceiling.rpm),
      kind: 'ceiling',
      text: ceiling.rpm > 0 ? `ceiling ${Math.floor(ceiling.rpm)} rpm: ${word}` : `no speed: ${word}`,
    })
  }
  for (const { id, short } of LIMITS) {
    const rpm = limits[id]
    if (rpm === null || id === ceiling.limit || rpm > rule.to) continue
    list.push({ of: id, at: place(rule, rpm), kind: 'limit', text: `${short} ${Math.floor(rpm)}` })
  }
  return list
}

export interface PlacedFlag extends Flag {
  readonly row: number
}

/** Puts flags on the lowest row where they do not run into one another; widths are shares of the rule. */
export function stackFlags(flags: readonly Flag[], width: (f: Flag) => number): PlacedFlag[] {
  const ends: number[] = []
  return [...flags]
    .sort((a, b) => a.at - b.at)
    .map((flag) => {
      const w = width(flag)
      const left = Math.min(Math.max(0, flag.at - w / 2), 1 - w)
      let row = ends.findIndex((end) => end <= left)
      if (row < 0) row = ends.length
      ends[row] = left + w
      return { ...flag, row }
    })
}
