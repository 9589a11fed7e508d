/**
 * Every tolerance of the house with its unit and its reason. None is global state. What a machinist should leave free (a
 * clearance, a margin, a run-out) is a rule of its check and stands there; how near an iteration comes stands in it.
 */

/** On the job, mm unless it says otherwise. */
export const TOLERANCE = {
  /** Two drawn points nearer than this are one point; input is typed and snapped no finer than 1 µm, and this is a nanometre. */
  coincident: 1e-6,
  /** Chord error when an outline is flattened for polygon work. */
  flatten: 1e-3,
  /** Chord error for clash checks: finer than any setting on a faceplate. */
  clashChord: 0.01,
  /** Chord error of a footprint's arcs where the planner seeks room for it: half the clash checks'. */
  footprintChord: 0.005,
  /** Kept by the planner from every limit: covers both chord errors, erring to the inside. */
  inside: 0.02,
  /** mm²: overlaps smaller than this are touching, not clashing (about 0.2 mm by 0.2 mm). */
  clashArea: 0.05,
  /** By which arcs of solids in space may be drawn around, always to the outside. */
  spaceChord: 0.02,
  /** Solids in space that reach no further into each other are touching: well above what their arcs are drawn around. */
  clashDepth: 0.1,
  /** By which a sum of typed sizes may miss the size that it is held against. */
  sum: 1e-6,
  /** Two heights nearer than this touch. */
  height: 1e-3,
  /** By which a piece may stand over the rim before it is worth a word. */
  overhang: 0.5,
  /** Two things are clear when this much less than the wanted gap lies between them; ends the division. */
  gap: 0.01,
  /** Rounded corners of an offset stray by no more than this. */
  offsetArc: 1e-3,
  /** More than the polygon library moves a point: it keeps six decimals. */
  polygonRounding: 1e-5,
  /** Beside a cutting plane, so that a vertex or an edge on it does not count twice. */
  besidePlane: 1e-7,
  /** Degrees: two directions nearer to one line than this are one line. */
  inLine: 1e-6,
  /** rad: two edges that bend less than this at their corner run straight on; there is no room for a rounding. */
  straightOn: 1e-6,
  /** Share of an edge from its end: neighbours that meet there meet in their common vertex. */
  sharedEnd: 1e-6,
  /** Bulge below which an edge is straight: the powers of its radius would pass the largest number there is. */
  straightBulge: 1e-15,
  /** Of the larger radius: nearly tangent edges find their common vertex with half the digits. */
  tangentMeeting: 1e-7,
} as const

/** What comes in from a file. */
export const IMPORT_TOLERANCE = {
  /** mm: fitted arcs stray from their curves by no more. */
  curve: 0.01,
  /** mm: ends this near are joined unless the user says otherwise. A rule of thumb: drawings are snapped far finer. */
  join: 0.02,
  /** Shares of the drawing's extent, for files that state no unit: 10 µm and 20 µm in a part of 1 m. */
  curveShare: 1e-5,
  joinShare: 2e-5,
  /** No finer, whatever the extent: an end is not kept to more digits. */
  least: 1e-9,
  /** Share of the normal by which an entity may lean out of the plane: rounding of the file's digits. */
  tilt: 1e-6,
  /** mm: the arcs of a round hole share their centre and radius within this. */
  round: 1e-3,
  /** mm: a mesh's vertices are kept to 1 µm; rounding can part two corners that were one by at most √3 µm. */
  weld: 2e-3,
  /** mm: an opening or a speck of a mesh's silhouette narrower than this is dropped. */
  sliver: 0.01,
  /** mm: vertices of a silhouette that stray no further from a straight edge are left out. */
  thinning: 2e-3,
} as const

/** Where a photograph is tied to the plan. */
export const PICTURE_TOLERANCE = {
  /** Two points nearer than this share of a line's length lie on it; below it a picture cannot be squared up anyhow. */
  flatness: 1e-3,
  /** Pixels: ties nearer than this cannot be told apart. */
  apart: 1,
  /** mm: the same on the plan. */
  apartOnPlan: 1e-3,
} as const

/** On paper, mm. */
export const PAPER_TOLERANCE = {
  /** A flattened arc may stray this much where only room for lettering is sought. */
  inkChord: 0.1,
  /** A curve cut by the edge of a sheet strays from the true one by a tenth of what a printer places. */
  clipChord: 0.005,
  /** Nearer to a shape's own outline than this is on it, and shows. */
  onOutline: 1e-4,
  /** Pieces shorter than this share of an edge are not worth a line. */
  leastPiece: 1e-9,
  /** An arc that rises less than this over its chord is written as a line. */
  flat: 1e-6,
  /** Smaller bulges are straight for any sheet (rise under 0.0005 mm over a metre) and would need an exponent. */
  flatBulge: 1e-6,
  /** Pieces of a quarter turn may be over by this much (rad) before another is cut. */
  quarterTurn: 1e-6,
  /** A block that is laid into exactly its room fits. */
  fit: 1e-6,
} as const

/** What double arithmetic leaves between two roads to one figure, at the sizes of a faceplate. */
export const ROUNDING = {
  /** mm */
  length: 1e-9,
  /** mm² */
  area: 1e-9,
  /** kg */
  mass: 1e-9,
  /** rad */
  angle: 1e-9,
  /** Share of the figure. */
  share: 1e-9,
  /** Fraction along an edge, a sine near 0, or radians of an arc's end: a few digits above the last. */
  fraction: 1e-12,
  /** A slope below this is none: nearly the last digit. */
  slope: 1e-15,
} as const

/** A length or an angle, mm or degrees, to what `ROUNDING` leaves of it: the same by whichever road it was reached. */
export const settled = (value: number): number => Math.round(value * 1e9) / 1e9 || 0

/** Whether a figure keeps to its limit, both at least 0, but for rounding: what is worked out as the limit keeps it. */
export const atMost = (value: number, limit: number): boolean => value <= limit * (1 + ROUNDING.share)
