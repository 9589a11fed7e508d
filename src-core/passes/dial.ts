/** The cross-slide's dial. */
import { convert } from '../units/convert.ts'

export interface Dial {
  /** Whether its figures are of the radius or of the diameter. */
  readonly on: 'radius' | 'diameter'
  /** One division, in its own unit. */
  readonly division: number
  readonly unit: 'mm' | 'thou'
}

/** mm on the diameter that one division gives. */
export const perDivision = ({ on, division, unit }: Dial): number =>
  (on === 'radius' ? 2 : 1) * (unit === 'thou' ? convert(division / 1000, 'in', 'mm') : division)

/** What the dial reads after so many divisions, in its own unit. */
export const dialReading = ({ division }: Dial, divisions: number): number => divisions * division
