/**
 * What is cut in a setup. A cut in a bore goes as deep as the bore says; the others turn about the spindle axis, their
 * heights above the part's seat. Units as in `schema.ts`: cutting speed in m/min, feed in mm/rev, depth of cut in mm.
 */
import { z } from 'zod'
import { coordinate, id, length, optional, positiveLength, text } from './fields.ts'

export const tooling = {
  tool: z.enum(['HSS', 'carbide']),
  /** At the largest diameter that is cut. */
  speed: z.number().positive().max(5000),
  feed: z.number().positive().max(100),
}
export const depth = z.number().positive().max(1000)

const common = { id, name: text.optional() }
const working = {
  ...tooling,
  /** Beyond what the outline shows: over a keyway, a hole or scale that is not drawn. */
  interrupted: z.boolean(),
}
/** Height where it ends and where it starts; left out: see each kind. */
const heights = optional(z.tuple([coordinate, coordinate]))
/** Of the hard skin of a casting or a flame-cut edge. */
const skin = optional(positiveLength)
const bar = optional(z.strictObject({ diameter: positiveLength, overhang: positiveLength }))

/** The cross-slide's dial: whether its figures are of the radius or of the diameter, one division, what they are in. */
const dial = optional(
  z.strictObject({
    on: z.enum(['radius', 'diameter']),
    division: positiveLength,
    unit: z.enum(['mm', 'thou']),
  }),
)

const bore = z.strictObject({ ...common, kind: z.literal('bore'), bore: id, ...working, depth, bar, dial })

/** On the bore's centre, as deep as the bore. */
const drill = z.strictObject({
  ...common,
  kind: z.literal('drill'),
  bore: id,
  diameter: positiveLength,
  ...working,
})

/** To the bore's finish diameter; `depth` is half of what it takes off the diameter. */
const ream = z.strictObject({ ...common, kind: z.literal('ream'), bore: id, ...working, depth })

/** A face square to the axis, between two radii. Heights left out: one depth off the front of the part. */
const face = z.strictObject({
  ...common,
  kind: z.literal('face'),
  from: length,
  to: length,
  z: heights,
  ...working,
  depth,
  skin,
})

/** The outside, from one diameter down to another. Heights left out: all of the part. */
const turn = z.strictObject({
  ...common,
  kind: z.literal('turn'),
  start: positiveLength,
  diameter: positiveLength,
  z: heights,
  ...working,
  depth,
  skin,
})

/** A recess about the axis, from one diameter out to another. Heights left out: one depth off the front of the part. */
const recess = z.strictObject({
  ...common,
  kind: z.literal('recess'),
  start: length,
  diameter: positiveLength,
  z: heights,
  ...working,
  depth,
  skin,
  bar,
})

export const cut = z.discriminatedUnion('kind', [bore, drill, ream, face, turn, recess])
