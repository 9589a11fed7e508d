/** Named tolerances, each with its unit and its reason. None is global state. */
export const TOLERANCE = {
  /** mm: two drawn points nearer than this are one point; input is typed and snapped no finer than 1 µm, and this is a nanometre. */
  coincident: 1e-6,
  /** mm: chord error when an outline is flattened for polygon work. */
  flatten: 1e-3,
  /** mm²: overlaps smaller than this are touching, not clashing (about 0.2 mm by 0.2 mm). */
  clashArea: 0.05,
  /** mm: two heights nearer than this touch. */
  height: 1e-3,
} as const
