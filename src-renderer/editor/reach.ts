/** How near the pointer has to come, in pixels of the screen unless it says otherwise: one feel at every zoom. */

/** A finger is less exact than a mouse. */
export interface Reach {
  readonly mouse: number
  readonly finger: number
}

export const REACH = {
  /** A press that moves less is a click: a hand that only clicks shakes by a pixel or two. */
  dragStart: 4,
  /** Times as far where the press has set a point already: letting go a little aside must not set a second one. */
  unsteady: 2,
  /** ms: two clicks that follow each other within it are a double click, as on common desktops. */
  doubleClick: 450,
  /** A point is caught. */
  snap: { mouse: 10, finger: 18 },
  /** Of `snap`, an edge is caught: points on it come first. */
  edgeShare: 0.7,
  /** A handle that stands alone on the plate. */
  handle: { mouse: 14, finger: 26 },
  /** Beside the outline of a thing that is hit anywhere. */
  outline: { mouse: 5, finger: 12 },
  /** A vertex of the outline that is edited. */
  grip: { mouse: 10, finger: 22 },
  /** Of `grip`, the middle of an edge and an edge: what is smaller is aimed at first. */
  middleShare: 0.8,
  gripEdgeShare: 0.7,
  /** The first point of an outline, to close it: more than a point is caught from, so that closing wins. */
  close: 12,
  /** A line shorter than this has no direction to be caught. */
  directionFrom: 8,
  /** Beside a direction that is caught. */
  direction: 5,
  /** An arc this near to straight or to a half turn is one. */
  bend: 5,
  /** Degrees: part and lines catch on multiples of the one, the part from the other on either side. */
  turnStep: 15,
  turn: 2,
  /** What is drawn may stray: an arc this flat is its chord; vertices this near to a line are left out. */
  paintedArc: 0.1,
  paintedVertex: 0.2,
} as const

export const reach = (of: Reach, touch: boolean): number => (touch ? of.finger : of.mouse)
