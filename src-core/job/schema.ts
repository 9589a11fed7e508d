/**
 * The job document, version 1: the one schema, from which the types, the checks of a file and the published
 * JSON Schema all come. Everything is in mm, kg, degrees, rpm, N, N·m and kg/m³; cutting speed in m/min, feed in
 * mm/rev, unbalance in g·mm. A document holds what the user decided; nothing computed is ever stored in it.
 */
import { z } from 'zod'
import {
  angle,
  coordinate,
  id,
  length,
  LIMITS,
  mass,
  optional,
  orNull,
  positiveLength,
  speed,
  text,
} from './fields.ts'
import { photograph, run, sheet, titleBlock } from './recordSchema.ts'

export { LIMITS }

const vertex = z.strictObject({
  x: coordinate,
  y: coordinate,
  bulge: z.number().min(-1e4).max(1e4).optional(),
})
const ring = z.array(vertex).min(1).max(LIMITS.verticesPerRing)
const point = z.strictObject({ x: coordinate, y: coordinate })

const footprint = z.union([
  z.strictObject({ circle: positiveLength }),
  z.strictObject({ rect: z.tuple([positiveLength, positiveLength]) }),
  z.strictObject({ outline: ring }),
])

const slot = z.strictObject({
  id,
  angle,
  from: length,
  to: positiveLength,
  width: positiveLength,
  kind: z.enum(['through', 'tee']),
})

const lathe = z.strictObject({
  name: text,
  swingOverBed: positiveLength,
  swingOverCrossSlide: positiveLength,
  gap: orNull(z.strictObject({ swing: positiveLength, width: positiveLength, open: z.boolean() })),
  spindleSpeeds: z.array(speed).min(1).max(LIMITS.speeds),
  maxSpindleSpeed: orNull(speed),
  noseOverhang: orNull(positiveLength),
  loadLimit: orNull(z.number().positive().max(1e6)),
  barReach: orNull(length),
})

const plate = z.strictObject({
  name: text,
  diameter: positiveLength,
  thickness: positiveLength,
  bore: length,
  mass: z.number().positive().max(1e6),
  ratedSpeed: orNull(speed),
  slots: z.array(slot).max(LIMITS.slots),
  holes: z
    .array(z.strictObject({ id, x: coordinate, y: coordinate, diameter: positiveLength }))
    .max(LIMITS.plateHoles),
  residual: optional(z.strictObject({ amount: z.number().min(0).max(1e9), angle })),
})

const stockItem = z.strictObject({
  id,
  name: text.optional(),
  mass: z.number().positive().max(1e6),
  count: z.int().min(0).max(1000),
  footprint,
  height: positiveLength,
})

/** A closed triangle mesh in the part's frame; `triangles` holds vertex indices, three a triangle. */
const mesh = z.strictObject({
  vertices: z
    .array(coordinate)
    .min(12)
    .max(LIMITS.meshVertices * 3),
  triangles: z
    .array(z.int().min(0))
    .min(12)
    .max(LIMITS.meshTriangles * 3),
})

const bodyCommon = {
  id,
  name: text.optional(),
  effect: z.enum(['adds', 'removes']),
  base: coordinate,
  density: optional(z.number().positive().max(30_000)),
}
const prism = z.strictObject({
  ...bodyCommon,
  outline: ring,
  holes: z.array(ring).max(LIMITS.holesPerBody),
  thickness: positiveLength,
})
const meshBody = z.strictObject({ ...bodyCommon, mesh })

const bore = z.strictObject({
  id,
  name: text.optional(),
  x: coordinate,
  y: coordinate,
  diameter: positiveLength,
  start: length,
  depth: orNull(positiveLength),
})

const part = z.strictObject({
  name: text,
  material: text,
  density: z.number().positive().max(30_000),
  weighedMass: orNull(z.number().positive().max(1e6)),
  bodies: z
    .array(z.union([prism, meshBody]))
    .min(1)
    .max(LIMITS.bodies),
  bores: z.array(bore).max(LIMITS.bores),
  photograph: optional(photograph),
})

