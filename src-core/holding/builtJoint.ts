import { fewHullPoints } from '../geometry/hullPoints.ts'
import type { Polygons } from '../geometry/polygonBox.ts'
import type { Point } from '../geometry/types.ts'
import type { JointInput } from './jointData.ts'

/** mm by which what touches is cut in at round corners, always to the inside, so that there are few edges to judge. Own choice. */
export const CONTACT_CHORD = 0.25

/** Corners of the convex hull of what touches. */
export const touchingOf = (areas: Polygons): Point[] => fewHullPoints(areas.flat(), CONTACT_CHORD)

/** A joint of a setup, ready to be judged. */
export interface BuiltJoint {
  /** 'part', or the id of the piece. */
  readonly id: string
  readonly kind: 'part' | 'clamp' | 'weight' | 'piece'
  /** "the part on its seat", "weight w1 on its stud". */
  readonly what: string
  /** As it is called in a message. */
  readonly name: string
  /** Null: it cannot be judged, for want of what `lacks` says. */
  readonly input: JointInput | null
  readonly lacks: readonly string[]
  /** Ids of what may hold it and could not be judged: counted as nothing. */
  readonly unknown: readonly string[]
  /** Whether that it could not be judged is said elsewhere, with the same effect. */
  readonly quiet: boolean
  /** Plate frame, mm. */
  readonly at: Point | null
}
