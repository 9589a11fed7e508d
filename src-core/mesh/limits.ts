/** Bounds of a triangle mesh; they keep hostile files from costing time. */
export const MESH_LIMITS = { vertices: 200_000, triangles: 250_000 } as const
