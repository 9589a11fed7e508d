/** One choice out of the catalogue: a kind in a size, a thread and a material, and what it makes. */
import { findMaterial } from '../job/materials.ts'
import { findThread } from './threads.ts'
import type { At, Box, Fixture, StockItem } from '../job/schema.ts'
import {
  catalogueKind,
  type CatalogueKind,
  type CatalogueKindName,
  type Shape,
  usualSizes,
  type SizeName,
  type Sizes,
} from './catalogue.ts'
import { convert } from '../units/convert.ts'
import { USUAL_STRAPS } from './straps.ts'
import { usualClamp, usualStrapFor, type ClampPattern, type Openings } from './usualClamp.ts'

export interface Choice {
  readonly kind: CatalogueKindName
  /** In which its sizes are said. */
  readonly units: 'mm' | 'in'
  /** mm */
  readonly sizes: Sizes
  readonly thread: string
  readonly material: string
}

const MILD = 'mild steel'

/** One of the usual sizes of the shop's units, in what the kind is usually made of. */
export function usualChoice(name: CatalogueKindName, units: 'mm' | 'in', index = 0): Choice {
  const kind = catalogueKind(name)
  const all = usualSizes(kind, units)
  const { sizes, thread } = all[index] ?? all[0]!
  return { kind: name, units, sizes, thread: thread ?? FIRST_THREAD[units], material: kind.material ?? MILD }
}
/** Of the shop's own units, where nothing else says it. */
export const FIRST_THREAD = { mm: 'M12', in: '1/2-13' } as const

/** The usual strap for the studs of a plate or shelf. */
export function usualStrap(plate: Openings, units: 'mm' | 'in'): Choice {
  const { length, width, thickness, thread } = USUAL_STRAPS[usualStrapFor(plate, units)]!
  return { kind: 'strap', units, sizes: { length, width, thickness }, thread, material: MILD }
}

export function shapeOf(choice: Choice): Shape {
  const kind = catalogueKind(choice.kind)
  const size = (key: SizeName) => choice.sizes[key] ?? 0
  return kind.shape(size, kind.threaded ? findThread(choice.thread) : null, choice.units)
}

/** kg to the gram's tenth; null where the sizes leave nothing or the material is not in the table. */
export function massOf(choice: Choice): number | null {
  const density = findMaterial(choice.material)?.density
  const mass = density === undefined ? 0 : shapeOf(choice).volume * density * 1e-9
  return mass > 0 ? Number(mass.toFixed(4)) : null
}

/** A bolt hole is no size to call a piece by; a sub-plate's bore is. */
export const isNamed = (kind: CatalogueKind, key: SizeName): boolean =>
  key !== 'hole' || kind.hardware === 'fixture'

/** As a list would call it: `round weight 50 × 25`, `round weight 2 × 1 in`. */
export function nameOf(choice: Choice): string {
  const kind = catalogueKind(choice.kind)
  const figures = kind.fields
    .filter((f) => isNamed(kind, f.key))
    .map((f) => tidy(convert(choice.sizes[f.key] ?? 0, 'mm', choice.units)))
  const thread = kind.threaded ? choice.thread : ''
  const unit = choice.units === 'in' ? ' in' : ''
  const sizes = choice.kind === 'strap' || figures.length === 0 ? '' : figures.join(' × ') + unit
  const material = choice.material === (kind.material ?? MILD) ? '' : choice.material
  return [kind.label.toLowerCase(), thread, sizes, material].filter((w) => w !== '').join(' ')
}
const tidy = (v: number) => String(Number(v.toFixed(2)))

/** A piece to stand at a station, its underside at `base`; null where it has no mass, and for a clamp, sub-plate, angle plate or vee, which is no box. */
export function pieceOf(choice: Choice, at: At, base: number): Omit<Box, 'id'> | null {
  const kind = catalogueKind(choice.kind)
  const mass = massOf(choice)
  if (mass === null) return null
  const { hardware } = kind
  if (hardware === 'clamp' || hardware === 'fixture' || hardware === 'anglePlate' || hardware === 'vee')
    return null
  const { footprint, height, massCentre } = shapeOf(choice)
  return {
    kind: hardware,
    name: nameOf(choice),
    mass,
    at,
    footprint,
    base,
    height,
    fixed: hardware !== 'counterweight',
    ...(massCentre ? { massCentre } : {}),
  }
}

/** A sub-plate's body, for a choice that is one. */
export function subPlateOf(choice: Choice): Pick<Fixture, 'footprint' | 'bore' | 'thickness'> & {
  readonly name: string
  readonly density?: number
} {
  const density = findMaterial(choice.material)?.density
  return {
    name: nameOf(choice),
    footprint: shapeOf(choice).footprint,
    bore: choice.sizes.hole ?? 0,
    thickness: choice.sizes.thickness ?? 1,
    ...(density === undefined ? {} : { density }),
  }
}

/** What an angle plate or vee of a choice is called and made of. */
export function castingOf(choice: Choice): { readonly name: string; readonly density: number } | null {
  const density = findMaterial(choice.material)?.density
  return density === undefined || massOf(choice) === null ? null : { name: nameOf(choice), density }
}

/** A strap clamp of a choice; null where it is of another kind or leaves nothing. */
export function clampOf(choice: Choice, packed: boolean): ClampPattern | null {
  if (choice.kind !== 'strap' || massOf(choice) === null) return null
  const { length = 0, width = 0, thickness = 0 } = choice.sizes
  return usualClamp({ length, width, thickness }, choice.thread, packed)
}

/** As stock; null where it has no mass or is nothing that could serve as a weight. */
export function stockOf(choice: Choice, count: number): Omit<StockItem, 'id'> | null {
  const mass = massOf(choice)
  if (mass === null || !catalogueKind(choice.kind).stock) return null
  const { footprint, height } = shapeOf(choice)
  return { name: nameOf(choice), mass, count, footprint, height }
}
