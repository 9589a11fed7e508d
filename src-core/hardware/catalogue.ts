/**
 * Shop hardware by kind and size: each kind says which sizes it asks for, what it takes up on the plate and its
 * volume, from which its mass follows. Usual sizes are only where to start; the shop's own are typed over them. mm.
 */
import type { AnglePlate, Box, Footprint } from '../job/schema.ts'
import { discArea } from '../geometry/discArea.ts'
import { USUAL_HEEL_BLOCKS } from './heels.ts'
import { acrossCorners, nutSize, nutVolume } from './nuts.ts'
import { angleVolume, USUAL_ANGLE_PLATES, USUAL_ANGLE_PLATES_INCH, usualVee, veeVolume } from './shelves.ts'
import { USUAL_STRAPS, strapVolume } from './straps.ts'
import { strapOf } from './usualClamp.ts'
import { findThread, rodVolume, type Thread } from './threads.ts'
import { inches } from '../units/convert.ts'

export type CatalogueKindName =
  | 'strap'
  | 'stud'
  | 'nut'
  | 'heel'
  | 'packing'
  | 'bracket'
  | 'disc'
  | 'subPlate'
  | 'anglePlate'
  | 'vee'
  | 'round'
  | 'rectangular'
export type SizeName = 'length' | 'width' | 'height' | 'thickness' | 'diameter' | 'hole'
export type Sizes = Readonly<Partial<Record<SizeName, number>>>

interface Field {
  readonly key: SizeName
  readonly label: string
  /** May be nothing, such as a hole that is not there. */
  readonly orNone?: boolean
}

/** What a size comes to; the mass centre is given only where it is not in the middle, as `Box.massCentre`. */
export interface Shape {
  readonly volume: number
  readonly footprint: Footprint
  readonly height: number
  readonly massCentre?: NonNullable<Box['massCentre']>
}

/** A size that is common; no standard sets it. mm. */
export interface Usual {
  readonly thread?: string
  readonly sizes: Sizes
}

export interface CatalogueKind {
  readonly name: CatalogueKindName
  readonly label: string
  /** What is and what is not in the mass. */
  readonly counts: string
  readonly hardware: Exclude<Box['kind'], 'press'> | 'clamp' | 'fixture' | 'anglePlate' | 'vee'
  /** What it is usually made of; left out: mild steel. */
  readonly material?: string
  readonly threaded: boolean
  /** May be listed among the stock that the planner draws on. */
  readonly stock: boolean
  readonly fields: readonly Field[]
  readonly usual: readonly Usual[]
  /** Those of a shop that measures in inches; left out: `usual` has them beside the others. */
  readonly usualInch?: readonly Usual[]
  readonly shape: (s: (key: SizeName) => number, thread: Thread | null, units: 'mm' | 'in') => Shape
}

const LENGTH: Field = { key: 'length', label: 'Length' }
const WIDTH: Field = { key: 'width', label: 'Width' }
const HEIGHT: Field = { key: 'height', label: 'Height' }
const THICKNESS: Field = { key: 'thickness', label: 'Thickness' }
const HOLE: Field = { key: 'hole', label: 'Bolt hole ⌀', orNone: true }

const block = (s: (key: SizeName) => number): Shape => ({
  volume: s('length') * s('width') * s('height'),
  footprint: { rect: [s('length'), s('width')] },
  height: s('height'),
})

/** Sizes given in inches. */
const inSizes = (sizes: Sizes): Sizes =>
  Object.fromEntries(Object.entries(sizes).map(([key, size]) => [key, inches(size)]))

const CASTING = 'grey cast iron'

const angleSizes = ({ size, thickness }: (typeof USUAL_ANGLE_PLATES)[number]): Usual => ({
  sizes: { length: size[0], height: size[1], width: size[2], thickness },
})

/** An angle plate's size out of those that the catalogue asks for. */
export const angleForm = (s: (key: SizeName) => number): Pick<AnglePlate, 'size' | 'thickness'> => ({
  size: [s('length'), s('height'), s('width')],
  thickness: s('thickness'),
})

