/** Strap clamps: their proportions and what their steel can carry. mm, N, N/mm². */
import { discArea } from '../geometry/discArea.ts'
import { byRule, inches } from '../units/convert.ts'

/** How a strap stands whose bolt is in the middle of it: toe and heel press this share of its length from the bolt. */
const CENTRED_REACH = 0.42
/** mm from the bolt to the toe, and to the heel, of a strap with its bolt in the middle. */
export const centredReach = (length: number): number => length * CENTRED_REACH

/** The strap of a clamp alone. mm. */
export interface Strap {
  readonly length: number
  readonly width: number
  readonly thickness: number
  /** From the toe's end to the middle of the bolt, where the slot has it at its nearest. */
  readonly boltFrom: number
  /** Width of the hole or slot. */
  readonly opening: number
  /** How far a slot lets the bolt go; 0: a round hole. */
  readonly slotted: number
}

export interface UsualStrap extends Strap {
  readonly thread: string
}

/**
 * A bar with the usual hole: its bolt a third of the way from work to heel, so that the work gets two thirds of its pull
 * (milling practice), and a slot that lets it go a fifth of the length (common practice, no source), as a rule of `units`
 * shows them.
 */
export const usualBar = (
  { length, width, thickness }: Pick<Strap, 'length' | 'width' | 'thickness'>,
  opening: number,
  units: 'mm' | 'in',
): Strap => ({
  length,
  width,
  thickness,
  boltFrom: byRule(length / 3, units),
  opening,
  slotted: 2 * byRule(length / 10, units),
})

const usual = (
  thread: string,
  length: number,
  width: number,
  thickness: number,
  opening: number,
  units: 'mm' | 'in' = 'mm',
): UsualStrap => ({ thread, ...usualBar({ length, width, thickness }, opening, units) })
const usualInch = (thread: string, ...sizes: [number, number, number, number]): UsualStrap => {
  const [length, width, thickness, opening] = sizes.map(inches) as [number, number, number, number]
  return usual(thread, length, width, thickness, opening, 'in')
}

/** Common practice, from memory; no standard was at hand. Measure your own. */
export const USUAL_STRAPS: readonly UsualStrap[] = [
  usual('M6', 50, 20, 10, 6.6),
  usual('M8', 60, 25, 12, 9),
  usual('M10', 80, 30, 15, 11),
  usual('M12', 100, 40, 20, 14),
  usual('M12', 125, 40, 20, 14),
  usual('M16', 125, 50, 25, 18),
  usual('M16', 160, 50, 25, 18),
  usual('M20', 160, 60, 30, 22),
  usual('M24', 200, 70, 35, 26),
  usualInch('3/8-16', 3, 5 / 4, 5 / 8, 7 / 16),
  usualInch('1/2-13', 4, 3 / 2, 3 / 4, 9 / 16),
  usualInch('5/8-11', 5, 2, 1, 11 / 16),
  usualInch('3/4-10', 6, 5 / 2, 5 / 4, 13 / 16),
]

/** mm³ of a strap less its hole, or its slot with round ends as far as that runs in it; never below 0. */
export function strapVolume({ length, width, thickness, boltFrom, opening, slotted }: Strap): number {
  const slot = Math.max(0, Math.min(slotted, length - boltFrom))
  return Math.max(0, (length * width - discArea(opening) - opening * slot) * thickness)
}

/**
 * mm³: section modulus of a strap at its bolt, less the hole, Z = (w − hole)·t²/6 (a rectangle in bending). 0 where the
 * hole leaves nothing.
 */
export const strapSectionModulus = (strap: Pick<Strap, 'width' | 'thickness' | 'opening'>): number =>
  (Math.max(0, strap.width - strap.opening) * strap.thickness ** 2) / 6

/** N/mm² in the strap at its bolt: σ = F·a/Z for a force (N) at the toe, a mm from the bolt. Infinite where Z is 0. */
export const strapStress = (
  strap: Pick<Strap, 'width' | 'thickness' | 'opening'>,
  toeForce: number,
  boltToWork: number,
): number => (toeForce * boltToWork) / strapSectionModulus(strap)

/**
 * N: the greatest force at the toe before the strap yields at its bolt, F·a = σ_y·Z. `boltToWork` in mm, `yieldsAt` in
 * N/mm². Throws RangeError where the bolt does not stand off the work, for then it is not bent there.
 */
export function greatestToeForce(
  strap: Pick<Strap, 'width' | 'thickness' | 'opening'>,
  boltToWork: number,
  yieldsAt: number,
): number {
  if (!(boltToWork > 0)) throw new RangeError(`no lever of ${boltToWork} mm from bolt to work`)
  return (yieldsAt * strapSectionModulus(strap)) / boltToWork
}
