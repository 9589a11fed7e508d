/**
 * The job document, version 4: the one schema, from which the types, the checks of a file and the published
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
  optional,
  orNull,
  positiveLength,
  speed,
  text,
} from './fields.ts'
import { cut } from './cutSchema.ts'
import { clampingKit, footprint, hardware, hole, point, ring } from './hardwareSchema.ts'
import { photograph, revision, run, sheet, titleBlock } from './recordSchema.ts'

export { LIMITS }

const slot = z.strictObject({
  id,
  angle,
  from: length,
  to: positiveLength,
  width: positiveLength,
  kind: z.enum(['through', 'tee']),
  /** Of a tee slot: width of its foot, and thickness of the lip that carries the bolt's head. */
  teeWidth: optional(positiveLength),
  lip: optional(positiveLength),
})

/** From so far behind the tool's tip on, nothing of the carriage comes nearer the spindle axis than the radius. */
const carriageRow = z.strictObject({ behind: length, radius: length })

const carriage = z.strictObject({
  /** With the tip on the axis: bar holder, tool post, top slide, cross-slide. */
  profile: z.array(carriageRow).min(1).max(LIMITS.carriageRows),
  /** mm from the plate's face to the tip while the plate is loaded and turned by hand. */
  parkedAt: optional(length),
})

/** How plate and spindle are joined; `locked`: something keeps a screwed one from running off. */
const nose = z.strictObject({
  kind: z.enum(['screwed', 'cam-lock', 'flanged', 'taper']),
  locked: z.boolean(),
})

const lathe = z.strictObject({
  name: text,
  swingOverBed: positiveLength,
  swingOverCrossSlide: positiveLength,
  gap: orNull(z.strictObject({ swing: positiveLength, width: positiveLength, open: z.boolean() })),
  /** Its steps, the range within which it turns at any speed, or both. */
  speeds: z.strictObject({
    steps: z.array(z.strictObject({ rpm: speed, backGear: optional(z.boolean()) })).max(LIMITS.speeds),
    stepless: orNull(z.tuple([speed, speed])),
  }),
  maxSpindleSpeed: orNull(speed),
  noseOverhang: orNull(positiveLength),
  loadLimit: orNull(z.number().positive().max(1e6)),
  barReach: orNull(length),
  /** s from rest to the chosen speed, and from it to rest. */
  startTime: optional(z.number().positive().max(3600)),
  brakeTime: optional(z.number().positive().max(3600)),
  nose: optional(nose),
  /** kg of the machine itself, and whether it is bolted to its floor. */
  mass: optional(z.number().positive().max(1e7)),
  boltedDown: optional(z.boolean()),
  carriage: optional(carriage),
  /** How near the carriage's front comes to the plate's face, with the gap piece in and out. */
  saddleReach: optional(z.strictObject({ gapIn: optional(length), gapOut: optional(length) })),
  /** Thickest of barrel and drill chuck, and how far it stands behind the drill's point. */
  tailstock: optional(z.strictObject({ barrel: positiveLength, reach: length })),
  /** Free depth behind the plate's back, out to a radius where a guard stands. */
  behindPlate: optional(z.strictObject({ depth: length, radius: optional(positiveLength) })),
})

const surface = optional(z.enum(['ground', 'turned', 'rough']))

const plate = z.strictObject({
  name: text,
  /** Of its face, where the part or its packing bears. */
  surface,
  diameter: positiveLength,
  thickness: positiveLength,
  bore: length,
  mass: z.number().positive().max(1e6),
  ratedSpeed: orNull(speed),
  slots: z.array(slot).max(LIMITS.slots),
  holes: z.array(hole).max(LIMITS.plateHoles),
  residual: optional(z.strictObject({ amount: z.number().min(0).max(1e9), angle })),
  /** Full indicator reading at its rim on the spindle, face and edge. */
  runOut: optional(z.strictObject({ face: optional(length), radial: optional(length) })),
})

const stockItem = z.strictObject({
  id,
  name: text.optional(),
  mass: z.number().positive().max(1e6),
  count: z.int().min(0).max(1000),
  footprint,
  height: positiveLength,
  /** Diameter of its bolt hole. */
  hole: optional(positiveLength),
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
  /**
   * It lies across: direction, square to the spindle axis, that its outline is extruded along and `base` counted along.
   * The outline is seen against it, y out from the part's back. Left out: it is extruded along the spindle axis.
   */
  across: optional(angle),
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
  /** A class such as H7, or the limits of size. */
  tolerance: optional(
    z.union([
      z.strictObject({ class: z.string().min(1).max(20) }),
      z.strictObject({ limits: z.tuple([positiveLength, positiveLength]) }),
    ]),
  ),
  /** Thickness of the hard skin found there: a cored hole's, a flame-cut one's. */
  skin: optional(positiveLength),
})

const part = z.strictObject({
  name: text,
  material: text,
  density: z.number().positive().max(30_000),
  weighedMass: orNull(z.number().positive().max(1e6)),
  /** Of the face it is seated by. */
  surface,
  bodies: z
    .array(z.union([prism, meshBody]))
    .min(1)
    .max(LIMITS.bodies),
  bores: z.array(bore).max(LIMITS.bores),
  photograph: optional(photograph),
})

const criterion = z.strictObject({
  /** A force in N, a share of what turns, a share of the machine's own weight, or a grade in mm/s. */
  kind: z.enum(['force', 'weightShare', 'machineShare', 'grade']),
  value: z.number().positive().max(1e6),
})

