/** What a check has to say of a piece, and what that makes of the piece as a press on the part. */
import type { Finding } from '../findings/finding.ts'

export interface Ruling {
  readonly finding: Finding
  /** 'nothing': it is known not to press; 'unknown': that cannot be told; null: it presses all the same. */
  readonly makes: 'nothing' | 'unknown' | null
}

export const findingsOf = (rulings: readonly Ruling[]): Finding[] => rulings.map((r) => r.finding)
