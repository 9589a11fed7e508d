import type { Finding, Severity } from '../analysis/result.ts'
import type { Point } from '../geometry/types.ts'

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
