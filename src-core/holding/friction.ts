/**
 * Friction under clamps and in threads, as published. The tables differ widely; for holding work the low figures of
 * fixture design are used. Values of physics tables for clean dry metal (0.4 to 1.1) do not hold in a workshop and are
 * left out. For paper between work and plate no published coefficient was found.
 */
import { findMaterial } from '../job/materials.ts'
import type { Job, Setup } from '../job/schema.ts'

export interface FrictionPair {
  readonly pair: string
  readonly dry: number
  readonly oiled: number
}

/** Static friction for fixture design (Carr Lane, fixture design principles, clamping force). */
export const FIXTURE_FRICTION: readonly FrictionPair[] = [
  { pair: 'steel on steel', dry: 0.15, oiled: 0.12 },
  { pair: 'steel on cast iron', dry: 0.19, oiled: 0.1 },
  { pair: 'cast iron on cast iron', dry: 0.3, oiled: 0.19 },
]

export interface NutFactor {
  readonly condition: string
  readonly k: number
}

/**
 * Nut factor K of T = K·D·F, means as published for reusable fasteners. Measured means run from 0.086 to 0.52 over
 * lubricants, and a torque wrench scatters by ±25 to ±30 %, so a job's own value is better.
 */
export const NUT_FACTORS: readonly NutFactor[] = [
  { condition: 'plain dry or zinc plated', k: 0.2 },
  { condition: 'lightly oiled or cadmium plated', k: 0.15 },
  { condition: 'anti-seize', k: 0.12 },
]

/** The pairs with steel or iron on a plate in one line, oiled to dry. */
export const frictionWords = (): string =>
  FIXTURE_FRICTION.map((f) => `${f.pair} ${f.oiled.toFixed(2)} oiled to ${f.dry.toFixed(2)} dry`).join(', ')

/** Steel on iron, oiled: what is taken where the surfaces are not known. */
export const DEFAULT_FRICTION = 0.1

/** Friction between part and seat: the shop's own, else by the table for packing of steel on a plate of iron. */
export function frictionOf({ part }: Pick<Job, 'part'>, setup: Setup): number {
  if (setup.frictionCoefficient !== null) return setup.frictionCoefficient
  const group = findMaterial(part.material)?.group ?? ''
  const iron = group.endsWith('cast iron')
  // Aluminium, brass and what is not known are taken as the lowest of the table.
  if (!iron && !group.endsWith('steel')) return DEFAULT_FRICTION
  // Under the part lies packing of steel, or the plate's iron: whichever pair holds less.
  const pairs = FIXTURE_FRICTION.filter(({ pair }) =>
    setup.packing > 0
      ? pair === (iron ? 'steel on cast iron' : 'steel on steel')
      : pair === (iron ? 'cast iron on cast iron' : 'steel on cast iron'),
  )
  const dry = setup.frictionState === 'dry'
  // Packing slides on the plate too.
  const onPlate = FIXTURE_FRICTION.find(({ pair }) => pair === 'steel on cast iron')!
  const all = setup.packing > 0 ? [...pairs, onPlate] : pairs
  return Math.min(...all.map((p) => (dry ? p.dry : p.oiled)))
}
