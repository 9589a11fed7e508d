import { atMost } from '../geometry/tolerance.ts'
import type { Point } from '../geometry/types.ts'
import { effectOf, type Effect, type FindingCode, type Severity, type SeverityOf } from './codes.ts'

/** One thing found out about a setup, worded for the machinist. */
export interface Finding {
  readonly severity: Severity
  /** Stable, kebab-case. */
  readonly code: FindingCode
  /** Id of the thing it is about: a piece of hardware, a body, a bore, 'part', 'plate', 'lathe', 'setup'. */
  readonly item: string
  /** Carries its inputs, its limit and what would cure it. */
  readonly message: string
  /** Where on the plate to look, plate frame, mm; null where it has no place. */
  readonly at: Point | null
  /** What it does to the verdict of each speed above `fromRpm`. */
  readonly effect: Effect
  /** rpm above which the effect holds; 0: at every speed, standing still and turned by hand as well. */
  readonly fromRpm: number
}

/** One finding, its effect as the list of codes has it. @param at plate frame, mm. @param fromRpm see `Finding`. */
export function finding<C extends FindingCode>(
  severity: SeverityOf<C>,
  code: C,
  item: string,
  message: string,
  at: Point | null = null,
  fromRpm = 0,
): Finding {
  const place = at && { x: at.x, y: at.y }
  return { severity, code, item, message, at: place, effect: effectOf(code, severity), fromRpm }
}

/** How a finding stands before the reader: its severity, or that something is not known. */
export type Standing = Severity | 'not-judged'

/** Worst first. */
export const STANDINGS: readonly Standing[] = ['stop', 'not-judged', 'caution', 'note']

export const standingOf = (f: Finding): Standing => (f.effect === 'unknown' ? 'not-judged' : f.severity)

/** The same at a speed in rpm: what takes effect above it only is a caution yet. */
export const standingAt = (f: Finding, rpm: number | null): Standing =>
  f.effect !== 'none' && f.fromRpm > 0 && atMost(rpm ?? 0, f.fromRpm) ? 'caution' : standingOf(f)

/** Worst first at a speed in rpm, otherwise in the order they were found. */
export function worstFirst(findings: readonly Finding[], rpm: number | null): Finding[] {
  const rank = (f: Finding) => STANDINGS.indexOf(standingAt(f, rpm))
  return [...findings].sort((a, b) => rank(a) - rank(b))
}

/** The message up to its figures: what comes before the first colon, semicolon or full stop after the item's own name. */
export function briefly({ item, message }: Finding): string {
  const named = message.indexOf(`(${item})`)
  const from = named < 0 ? 0 : named
  const end = /[:;](?=\s)|[.!?](?=\s|$)/.exec(message.slice(from))
  return end ? message.slice(0, from + end.index) : message
}

/** How a piece of hardware is called in a message: its id, with its name where it has one. */
export function called(item: { readonly id: string; readonly name?: string | undefined }): string {
  return item.name ? `${item.name} (${item.id})` : item.id
}
