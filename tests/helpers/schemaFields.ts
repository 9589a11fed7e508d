/** Walks a zod schema of documents: its fields by path, sample values of it, and where fields stand in a value. */
import type { z } from 'zod'

/**
 * A field of the schema. Paths join keys with `.`, an element of a list is `[]`, a value of a record `{}`; the options
 * of a union share theirs. `absent`: may be left out or null. A `group` holds other fields.
 */
export interface Field {
  readonly path: string
  readonly schema: Schema
  readonly absent: boolean
  readonly group: boolean
}
/** Where a field stands in a value: keys and indices. */
export type Place = readonly (string | number)[]
export type Schema = z.core.$ZodType

const defOf = (schema: Schema) => (schema as z.core.$ZodTypes)._zod.def
const fits = (schema: Schema, value: unknown): boolean => (schema as z.ZodType).safeParse(value).success

/** A schema without what lets it be left out or null. */
function bare(schema: Schema): { readonly inner: Schema; readonly absent: boolean } {
  const def = defOf(schema)
  return def.type === 'optional' || def.type === 'nullable'
    ? { inner: bare(def.innerType).inner, absent: true }
    : { inner: schema, absent: false }
}

interface Step {
  readonly path: string
  readonly schema: Schema
  readonly key: string | number
}

/** What lies directly in a schema; null where nothing can. A kind of schema not known here is an error, not a leaf. */
function stepsOf(schema: Schema, path: string, value?: unknown): Step[] | null {
  const def = defOf(schema)
  switch (def.type) {
    case 'object':
      return Object.entries(def.shape).map(([key, s]) => ({
        path: path === '' ? key : `${path}.${key}`,
        schema: s,
        key,
      }))
    case 'array': {
      const length = Array.isArray(value) ? value.length : 1
      return Array.from({ length }, (_, key) => ({ path: `${path}[]`, schema: def.element, key }))
    }
    case 'tuple':
      return def.items.map((s, key) => ({ path: `${path}[]`, schema: s, key }))
    case 'record':
      return Object.keys((value as object | undefined) ?? { any: 0 }).map((key) => ({
        path: `${path}{}`,
        schema: def.valueType,
        key,
      }))
    case 'string':
    case 'number':
    case 'boolean':
    case 'enum':
    case 'literal':
      return null
    default:
      throw new Error(`${path}: the walk does not know schemas of type ${def.type}; teach it`)
  }
}

/** Every leaf of a schema, and every group that may be left out. */
export function fieldsOf(schema: Schema): Field[] {
  const found = new Map<string, Field>()
  const walk = (outer: Schema, path: string, absent: boolean): void => {
    const { inner, absent: here } = bare(outer)
    const def = defOf(inner)
    const may = absent || here
    if (def.type === 'union') return def.options.forEach((option) => walk(option, path, may))
    const steps = stepsOf(inner, path)
    if (steps === null || may)
      found.set(path, {
        path,
        schema: inner,
        absent: may || (found.get(path)?.absent ?? false),
        group: steps !== null,
      })
    for (const step of steps ?? []) walk(step.schema, step.path, false)
  }
  walk(schema, '', false)
  return [...found.values()]
}

type FieldPlace = Field & { readonly place: Place }

/** The first place of every field of a value that it has; unions are taken by the option that fits. */
export const placesOf = (schema: Schema, value: unknown): FieldPlace[] => {
  const first = new Map<string, FieldPlace>()
  for (const field of everyPlaceOf(schema, value)) if (!first.has(field.path)) first.set(field.path, field)
  return [...first.values()]
}

/** All places of all fields of a value. */
export function everyPlaceOf(schema: Schema, value: unknown): FieldPlace[] {
  const found: FieldPlace[] = []
  const walk = (outer: Schema, path: string, here: unknown, place: Place, may: boolean): void => {
    if (here === undefined || here === null) return
    const { inner, absent: own } = bare(outer)
    const absent = may || own
    const def = defOf(inner)
    if (def.type === 'union') {
      const option = def.options.find((o) => fits(o, here))
      if (!option) throw new Error(`${path}: no option fits`)
      return walk(option, path, here, place, absent)
    }
    const steps = stepsOf(inner, path, here)
    if (steps === null || absent) found.push({ path, schema: inner, absent, group: steps !== null, place })
    for (const step of steps ?? [])
      walk(step.schema, step.path, (here as Record<string, unknown>)[step.key], [...place, step.key], false)
  }
  walk(schema, '', value, [], false)
  return found
}

/** Candidates for a leaf, of which those that fit are taken; `n` makes them differ from one another. */
function candidates(schema: Schema, n: number): unknown[] {
  const def = defOf(schema)
  if (def.type === 'enum') return rotated(Object.values(def.entries), n)
  if (def.type === 'literal') return rotated(def.values, n)
  if (def.type === 'boolean') return rotated([true, false], n)
  if (def.type === 'number') return [n + 0.25, n, ((n * 7) % 89) / 100 + 0.001]
  return [`t${n}`, `2026-01-${String((n % 28) + 1).padStart(2, '0')}`, `t${String(n % 900).padStart(3, '0')}`]
}
const rotated = <T>(list: readonly T[], n: number): T[] => list.map((_, i) => list[(i + n) % list.length]!)

/**
 * A value of the schema with every field given, numbers and texts all different. Of a union the option `choice` is
 * taken, counted round, so that as many samples as a union has options cover all of them.
 */
export function sampleOf(schema: Schema, choice: number): unknown {
  let n = 10
  const make = (outer: Schema, path: string): unknown => {
    const { inner } = bare(outer)
    const def = defOf(inner)
    if (def.type === 'union') {
      // Each time round the longest union, of 10, those of two or three within it take another option.
      const turn = def.options.length > 3 ? choice : choice + 3 * Math.floor(choice / 10)
      return make(def.options[turn % def.options.length]!, path)
    }
    const steps = stepsOf(inner, path)
    if (steps === null) {
      const fit = candidates(inner, ++n).find((c) => fits(inner, c))
      if (fit === undefined) throw new Error(`${path}: no sample value fits; add a candidate`)
      return fit
    }
    if (def.type === 'tuple') return steps.map((s) => make(s.schema, s.path))
    if (def.type === 'array') {
      const list: unknown[] = []
      do list.push(make(def.element, `${path}[]`))
      while (!fits(inner, list) && list.length < 50)
      return list
    }
    return Object.fromEntries(steps.map((s) => [s.key, make(s.schema, s.path)]))
  }
  return make(schema, '')
}

/** Another value that fits a leaf; undefined where it has but one. */
export const otherValue = (schema: Schema, value: unknown): unknown =>
  [41, 42].flatMap((n) => candidates(schema, n)).find((c) => c !== value && fits(schema, c))

export const valueAt = (value: unknown, place: Place): unknown =>
  place.reduce<unknown>((at, key) => (at as Record<string, unknown> | undefined)?.[key], value)

/** A copy with another value at a place. */
export function withValue<T>(value: T, place: Place, next: unknown): T {
  const copy = structuredClone(value)
  const last = place.at(-1)!
  const holder = valueAt(copy, place.slice(0, -1)) as Record<string, unknown>
  holder[last] = next
  return copy
}
