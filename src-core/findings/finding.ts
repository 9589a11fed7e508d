import type { Point } from '../geometry/types.ts'

export type Severity = 'stop' | 'caution' | 'note'

/** One thing found out about a setup, worded for the machinist. */
export interface Finding {
  readonly severity: Severity
  /** Stable, kebab-case: see `codes.ts`. */
  readonly code: string
  /** Id of the thing it is about: a piece of hardware, a body, a bore, 'part', 'plate', 'lathe', 'setup'. */
  readonly item: string
  /** Carries its inputs, its limit and what would cure it. */
  readonly message: string
  /** Where on the plate to look, plate frame, mm; null where it has no place. */
  readonly at: Point | null
}

/** One finding; `at` in the plate frame. */
export function finding(
  severity: Severity,
  code: string,
  item: string,
  message: string,
  at: Point | null = null,
): Finding {
  return { severity, code, item, message, at: at && { x: at.x, y: at.y } }
}

const ORDER: Record<Severity, number> = { stop: 0, caution: 1, note: 2 }

/** Worst first, otherwise in the order they were found. */
export function worstFirst(findings: readonly Finding[]): Finding[] {
  return [...findings].sort((a, b) => ORDER[a.severity] - ORDER[b.severity])
}

/** How a piece of hardware is called in a message: its id, with its name where it has one. */
export function called(item: { readonly id: string; readonly name?: string | undefined }): string {
  return item.name ? `${item.name} (${item.id})` : item.id
}
