/** A point or a vector in the plane, mm unless a function says otherwise. */
export interface Point {
  readonly x: number
  readonly y: number
}

/** A point in space, mm. */
export interface Point3 extends Point {
  readonly z: number
}

/**
 * A vertex of a ring. `bulge` = tan(included angle / 4) of the edge to the next vertex, positive
 * counter-clockwise, as in DXF; 0 or absent is a straight edge, ±1 a half-turn arc.
 */
export interface Vertex extends Point {
  readonly bulge?: number | undefined
}

/** A closed outline, the last vertex joined to the first. Winding does not matter. */
export type Ring = readonly Vertex[]

/** A plane region: an outline less its holes. */
export interface Region {
  readonly outline: Ring
  readonly holes: readonly Ring[]
}
