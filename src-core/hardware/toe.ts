/** Proportions of a strap and its toe. mm. */
import type { Strap } from '../job/schema.ts'

/** How far in from its end a strap's toe bears on the work. Own choice: no least bearing length was found published. */
const TOE = 8

/** Length of the pad by which a strap's toe bears. */
export const toeLength = (strap: Pick<Strap, 'boltFrom' | 'opening'>): number =>
  Math.max(1, Math.min(TOE, strap.boltFrom - strap.opening / 2))

/** mm from the bolt's centre to that of a heel, which stands flush with the strap's tail where nothing else is said. */
export const heelDistance = (
  strap: Strap,
  heel: { size: readonly [number, number]; from?: number | null | undefined },
): number => heel.from ?? Math.max(heel.size[0] / 2, strap.length - strap.boltFrom - heel.size[0] / 2)