/** Every field may be left out or null: what is missing is reported as not checked, never as a pass. */
const clamp = z.strictObject({
  thread: optional(text),
  class: optional(text),
  torque: optional(z.number().positive().max(1e5)),
  boltToWork: optional(positiveLength),
  boltToHeel: optional(positiveLength),
  nose: optional(point),
})

const hardware = z.strictObject({
  id,
  name: text.optional(),
  kind: z.enum(['clamp', 'packing', 'bracket', 'counterweight', 'other']),
  mass,
  at: z.union([z.strictObject({ slot: id, radius: length }), z.strictObject({ hole: id }), point]),
  footprint,
  facing: angle.optional(),
  base: coordinate,
  height: positiveLength,
  fixed: z.boolean(),
  /** Where the mass sits, in the footprint's own frame: x along its length, z above its base. */
  massCentre: optional(z.strictObject({ x: coordinate, y: coordinate, z: coordinate })),
  clamp: optional(clamp),
})

const cut = z.strictObject({
  bore: id,
  tool: z.enum(['HSS', 'carbide']),
  speed: z.number().positive().max(5000),
  feed: z.number().positive().max(100),
  depth: z.number().positive().max(1000),
  /** Diameter of the drill that opens a solid bore, mm. */
  drill: optional(positiveLength),
})

const criterion = z.strictObject({
  kind: z.enum(['force', 'weightShare', 'grade']),
  value: z.number().positive().max(1e6),
})

const setup = z.strictObject({
  id,
  title: text,
  centre: z.union([z.strictObject({ bore: id }), point]),
  turn: angle,
  packing: length,
  hardware: z.array(hardware).max(LIMITS.hardware),
  cut: optional(cut),
  speed: orNull(speed),
  criterion,
  frictionCoefficient: z.number().positive().max(2),
  sheet: optional(sheet),
})

/** Standard uncertainties (one sigma); what is left out takes the default of `src-core/doubt/defaults.ts`. */
const uncertainty = z.strictObject({
  computedMass: z.number().min(0).max(1).optional(),
  weighedMass: z.number().min(0).max(1).optional(),
  centreOfMass: z.number().min(0).max(1000).optional(),
  placing: z.number().min(0).max(1000).optional(),
  nutFactor: z.number().positive().max(1).optional(),
  preloadScatter: z.number().min(0).max(0.9).optional(),
})

export const jobSchema = z.strictObject({
  format: z.literal('evenswing-job'),
  version: z.literal(1),
  title: text,
  partNumber: text.optional(),
  notes: text.optional(),
  displayUnits: z.enum(['mm', 'in']),
  lathe,
  plate,
  stock: z.array(stockItem).max(LIMITS.stock),
  part,
  setups: z.array(setup).min(1).max(LIMITS.setups),
  uncertainty: uncertainty.optional(),
  titleBlock: titleBlock.optional(),
  runs: z.array(run).max(LIMITS.runs).optional(),
})

/** Arrays and tuples keep their shape: a mapped type over them maps their elements. */
type DeepReadonly<T> = T extends object ? { readonly [K in keyof T]: DeepReadonly<T[K]> } : T

export type Job = DeepReadonly<z.infer<typeof jobSchema>>
export type Lathe = Job['lathe']
export type Plate = Job['plate']
export type Slot = Plate['slots'][number]
export type StockItem = Job['stock'][number]
export type Part = Job['part']
export type Photograph = NonNullable<Part['photograph']>
export type Picture = Photograph['picture']
export type SheetChoices = NonNullable<Setup['sheet']>
export type TitleBlockFields = NonNullable<Job['titleBlock']>
export type Run = NonNullable<Job['runs']>[number]
export type Body = Part['bodies'][number]
export type Prism = Extract<Body, { outline: unknown }>
export type MeshBody = Extract<Body, { mesh: unknown }>
export type Mesh = MeshBody['mesh']
export type Bore = Part['bores'][number]
export type Setup = Job['setups'][number]
export type Hardware = Setup['hardware'][number]
export type HardwareKind = Hardware['kind']
export type Footprint = Hardware['footprint']
export type Clamp = NonNullable<Hardware['clamp']>
export type Cut = NonNullable<Setup['cut']>
export type Criterion = Setup['criterion']

export const isPrism = (body: Body): body is Prism => 'outline' in body
