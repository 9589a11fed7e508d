/**
 * Angles: degrees in a job and on paper, radians inside a formula, counter-clockwise from +x. Nothing else in the house
 * converts or wraps one.
 */
import { ROUNDING } from './tolerance.ts'
import type { Point } from './types.ts'

/** A full turn, rad. */
export const FULL_TURN = 2 * Math.PI

export const toRadians = (degrees: number): number => (degrees * Math.PI) / 180

export const toDegrees = (radians: number): number => (radians * 180) / Math.PI

/** The same direction in degrees, 0 to below 360. */
export const wholeTurn = (degrees: number): number => within(degrees, 360)

/** The same direction in radians, 0 to below 2π. */
export const wholeTurnRadians = (radians: number): number => within(radians, FULL_TURN)

/** The direction opposite one in degrees, 0 to below 360. */
export const opposite = (degrees: number): number => wholeTurn(degrees + 180)

/** The shortest turn from one direction to another, degrees, −180 (not included) to 180. */
export function turnBetween(from: number, to: number): number {
  const turn = wholeTurn(to - from)
  return turn > 180 ? turn - 360 : turn
}

/** The shortest turn from one direction to another, radians, −π (not included) to π. */
export function turnBetweenRadians(from: number, to: number): number {
  const turn = wholeTurnRadians(to - from)
  return turn > Math.PI ? turn - FULL_TURN : turn
}

/** Radians, −π to π, in which a vector points; 0 for the null vector. */
export const angleOf = (v: Point): number => Math.atan2(v.y, v.x)

/** Radians, −π to π, in which `to` lies seen from `from`; 0 where they are one point. */
export const angleTowards = (from: Point, to: Point): number => Math.atan2(to.y - from.y, to.x - from.x)

/** Direction of a vector in degrees, 0 to below 360; 0 for the null vector. Rounding below 0 does not become 360. */
export function directionOf(v: Point): number {
  if (v.x === 0 && v.y === 0) return 0
  const angle = toDegrees(angleOf(v))
  if (angle >= 0) return angle
  return angle > -ROUNDING.angle ? 0 : angle + 360
}

/** The vector of length `radius` in the direction `angle` degrees. */
export const polar = (radius: number, angle: number): Point => ({
  x: radius * Math.cos(toRadians(angle)),
  y: radius * Math.sin(toRadians(angle)),
})

/** The point `radius` from a centre in the direction `angle` radians. */
export const onCircle = (centre: Point, radius: number, angle: number): Point => ({
  x: centre.x + radius * Math.cos(angle),
  y: centre.y + radius * Math.sin(angle),
})

/** Points evenly round a circle, counter-clockwise, the first towards +x. */
export const roundCircle = (centre: Point, radius: number, count: number): Point[] =>
  Array.from({ length: count }, (_, i) => onCircle(centre, radius, (FULL_TURN * i) / count))

/** Cosine and sine of an angle in degrees: what a turn through it multiplies by. */
export const turning = (degrees: number): { c: number; s: number } => ({
  c: Math.cos(toRadians(degrees)),
  s: Math.sin(toRadians(degrees)),
})

/** A vector turned about the origin through an angle in degrees. */
export function turnPoint(p: Point, degrees: number): Point {
  const { c, s } = turning(degrees)
  return { x: c * p.x - s * p.y, y: s * p.x + c * p.y }
}

function within(angle: number, turn: number): number {
  const rest = angle % turn
  // An angle a hair below 0 comes to a whole turn when rounded: that is 0.
  if (rest < 0) return rest + turn < turn ? rest + turn : 0
  return rest + 0
}
