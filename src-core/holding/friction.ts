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

/**
 * Chuck makers' figures for smooth clamping faces on steel, dry: finish-turned or ground 0.06 to 0.07, machined 0.10,
 * unmachined 0.14 to 0.15; on grey iron 0.8 of it. (Manuals of a power chuck and of a clamping head.)
 */
export const CHUCK_FRICTION = { ground: 0.06, turned: 0.1, rough: 0.14 } as const

const pairOf = (pair: string): FrictionPair => FIXTURE_FRICTION.find((f) => f.pair === pair)!
const STEEL = pairOf('steel on steel')
const STEEL_ON_IRON = pairOf('steel on cast iron')
const IRON = pairOf('cast iron on cast iron')

/** Above all of the table nothing is believed, whatever is typed: values of clean dry metal do not hold in a workshop. */
export const MOST_FRICTION = Math.max(...FIXTURE_FRICTION.map((f) => f.dry))

const least = (pairs: readonly FrictionPair[], { frictionState }: Pick<Setup, 'frictionState'>): number =>
  Math.min(...pairs.map((p) => (frictionState === 'dry' ? p.dry : p.oiled)))

/**
 * Friction between part and seat: the shop's own as far as the table's highest, else by the table. Faces that nothing is said of count as oiled;
 * packing and sub-plates are steel, the plate iron; aluminium, brass and what is not known count as the lowest of the table.
 */
export function frictionOf({ part }: Pick<Job, 'part'>, setup: Setup): number {
  if (setup.frictionCoefficient !== null) return Math.min(setup.frictionCoefficient, MOST_FRICTION)
  const group = findMaterial(part.material)?.group ?? ''
  const iron = group.endsWith('cast iron')
  if (!iron && !group.endsWith('steel')) return DEFAULT_FRICTION
  // What the part stands on slides on the plate too.
  if (setup.packing > 0 || setup.seat) return least([iron ? STEEL_ON_IRON : STEEL, STEEL_ON_IRON], setup)
  return least([iron ? IRON : STEEL_ON_IRON], setup)
}

/** Under weights, stops, straps and heels: of steel, on the plate, on the part and on each other. */
export const hardwareFriction = (setup: Pick<Setup, 'frictionState'>): number =>
  least([STEEL, STEEL_ON_IRON], setup)
