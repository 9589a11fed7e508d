/**
 * What stands on the plate in a setup. Clamps, weights, bolts, stops and dowels are described as the real things they
 * are, so that what they press on, reach and weigh follows from geometry. A box is anything else, with its own mass and
 * outline. Units as in `schema.ts`.
 */
import { z } from 'zod'
import { angle, coordinate, id, length, LIMITS, mass, optional, positiveLength, text } from './fields.ts'

const vertex = z.strictObject({
  x: coordinate,
  y: coordinate,
  bulge: z.number().min(-1e4).max(1e4).optional(),
})
export const ring = z.array(vertex).min(1).max(LIMITS.verticesPerRing)
export const point = z.strictObject({ x: coordinate, y: coordinate })

export const footprint = z.union([
  z.strictObject({ circle: positiveLength }),
  z.strictObject({ rect: z.tuple([positiveLength, positiveLength]) }),
  z.strictObject({ outline: ring }),
])

const at = z.union([
  z.strictObject({ slot: id, radius: length }),
  z.strictObject({ hole: id }),
  /** A hole of a sub-plate, of a shelf or of a vee. */
  z.strictObject({ on: id, hole: id }),
  /** On a shelf or a vee: along it from its middle, and out from the plate's face. */
  z.strictObject({ on: id, along: coordinate, out: coordinate }),
  point,
])

const torque = z.number().positive().max(1e5)
const rectangle = z.tuple([positiveLength, positiveLength])

/** `length` is that of the whole stud; "suit": one as long as the joint wants, which the sheet then names. */
export const stud = z.strictObject({
  thread: optional(text),
  class: optional(text),
  length: optional(z.union([positiveLength, z.literal('suit')])),
})
/** Left out: the usual nut or washer of the stud's thread. */
const nut = z.strictObject({ acrossFlats: positiveLength, height: positiveLength })
const washer = z.strictObject({ diameter: positiveLength, thickness: positiveLength })

/** A stud with what is on it, tightened. */
const fastening = {
  stud,
  nut: optional(nut),
  washer: optional(washer),
  torque: optional(torque),
  /** Threads oiled: less of the torque is lost in friction. */
  lubricated: optional(z.boolean()),
}
const common = { id, name: text.optional() }
/** Place in the order of tightening, from 1. */
const order = optional(z.int().min(1).max(1000))

/** Its `toe` is where the strap ends; `boltFrom` is the distance of the bolt's centre from that end. */
export const strap = z.strictObject({
  length: positiveLength,
  width: positiveLength,
  thickness: positiveLength,
  boltFrom: positiveLength,
  /** Diameter of the bolt hole, or width of the slot. */
  opening: positiveLength,
  /** Length of the slot beyond a round hole; 0: a round hole. */
  slotted: length,
  steel: optional(text),
})

/** What carries the strap's tail. `size` in plan along and across the strap; `height` "suit": as high as what the toe presses on. */
export const heel = z.strictObject({
  kind: z.enum(['block', 'step', 'jack']),
  size: rectangle,
  height: optional(z.union([positiveLength, z.literal('suit')])),
  /** From the bolt's centre to the heel's; left out: flush with the strap's tail. */
  from: optional(positiveLength),
})

export const clamp = z.strictObject({
  ...common,
  kind: z.literal('clamp'),
  at,
  /** From the bolt toward the toe. */
  facing: angle,
  strap,
  ...fastening,
  heel: optional(heel),
  /** Packing under the part, below the toe. */
  packing: optional(z.strictObject({ size: rectangle })),
  /** Weighed, all of it; left out: from sizes. */
  mass: optional(mass),
  order,
  fixed: z.boolean(),
})

/** Pieces of the stock on one stud, undermost first. */
const weight = z.strictObject({
  ...common,
  kind: z.literal('weight'),
  at,
  facing: angle.optional(),
  stack: z
    .array(z.strictObject({ stock: id, count: z.int().min(1).max(1000) }))
    .min(1)
    .max(LIMITS.stock),
  ...fastening,
  order,
  fixed: z.boolean(),
})

/** Through a hole of the part itself, at a point of the part, into the slot or hole of the plate that lies behind. */
const bolt = z.strictObject({
  ...common,
  kind: z.literal('bolt'),
  throughPart: point,
  ...fastening,
  order,
  fixed: z.boolean(),
})

/** A block bolted to the plate with its front hard against an edge of the part; `facing` from its bolt to that edge. */
const stop = z.strictObject({
  ...common,
  kind: z.literal('stop'),
  at,
  facing: angle,
  /** Along `facing`, across it, and high. */
  size: z.tuple([positiveLength, positiveLength, positiveLength]),
  /** From the bolt's centre to the front; left out: half its length. */
  boltFrom: optional(positiveLength),
  ...fastening,
  order,
  fixed: z.boolean(),
})

/** A round pin in a hole of the plate, against an edge or in a hole of the part. */
const dowel = z.strictObject({
  ...common,
  kind: z.literal('dowel'),
  at,
  diameter: positiveLength,
  /** In front of the plate's face. */
  length: positiveLength,
  fixed: z.boolean(),
})

/** Of a plate, or of a sub-plate in its own frame. */
export const hole = z.strictObject({
  id,
  x: coordinate,
  y: coordinate,
  diameter: positiveLength,
  /** Of a tapped hole. */
  thread: optional(text),
})

/** Of a clamp of which only this is known: what it presses on and how far it reaches cannot be worked out. */
const press = z.strictObject({
  thread: optional(text),
  class: optional(text),
  torque: optional(torque),
  boltToWork: optional(positiveLength),
  boltToHeel: optional(positiveLength),
  nose: optional(point),
})

