/** How the part sits on the plate. */
import { turning } from '../../../src-core/geometry/angles.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import type { Job, Setup } from '../../../src-core/job/schema.ts'
import { editSetup } from './edit.ts'

export const setCentre = (job: Job, setupId: string, centre: Setup['centre']): Job =>
  editSetup(job, setupId, (s) => {
    s.centre = 'bore' in centre ? { bore: centre.bore } : { x: centre.x, y: centre.y }
  })

export const setTurn = (job: Job, setupId: string, turn: number): Job =>
  editSetup(job, setupId, (s) => {
    s.turn = turn
  })

/**
 * The part point that comes onto the axis when the part, as it sits now, is moved by a vector in the plate frame:
 * the axis moves the other way through the part.
 */
export function centreAfterMove(centre: Point, turn: number, move: Point): Point {
  const { c, s } = turning(turn)
  return { x: centre.x - (c * move.x + s * move.y), y: centre.y - (-s * move.x + c * move.y) }
}
