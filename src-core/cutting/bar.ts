/** A boring bar that stands out: how far it may, and how much it gives. */
import type { Formatter } from '../units/format.ts'
import { plain } from '../units/format.ts'

/** Overhang over diameter that bars of each make carry, as published by their makers. */
export const OVERHANG_LIMITS = {
  steel: 4,
  'heavy metal': 6,
  carbide: 6,
  'damped steel': 7,
  'damped carbide': 10,
} as const
export type BarMake = keyof typeof OVERHANG_LIMITS

export interface Bar {
  readonly diameter: number
  readonly overhang: number
}

/** Young's modulus of steel, N/mm². */
const STEEL = 206_000

/**
 * mm by which the tip of a round steel bar gives under a force in N across it: F·L³/(3·E·I), I = π·d⁴/64 (a beam held
 * at one end, without what its holder gives).
 */
export const barGives = (force: number, { diameter, overhang }: Bar, modulus = STEEL): number =>
  (force * overhang ** 3) / (3 * modulus * ((Math.PI * diameter ** 4) / 64))

/** `5.6 diameters, 4 as a rule`. */
export const overhangWords = ({ diameter, overhang }: Bar, make: BarMake = 'steel'): string =>
  `${plain(overhang / diameter, 1)} diameters, ${OVERHANG_LIMITS[make]} as a rule`

/** What is to be said of a bar's overhang; null where the usual rule allows it. */
export function barWords(
  { diameter, overhang }: Bar,
  fmt: Formatter,
  make: BarMake = 'steel',
): string | null {
  const ratio = overhang / diameter
  const limit = OVERHANG_LIMITS[make]
  if (ratio <= limit) return null
  return `The bar stands out too far: ${fmt.length(overhang)} of ${fmt.length(diameter)} is ${plain(ratio, 1)} diameters, a ${make} bar carries ${limit} as a rule. Take a thicker or shorter one, or lighter passes.`
}
