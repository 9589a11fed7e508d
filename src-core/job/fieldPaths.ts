/**
 * Paths of a job's fields, from its type: every leaf, and every group that may be left out or null. Keys are joined
 * with `.`; an element of a list is `[]`, a value of a record `{}`: `part.bodies[].outline[].bulge`.
 */
import type { Job } from './schema.ts'

type Key<P extends string, K extends string> = P extends '' ? K : `${P}.${K}`

type Within<T, P extends string> = T extends readonly (infer E)[]
  ? PathsOf<E, `${P}[]`>
  : T extends object
    ? string extends keyof T
      ? PathsOf<T[string & keyof T], `${P}{}`>
      : { [K in keyof T & string]-?: PathsOf<T[K], Key<P, K>> }[keyof T & string]
    : P

type PathsOf<V, P extends string> =
  Within<NonNullable<V>, P> | (null extends V ? P : undefined extends V ? P : never)

export type FieldPath = PathsOf<Job, ''>