export const CATALOGUE: readonly CatalogueKind[] = [
  {
    name: 'strap',
    label: 'Strap clamp',
    counts: 'The strap alone; stud, nut, washer, heel and packing are weighed with it where it stands.',
    hardware: 'clamp',
    threaded: true,
    stock: false,
    fields: [LENGTH, WIDTH, THICKNESS],
    usual: USUAL_STRAPS.map(({ thread, length, width, thickness }) => ({
      thread,
      sizes: { length, width, thickness },
    })),
    shape: (s, thread) => {
      const size = { length: s('length'), width: s('width'), thickness: s('thickness') }
      return {
        volume: strapVolume(strapOf(size, thread?.name ?? '')),
        footprint: { rect: [size.length, size.width] },
        height: size.thickness,
      }
    },
  },
  {
    name: 'stud',
    label: 'Stud',
    counts: 'Threaded rod alone; its nut is another piece.',
    hardware: 'other',
    threaded: true,
    stock: false,
    fields: [LENGTH],
    usual: [
      { thread: 'M10', sizes: { length: 100 } },
      { thread: 'M12', sizes: { length: 125 } },
      { thread: 'M16', sizes: { length: 160 } },
      ...Object.entries({ '3/8-16': 4, '1/2-13': 5, '5/8-11': 6 }).map(([thread, length]) => ({
        thread,
        sizes: inSizes({ length }),
      })),
    ],
    shape: (s, thread) => ({
      volume: thread ? rodVolume(thread, s('length')) : 0,
      footprint: { circle: thread?.diameter ?? 1 },
      height: s('length'),
    }),
  },
  {
    name: 'nut',
    label: 'Nut',
    counts: 'A plain hexagon nut, ISO 4032 or ASME B18.2.2.',
    hardware: 'counterweight',
    threaded: true,
    stock: true,
    fields: [],
    usual: ['M10', 'M12', 'M16', 'M20', '3/8-16', '1/2-13', '5/8-11', '3/4-10'].map((thread) => ({
      thread,
      sizes: {},
    })),
    shape: (_s, thread) => {
      const size = thread && nutSize(thread)
      if (!thread || !size) return { volume: 0, footprint: { circle: 1 }, height: 1 }
      const corners = Number(acrossCorners(size).toFixed(2))
      return { volume: nutVolume(thread, size), footprint: { circle: corners }, height: size.height }
    },
  },
  {
    name: 'heel',
    label: 'Heel block',
    counts: 'A plain block.',
    hardware: 'packing',
    threaded: false,
    stock: true,
    fields: [LENGTH, WIDTH, HEIGHT],
    usual: USUAL_HEEL_BLOCKS.map((sizes) => ({ sizes })),
    usualInch: [
      { sizes: inSizes({ length: 1, width: 1, height: 3 / 4 }) },
      { sizes: inSizes({ length: 5 / 4, width: 5 / 4, height: 5 / 4 }) },
      { sizes: inSizes({ length: 3 / 2, width: 5 / 4, height: 2 }) },
    ],
    shape: block,
  },
  {
    name: 'packing',
    label: 'Packing block',
    counts: 'A plain block.',
    hardware: 'packing',
    threaded: false,
    stock: true,
    fields: [LENGTH, WIDTH, HEIGHT],
    usual: [
      { sizes: { length: 25, width: 25, height: 12 } },
      { sizes: { length: 50, width: 20, height: 12 } },
      { sizes: { length: 100, width: 20, height: 20 } },
    ],
    usualInch: [
      { sizes: inSizes({ length: 1, width: 1, height: 1 / 2 }) },
      { sizes: inSizes({ length: 2, width: 3 / 4, height: 1 / 2 }) },
      { sizes: inSizes({ length: 4, width: 3 / 4, height: 3 / 4 }) },
    ],
    shape: block,
  },
  {
    name: 'bracket',
    label: 'Angle bracket',
    counts: 'Foot and upright of one thickness, the upright on the side of the axis; bolt holes are left in.',
    hardware: 'bracket',
    threaded: false,
    stock: false,
    fields: [{ key: 'length', label: 'Foot' }, { key: 'height', label: 'Upright' }, WIDTH, THICKNESS],
    usual: [
      { sizes: { length: 50, height: 50, width: 50, thickness: 8 } },
      { sizes: { length: 75, height: 75, width: 60, thickness: 10 } },
      { sizes: { length: 100, height: 100, width: 80, thickness: 12 } },
    ],
    usualInch: [
      { sizes: inSizes({ length: 2, height: 2, width: 2, thickness: 5 / 16 }) },
      { sizes: inSizes({ length: 3, height: 3, width: 5 / 2, thickness: 3 / 8 }) },
      { sizes: inSizes({ length: 4, height: 4, width: 3, thickness: 1 / 2 }) },
    ],
    shape: bracketShape,
  },
  {
    name: 'disc',
    label: 'Round sub-plate',
    counts: 'A disc less its bore; bolt holes are left in, its bolts are weighed with it where it stands.',
    hardware: 'fixture',
    threaded: false,
    stock: false,
    fields: [
      { key: 'diameter', label: 'Diameter' },
      { key: 'hole', label: 'Bore ⌀', orNone: true },
      THICKNESS,
    ],
    usual: [
      { sizes: { diameter: 200, hole: 60, thickness: 20 } },
      { sizes: { diameter: 250, hole: 80, thickness: 25 } },
      { sizes: { diameter: 300, hole: 200, thickness: 20 } },
    ],
    usualInch: [
      { sizes: inSizes({ diameter: 8, hole: 5 / 2, thickness: 3 / 4 }) },
      { sizes: inSizes({ diameter: 10, hole: 3, thickness: 1 }) },
      { sizes: inSizes({ diameter: 12, hole: 8, thickness: 3 / 4 }) },
    ],
    shape: (s) => ({
      volume: (discArea(s('diameter')) - discArea(Math.min(s('hole'), s('diameter')))) * s('thickness'),
      footprint: { circle: s('diameter') },
      height: s('thickness'),
    }),
  },
  {
    name: 'subPlate',
    label: 'Square sub-plate',
    counts: 'A plate less its bore; bolt holes are left in, its bolts are weighed with it where it stands.',
    hardware: 'fixture',
    threaded: false,
    stock: false,
    fields: [LENGTH, WIDTH, { key: 'hole', label: 'Bore ⌀', orNone: true }, THICKNESS],
    usual: [
      { sizes: { length: 200, width: 200, hole: 60, thickness: 20 } },
      { sizes: { length: 250, width: 150, hole: 60, thickness: 20 } },
    ],
    usualInch: [
      { sizes: inSizes({ length: 8, width: 8, hole: 5 / 2, thickness: 3 / 4 }) },
      { sizes: inSizes({ length: 10, width: 6, hole: 5 / 2, thickness: 3 / 4 }) },
    ],
    shape: (s) => ({
      volume: (s('length') * s('width') - discArea(s('hole'))) * s('thickness'),
      footprint: { rect: [s('length'), s('width')] },
      height: s('thickness'),
    }),
  },
  {
    name: 'anglePlate',
    label: 'Angle plate',
    counts:
      'Foot, shelf and two webs; slots and bolt holes are left in, its bolts are weighed with it where it stands.',
    hardware: 'anglePlate',
    material: CASTING,
    threaded: false,
    stock: false,
    fields: [
      { key: 'length', label: 'Along' },
      { key: 'height', label: 'Foot' },
      { key: 'width', label: 'Shelf out' },
      THICKNESS,
    ],
    usual: USUAL_ANGLE_PLATES.map(angleSizes),
    usualInch: USUAL_ANGLE_PLATES_INCH.map(angleSizes),
    shape: (s) => {
      const form = angleForm(s)
      const [along, foot, out] = form.size
      return { volume: angleVolume(form), footprint: { rect: [foot, along] }, height: out }
    },
  },
  {
    name: 'vee',
    label: 'Vee',
    counts:
      'A block with a vee of a right angle and a foot; tapped holes are left in, its bolts are weighed with it where it stands.',
    hardware: 'vee',
    material: CASTING,
    threaded: false,
    stock: false,
    fields: [{ key: 'diameter', label: 'For a round of' }],
    usual: [40, 60, 80, 100, 125].map((diameter) => ({ sizes: { diameter } })),
    usualInch: [3 / 2, 5 / 2, 3, 4, 5].map((diameter) => ({ sizes: inSizes({ diameter }) })),
    shape: (s, _thread, units) => {
      const { size, foot } = usualVee(s('diameter'), units)
      return {
        volume: s('diameter') > 0 ? veeVolume(s('diameter'), units) : 0,
        footprint: { rect: [size[1] + foot.length, size[0]] },
        height: size[2],
      }
    },
  },
  {
    name: 'round',
    label: 'Round weight',
    counts: 'A disc less its bolt hole.',
    hardware: 'counterweight',
    threaded: false,
    stock: true,
    fields: [{ key: 'diameter', label: 'Diameter' }, HEIGHT, HOLE],
    usual: [
      { sizes: { diameter: 30, height: 20, hole: 14 } },
      { sizes: { diameter: 40, height: 20, hole: 14 } },
      { sizes: { diameter: 50, height: 25, hole: 14 } },
      { sizes: { diameter: 60, height: 30, hole: 14 } },
      { sizes: { diameter: 80, height: 30, hole: 14 } },
    ],
    usualInch: [
      { sizes: inSizes({ diameter: 5 / 4, height: 3 / 4, hole: 9 / 16 }) },
      { sizes: inSizes({ diameter: 3 / 2, height: 3 / 4, hole: 9 / 16 }) },
      { sizes: inSizes({ diameter: 2, height: 1, hole: 9 / 16 }) },
      { sizes: inSizes({ diameter: 5 / 2, height: 5 / 4, hole: 9 / 16 }) },
      { sizes: inSizes({ diameter: 3, height: 5 / 4, hole: 9 / 16 }) },
    ],
    shape: (s) => ({
      volume: (discArea(s('diameter')) - discArea(s('hole'))) * s('height'),
      footprint: { circle: s('diameter') },
      height: s('height'),
    }),
  },
  {
    name: 'rectangular',
    label: 'Rectangular weight',
    counts: 'A block less its bolt hole.',
    hardware: 'counterweight',
    threaded: false,
    stock: true,
    fields: [LENGTH, WIDTH, HEIGHT, HOLE],
    usual: [
      { sizes: { length: 40, width: 30, height: 20, hole: 14 } },
      { sizes: { length: 60, width: 40, height: 20, hole: 14 } },
      { sizes: { length: 80, width: 50, height: 25, hole: 14 } },
    ],
    usualInch: [
      { sizes: inSizes({ length: 3 / 2, width: 5 / 4, height: 3 / 4, hole: 9 / 16 }) },
      { sizes: inSizes({ length: 5 / 2, width: 3 / 2, height: 3 / 4, hole: 9 / 16 }) },
      { sizes: inSizes({ length: 3, width: 2, height: 1, hole: 9 / 16 }) },
    ],
    shape: (s) => ({
      volume: (s('length') * s('width') - discArea(s('hole'))) * s('height'),
      footprint: { rect: [s('length'), s('width')] },
      height: s('height'),
    }),
  },
]