/** A bolt that holds a piece to the plate, `at` from its station along and across its length; left out: at the station. */
const heldBy = z.strictObject({ at: optional(point), ...fastening })
const held = z.array(heldBy).max(LIMITS.bolts)

export const box = z.strictObject({
  ...common,
  kind: z.enum(['packing', 'bracket', 'counterweight', 'press', 'other']),
  mass,
  at,
  footprint,
  facing: angle.optional(),
  base: coordinate,
  height: positiveLength,
  fixed: z.boolean(),
  /** Where the mass sits, in the footprint's own frame: x along its length, z above its base. */
  massCentre: optional(z.strictObject({ x: coordinate, y: coordinate, z: coordinate })),
  held: optional(held),
  press: optional(press),
})

/**
 * What is bolted to the plate for the part to stand on: a sub-plate, or a ring. Its frame is that of its footprint, at
 * its station; `holes` are its own, for what is bolted to it.
 */
export const fixture = z.strictObject({
  ...common,
  kind: z.literal('fixture'),
  form: z.enum(['subPlate']),
  at,
  facing: angle.optional(),
  footprint,
  /** Diameter of the opening in its middle; 0: none. */
  bore: length,
  thickness: positiveLength,
  /** Left out: of steel. */
  density: optional(z.number().positive().max(30_000)),
  /** Weighed; left out: from sizes. */
  mass: optional(mass),
  holes: z.array(hole).max(LIMITS.plateHoles),
  /** `sunk`: how deep below its face washer and nut sit. */
  bolts: z.array(heldBy.extend({ sunk: optional(length) })).max(LIMITS.bolts),
  fixed: z.boolean(),
})

const standing = {
  at,
  /**
   * Direction, square to the spindle axis, from its bolts to what stands on it or lies in it. Of a vee on a shelf not
   * read: it looks as that does.
   */
  facing: angle,
  density: fixture.shape.density,
  mass: fixture.shape.mass,
  /** Of its shelf or its lands: x along, y out from the plate's face; of a vee on a shelf from its own end. */
  holes: fixture.shape.holes,
  /**
   * Through its foot: `at` from its station, x along `facing`, which the foot lies behind. Of a vee on a shelf through
   * its lands: x along, y out, as its holes.
   */
  bolts: held,
  fixed: z.boolean(),
}

/**
 * An angle plate: a foot bolted to the plate's face, a shelf that stands out from it, and webs between both. Its station
 * is where the middle of the shelf's face meets the plate's.
 */
export const anglePlate = z.strictObject({
  ...common,
  kind: z.literal('anglePlate'),
  ...standing,
  /** Along the shelf, of the foot behind the shelf's face, and of the shelf out from the plate's. */
  size: z.tuple([positiveLength, positiveLength, positiveLength]),
  /** Of foot and shelf. */
  thickness: positiveLength,
  webs: z.strictObject({ count: z.int().min(0).max(1000), thickness: positiveLength }),
  /** Through the shelf; x, y is the middle, `length` goes from end to end along `angle`, counted from x. */
  slots: z
    .array(
      z.strictObject({
        id,
        x: coordinate,
        y: coordinate,
        angle,
        length: positiveLength,
        width: positiveLength,
      }),
    )
    .max(LIMITS.slots),
})

/**
 * A vee: two flanks along the spindle axis that a round part lies in, with lands on both sides. Bolted to the plate by a
 * foot of its own its station is where the middle between the lands meets the plate's face. As a loose block it lies on
 * the shelf of an angle plate; its station is then how far along, and how far out it begins.
 */
export const vee = z.strictObject({
  ...common,
  kind: z.literal('vee'),
  ...standing,
  /** Across the vee from side to side, of its block behind the lands, and out from the plate's face. */
  size: z.tuple([positiveLength, positiveLength, positiveLength]),
  /** Between its flanks. */
  angle: z.number().positive().max(179),
  /** Width of its mouth, at the lands. */
  opening: positiveLength,
  /** Behind its block, as wide as that; bolts go through it. A block on a shelf has none: `length` 0. */
  foot: z.strictObject({ length, thickness: positiveLength }),
})

/**
 * Another workpiece alike, bolted on opposite, cut as far as the part was before this setup. Its frame is the part's own:
 * the origin stands at its station, x along `facing`, and its bolts go through it at points of that frame.
 */
export const twin = z.strictObject({
  ...common,
  kind: z.literal('twin'),
  at,
  facing: angle,
  /** How high its seat stands in front of the plate's face, on packing of its own; 0: flat on the plate. */
  raised: length,
  bolts: held,
  fixed: z.boolean(),
})

export const hardware = z.discriminatedUnion('kind', [
  clamp,
  weight,
  bolt,
  stop,
  dowel,
  fixture,
  anglePlate,
  vee,
  twin,
  box,
])

const kit = <T extends z.ZodType>(item: T) =>
  z
    .array(z.strictObject({ id, name: text.optional(), count: z.int().min(0).max(1000), item }))
    .max(LIMITS.stock)

/** What the shop has to hold work with. */
export const clampingKit = z.strictObject({
  studs: kit(z.strictObject({ thread: text, class: optional(text), length: positiveLength })),
  straps: kit(strap),
  heels: kit(
    z.strictObject({ kind: heel.shape.kind, size: rectangle, heights: z.array(positiveLength).max(100) }),
  ),
  /** From the middle of the nut to the hand. */
  spanner: optional(positiveLength),
})