const setup = z.strictObject({
  id,
  title: text,
  centre: z.union([z.strictObject({ bore: id }), point]),
  turn: angle,
  /** The fixture that the part stands on; left out: the plate. */
  seat: optional(
    z.strictObject({
      on: id,
      /** On a shelf or in a vee: from the plate's face to the part's back. */
      standOff: optional(length),
      /** In a vee: of the round that lies in it. */
      diameter: optional(positiveLength),
    }),
  ),
  /** From the face that it stands on to the part's seat. */
  packing: length,
  hardware: z.array(hardware).max(LIMITS.hardware),
  /** In the order in which they are made. Null: not known; empty: nothing is cut. */
  cuts: optional(z.array(cut).max(LIMITS.cuts)),
  speed: orNull(speed),
  criterion,
  /** The shop's own friction between part and seat; null: by the table of surfaces. */
  frictionCoefficient: orNull(z.number().positive().max(2)),
  frictionState: optional(z.enum(['oiled', 'dry'])),
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
  plateResidual: z.number().min(0).max(1000).optional(),
})

export const jobSchema = z.strictObject({
  format: z.literal('evenswing-job'),
  version: z.literal(4),
  title: text,
  partNumber: text.optional(),
  documentNumber: text.optional(),
  revisions: z.array(revision).max(LIMITS.revisions).optional(),
  notes: text.optional(),
  displayUnits: z.enum(['mm', 'in']),
  lathe,
  plate,
  stock: z.array(stockItem).max(LIMITS.stock),
  clampingKit: optional(clampingKit),
  part,
  setups: z.array(setup).min(1).max(LIMITS.setups),
  uncertainty: uncertainty.optional(),
  titleBlock: titleBlock.optional(),
  runs: z.array(run).max(LIMITS.runs).optional(),
})

/** Arrays and tuples keep their shape: a mapped type over them maps their elements. */
export type DeepReadonly<T> = T extends object ? { readonly [K in keyof T]: DeepReadonly<T[K]> } : T

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
export type Revision = NonNullable<Job['revisions']>[number]
export type Run = NonNullable<Job['runs']>[number]
export type Body = Part['bodies'][number]
export type Prism = Extract<Body, { outline: unknown }>
export type MeshBody = Extract<Body, { mesh: unknown }>
export type Mesh = MeshBody['mesh']
export type Bore = Part['bores'][number]
export type Setup = Job['setups'][number]
export type Hardware = Setup['hardware'][number]
export type HardwareKind = Hardware['kind']
export type Footprint = StockItem['footprint']
export type Clamp = Extract<Hardware, { kind: 'clamp' }>
export type Weight = Extract<Hardware, { kind: 'weight' }>
export type ThroughBolt = Extract<Hardware, { kind: 'bolt' }>
export type StopBlock = Extract<Hardware, { kind: 'stop' }>
export type Dowel = Extract<Hardware, { kind: 'dowel' }>
export type Fixture = Extract<Hardware, { kind: 'fixture' }>
export type AnglePlate = Extract<Hardware, { kind: 'anglePlate' }>
export type Vee = Extract<Hardware, { kind: 'vee' }>
/** What a part stands on that does not lie flat: its seat is square to the plate. */
export type Shelf = AnglePlate | Vee
export type Twin = Extract<Hardware, { kind: 'twin' }>
export type Box = Extract<Hardware, { base: unknown }>
/** Whatever is put at a station of the plate: everything but a bolt, which follows the part. */
export type Stationed = Exclude<Hardware, ThroughBolt>
export type At = Stationed['at']
/** On a sub-plate, a shelf or a vee. */
export type OnFixture = Extract<At, { on: unknown }>
export type Strap = Clamp['strap']
export type Heel = NonNullable<Clamp['heel']>
export type ClampingKit = NonNullable<Job['clampingKit']>
export type Cut = NonNullable<Setup['cuts']>[number]
export type CutKind = Cut['kind']
/** A cut in one of the part's bores. */
export type BoreCut = Extract<Cut, { bore: unknown }>
/** A cut with a single edge, whose force follows from its depth. */
export type EdgeCut = Extract<Cut, { depth: unknown }>
export type Criterion = Setup['criterion']

/** Whether a piece is there to settle the unbalance. */
export const isCounterweight = (item: Hardware): boolean =>
  item.kind === 'weight' || item.kind === 'counterweight'
/** Whether a piece presses the part on its seat. */
export const isClamp = (item: Hardware): boolean =>
  item.kind === 'clamp' || item.kind === 'press' || item.kind === 'bolt'
export const isBox = (item: Hardware): item is Box => 'base' in item
export const isShelf = (item: Hardware): item is Shelf => item.kind === 'anglePlate' || item.kind === 'vee'
export const isOnFixture = (at: At): at is OnFixture => 'on' in at
export const isStationed = (item: Hardware): item is Stationed => 'at' in item
export const isBoreCut = (cut: Cut): cut is BoreCut => 'bore' in cut
export const isPrism = (body: Body): body is Prism => 'outline' in body
/** Extruded across the spindle axis. */
export const liesAcross = (body: Body): body is Prism & { readonly across: number } =>
  isPrism(body) && typeof body.across === 'number'
/** Extruded along the spindle axis: its outline is that of the part seen from in front. */
export const isUpright = (body: Body): body is Prism => isPrism(body) && !liesAcross(body)
