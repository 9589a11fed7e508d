/**
 * The shop library, version 4: lathes, plates, clamps and other hardware, weights, materials and tooling, kept once
 * for all jobs. A job copies what it uses and stays complete on its own.
 */
import { z } from 'zod'
import { depth, tooling as cutTooling } from '../job/cutSchema.ts'
import { anglePlate, box, clamp, fixture, vee } from '../job/hardwareSchema.ts'
import { jobSchema } from '../job/schema.ts'

const job = jobSchema.shape

const MOST = 500
const id = z.string().min(1).max(80)
const text = z.string().max(500)
const listOf = <T extends z.ZodType>(value: T) =>
  z.array(z.strictObject({ id, name: text.min(1), value })).max(MOST)

/** A piece as the library keeps it: without a place on a plate. */
const boxPattern = box
  .omit({ id: true, at: true, facing: true, base: true, fixed: true, name: true, press: true })
  .extend({ press: box.shape.press.unwrap().unwrap().pick({ thread: true, class: true }).optional() })
const clampPattern = clamp.pick({
  kind: true,
  strap: true,
  stud: true,
  nut: true,
  washer: true,
  lubricated: true,
  heel: true,
  packing: true,
  mass: true,
})
const fixturePattern = fixture.pick({
  kind: true,
  form: true,
  footprint: true,
  bore: true,
  thickness: true,
  density: true,
  mass: true,
  holes: true,
})
const anglePlatePattern = anglePlate.pick({
  kind: true,
  size: true,
  thickness: true,
  webs: true,
  density: true,
  mass: true,
  slots: true,
  holes: true,
})
const veePattern = vee.pick({
  kind: true,
  size: true,
  angle: true,
  opening: true,
  foot: true,
  density: true,
  mass: true,
  holes: true,
})
const pattern = z.discriminatedUnion('kind', [
  boxPattern,
  clampPattern,
  fixturePattern,
  anglePlatePattern,
  veePattern,
])
const stockPattern = job.stock.element.omit({ id: true, name: true })
const tooling = z.strictObject({ ...cutTooling, depth })
const material = z.strictObject({ density: z.number().positive().max(30_000) })

export const librarySchema = z.strictObject({
  format: z.literal('evenswing-library'),
  version: z.literal(4),
  lathes: listOf(job.lathe.omit({ name: true })),
  plates: listOf(job.plate.omit({ name: true })),
  hardware: listOf(pattern),
  weights: listOf(stockPattern),
  materials: listOf(material),
  tooling: listOf(tooling),
})

type DeepReadonly<T> = T extends object ? { readonly [K in keyof T]: DeepReadonly<T[K]> } : T
export type Library = DeepReadonly<z.infer<typeof librarySchema>>

export const SECTIONS = ['lathes', 'plates', 'hardware', 'weights', 'materials', 'tooling'] as const
export type Section = (typeof SECTIONS)[number]
export type LibraryItem<S extends Section = Section> = Library[S][number]

export const EMPTY_LIBRARY: Library = {
  format: 'evenswing-library',
  version: 4,
  lathes: [],
  plates: [],
  hardware: [],
  weights: [],
  materials: [],
  tooling: [],
}
