/** An indexed triangle mesh: x, y, z in mm one after the other, and three vertex indices a triangle. */
export interface TriangleMesh {
  readonly vertices: ArrayLike<number>
  readonly triangles: ArrayLike<number>
}
