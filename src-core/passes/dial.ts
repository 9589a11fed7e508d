/** The cross-slide's dial. */
import type { Cut } from '../job/schema.ts'
import { convert } from '../units/convert.ts'

/** `division` in mm, whatever its figures are in. */
export type Dial = NonNullable<Extract<Cut, { kind: 'bore' }>['dial']>

/** mm on the diameter that one division gives. */
export const perDivision = ({ on, division }: Dial): number => (on === 'radius' ? 2 : 1) * division

/** What the dial reads after so many divisions, in what its figures are in. */
export const dialReading = ({ division, unit }: Dial, divisions: number): number =>
  divisions * (unit === 'thou' ? convert(division, 'mm', 'mil') : division)
