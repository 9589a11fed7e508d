/** What presses a body on its seat. */
import { roundCircle } from '../geometry/angles.ts'
import type { Point } from '../geometry/types.ts'
import type { ContactHull } from './contact.ts'

export interface Press {
  readonly id: string
  /** p_k: where it presses, (u, v) in the seat, mm. */
  readonly at: Point
  /** N along −n: the low side of the preload's scatter, after levers. */
  readonly force: number
  /** N: the high side; the low one where not given. */
  readonly high?: number | undefined
  /** μ under this press; the joint's where not given. */
  readonly friction?: number | undefined
}

/** A stud through the body. */
export interface Stud extends Press {
  /** ρ: mean radius of its washer's ring, mm. */
  readonly meanRadius: number
}

/** A strap drawn down by its bolt between the two places where it presses. */
export interface StrapGrip {
  readonly toe: Press
  readonly heel: Press
  readonly bolt: Point
}

/** Presses, the one stud that holds the body (the six presses of its washer's ring), or the strap that is the body. */
export type Grip =
  { readonly presses: readonly Press[] } | { readonly stud: Stud } | { readonly strap: StrapGrip }

/** All that presses a body on its seat, whatever holds it. */
export function pressesOf(grip: Grip): readonly Press[] {
  if ('stud' in grip) return studPresses(grip.stud)
  return 'strap' in grip ? [grip.strap.toe, grip.strap.heel] : grip.presses
}

const RING = 6

/** A stud as six presses of a sixth of its force on its washer's ring, the first towards u; all bear its id. */
export function studPresses(stud: Stud): Press[] {
  const { id, at, force, high, friction, meanRadius } = stud
  return roundCircle(at, meanRadius, RING).map((place) => ({
    id,
    at: place,
    force: force / RING,
    high: high === undefined ? undefined : high / RING,
    friction,
  }))
}

/** A press with where it bears and what it grips. */
export interface Bearing {
  readonly id: string
  /** p_k and s_k. */
  readonly at: Point
  readonly bears: Point
  /** N */
  readonly low: number
  readonly high: number
  readonly friction: number
}

/**
 * Where presses bear on a contact: at their own place, or beyond it at the nearest of the contact. @param friction where a
 * press has none of its own.
 */
export function bearingsOf(presses: readonly Press[], hull: ContactHull, friction: number): Bearing[] {
  return presses.map((p) => ({
    id: p.id,
    at: p.at,
    bears: hull.nearest(p.at),
    low: p.force,
    high: Math.max(p.force, p.high ?? p.force),
    friction: p.friction ?? friction,
  }))
}
