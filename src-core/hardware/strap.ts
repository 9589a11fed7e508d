/** Proportions of a strap and its toe. mm. */
import type { Strap } from '../job/schema.ts'

/** How far in from its end a strap's toe bears on the work. Own choice: no least bearing length was found published. */
const TOE = 8

/** Length of the pad by which a strap's toe bears. */
export const toeLength = (strap: Pick<Strap, 'boltFrom' | 'opening'>): number =>
  Math.max(1, Math.min(TOE, strap.boltFrom - strap.opening / 2))

/** mm³: a bar less its bolt hole or slot. */
export const strapVolume = ({ length, width, thickness, opening, slotted }: Strap): number =>
  Math.max(0, length * width - (Math.PI / 4) * opening ** 2 - opening * slotted) * thickness

/** mm from the bolt's centre to that of a heel, which stands flush with the strap's tail where nothing else is said. */
export const heelDistance = (
  strap: Strap,
  heel: { size: readonly [number, number]; from?: number | null | undefined },
): number => heel.from ?? Math.max(heel.size[0] / 2, strap.length - strap.boltFrom - heel.size[0] / 2)