function bracketShape(s: (key: SizeName) => number): Shape {
  const { length, height, width, thickness } = {
    length: s('length'),
    height: s('height'),
    width: s('width'),
    thickness: Math.min(s('thickness'), s('length'), s('height')),
  }
  const foot = length * thickness
  const upright = (height - thickness) * thickness
  const area = foot + upright
  const upX = -length / 2 + thickness / 2
  const upZ = thickness + (height - thickness) / 2
  return {
    volume: area * width,
    footprint: { rect: [length, width] },
    height,
    massCentre: {
      x: (upright * upX) / area,
      y: 0,
      z: (foot * (thickness / 2) + upright * upZ) / area,
    },
  }
}

export const catalogueKind = (name: CatalogueKindName): CatalogueKind =>
  CATALOGUE.find((k) => k.name === name)!

/** The usual sizes of a kind, those of the shop's own units first, or alone where no thread ties them to others. */
export function usualSizes({ usual, usualInch }: CatalogueKind, units: 'mm' | 'in'): readonly Usual[] {
  if (usualInch) return units === 'in' ? usualInch : usual
  const isInch = ({ thread }: Usual) => findThread(thread ?? '')?.standard !== 'metric'
  const own = (u: Usual) => isInch(u) === (units === 'in')
  return [...usual.filter(own), ...usual.filter((u) => !own(u))]
}
