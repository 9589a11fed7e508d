/** The small fields that the job's schema is made of, and the bounds of everything in a job. Units as there. */
import { z } from 'zod'
import { COORDINATE_LIMIT } from '../geometry/limits.ts'
import { MESH_LIMITS } from '../mesh/limits.ts'
import { PICTURE_LIMITS } from '../picture/limits.ts'

/** Bounds that a lathe job cannot reasonably pass; they keep hostile files from costing time or digits. */
export const LIMITS = {
  coordinate: COORDINATE_LIMIT,
  /** rpm. */
  speed: 1e5,
  verticesPerRing: 20_000,
  holesPerBody: 500,
  bodies: 200,
  bores: 100,
  slots: 64,
  plateHoles: 500,
  stock: 100,
  hardware: 100,
  /** Of one piece. */
  bolts: 24,
  setups: 50,
  speeds: 100,
  carriageRows: 12,
  /** Of one setup. */
  cuts: 24,
  meshVertices: MESH_LIMITS.vertices,
  meshTriangles: MESH_LIMITS.triangles,
  runs: 500,
  revisions: 100,
  pictureBytes: PICTURE_LIMITS.bytes,
  picturePixels: PICTURE_LIMITS.pixels,
  pictureArea: PICTURE_LIMITS.area,
  text: 20_000,
} as const

export const text = z.string().max(LIMITS.text)
export const id = z.string().min(1).max(80)
export const coordinate = z.number().min(-LIMITS.coordinate).max(LIMITS.coordinate)
export const length = z.number().min(0).max(LIMITS.coordinate)
export const positiveLength = z.number().positive().max(LIMITS.coordinate)
export const angle = z.number().min(-3600).max(3600)
export const mass = z.number().min(0).max(1e6)
export const speed = z.number().positive().max(LIMITS.speed)
export const orNull = <T extends z.ZodType>(schema: T) => schema.nullable()
/** May be left out or null. */
export const optional = <T extends z.ZodType>(schema: T) => schema.nullable().optional()
