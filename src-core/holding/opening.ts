/** When a seat begins to open, and when a pad stands too tall to count as part of the plate. */

/** What touches: one face, flat or round, or separate pads each under its own press. */
export type Face = 'flat' | 'round' | 'pads'

/**
 * A linear pressure under one continuous face is gone at its edge at M = F·b/6 of a rectangle and F·d/8 of a disc, and
 * the face tips at F·b/2 and F·d/2: at factors of 3 and 4 against tipping.
 */
const OPENS_BELOW = { flat: 3, round: 4 } as const

/** Whether a seat begins to open at a factor λ_t against tipping; pads open only when they tip. */
export const seatOpens = (tipping: number, face: Face): boolean =>
  face !== 'pads' && !(tipping >= OPENS_BELOW[face])

/**
 * Whether packing or a pad is a joint of its own: taller than 1/(2μ) times its width, friction on top of it, μN at
 * height h, tips it over before it slides: μN·h > N·w/2. mm.
 */
export const standsAlone = (height: number, width: number, friction: number): boolean =>
  !(2 * friction * height <= width)

/** Friction that packing or a heel of a height and least width carries: no more than tips it over, w/(2h). */
export const padFriction = (height: number, width: number, friction: number): number =>
  standsAlone(height, width, friction) ? width / (2 * height) : friction
