/** Small jobs to test with, built in code and varied by the caller. Invented shop, invented parts. */
import { readFileSync } from 'node:fs'
import { circleRing, rectRing } from '../../src-core/geometry/edges.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import { parseJob } from '../../src-core/job/parse.ts'
import type {
  At,
  Bore,
  Cut,
  Box,
  Hardware,
  Job,
  Lathe,
  Part,
  Plate,
  Prism,
  Setup,
} from '../../src-core/job/schema.ts'

export const EXAMPLES = ['flat-link', 'bearing-bracket'] as const

/** The examples as the first version had them: their clamps are presses now, of which little is known. */
export const exampleText = (name: (typeof EXAMPLES)[number]): string =>
  readFileSync(new URL(`../data/jobs/v2/${name}.evenswing.json`, import.meta.url), 'utf8')

/** Of the examples that come with the program, the parts that do not lie flat. */
export const SHELF_EXAMPLES = ['bearing-block', 'round-casting'] as const

/** The examples that come with the program. */
export const shippedText = (name: (typeof EXAMPLES | typeof SHELF_EXAMPLES)[number]): string =>
  readFileSync(new URL(`../../examples/${name}.evenswing`, import.meta.url), 'utf8')

export const shelfExample = (name: (typeof SHELF_EXAMPLES)[number]): Job => soundJob(shippedText(name))

/** Parses a text that must be a sound job. */
export function soundJob(text: string): Job {
  const result = parseJob(text)
  if (!result.ok) throw new Error(result.faults.map((f) => `${f.path}: ${f.message}`).join('\n'))
  return result.job
}

export const exampleJob = (name: (typeof EXAMPLES)[number]): Job => soundJob(exampleText(name))
export const shippedJob = (name: (typeof EXAMPLES)[number]): Job => soundJob(shippedText(name))

/** A spindle that turns in these steps, rpm. */
export const steps = (...rpms: readonly number[]): Lathe['speeds'] => ({
  steps: rpms.map((rpm) => ({ rpm })),
  stepless: null,
})

const LATHE: Lathe = {
  name: 'test lathe',
  swingOverBed: 330,
  swingOverCrossSlide: 190,
  gap: { swing: 470, width: 130, open: false },
  speeds: steps(45, 70, 110, 180, 280, 440),
  maxSpindleSpeed: 1800,
  noseOverhang: 90,
  loadLimit: 60,
  barReach: 120,
}

const PLATE: Plate = {
  name: 'test plate',
  diameter: 300,
  thickness: 28,
  bore: 38,
  mass: 11,
  ratedSpeed: 1200,
  slots: [0, 90, 180, 270].map((angle, i) => ({
    id: `S${i + 1}`,
    angle,
    from: 55,
    to: 135,
    width: 14,
    kind: 'through' as const,
  })),
  holes: [{ id: 'H1', x: 0, y: 70, diameter: 13 }],
  residual: { amount: 0, angle: 0 },
}

const SETUP: Setup = {
  id: 'op10',
  title: '',
  centre: { x: 0, y: 0 },
  turn: 0,
  packing: 12,
  hardware: [],
  cuts: [],
  speed: 110,
  criterion: { kind: 'weightShare', value: 0.1 },
  frictionCoefficient: 0.12,
}

/** A bore is bored to size. */
export const boreCut = (
  bore: string,
  more: Partial<Extract<Cut, { kind: 'bore' }>> = {},
): Extract<Cut, { kind: 'bore' }> => ({
  id: 'cut1',
  kind: 'bore',
  bore,
  tool: 'HSS',
  speed: 20,
  feed: 0.1,
  depth: 1,
  interrupted: false,
  ...more,
})

/** The drill that opens a bore, before it is bored. */
export const drillCut = (
  bore: string,
  diameter: number,
  more: Partial<Extract<Cut, { kind: 'drill' }>> = {},
): Extract<Cut, { kind: 'drill' }> => ({
  id: 'drill1',
  kind: 'drill',
  bore,
  diameter,
  tool: 'HSS',
  speed: 20,
  feed: 0.1,
  interrupted: false,
  ...more,
})

/** A body of a rectangle `length` by `width` about a centre. */
export function block(
  id: string,
  at: Point,
  size: readonly [number, number, number],
  more: Partial<Prism> = {},
): Prism {
  return {
    id,
    effect: 'adds',
    base: 0,
    outline: rectRing(at, size[0], size[1], 0),
    holes: [],
    thickness: size[2],
    ...more,
  }
}

export function disc(
  id: string,
  at: Point,
  diameter: number,
  thickness: number,
  more: Partial<Prism> = {},
): Prism {
  return { ...block(id, at, [1, 1, thickness], more), outline: circleRing(at, diameter) }
}

export const bore = (id: string, at: Point, diameter: number, more: Partial<Bore> = {}): Bore => ({
  id,
  ...at,
  diameter,
  start: 0,
  depth: null,
  ...more,
})

export const partOf = (
  bodies: Part['bodies'],
  bores: Part['bores'] = [],
  more: Partial<Part> = {},
): Part => ({
  name: 'test part',
  material: 'steel',
  density: 7850,
  weighedMass: null,
  bodies,
  bores,
  ...more,
})

/** A piece with its mass and place, round unless said otherwise. */
export const piece = (id: string, mass: number, at: At, more: Partial<Box> = {}): Box => ({
  id,
  kind: 'counterweight',
  mass,
  at,
  footprint: { circle: 40 },
  base: 0,
  height: 20,
  fixed: true,
  ...more,
})

interface JobParts {
  readonly part?: Part
  readonly lathe?: Partial<Lathe>
  readonly plate?: Partial<Plate>
  readonly setup?: Partial<Setup>
  readonly setups?: readonly Partial<Setup>[]
  readonly uncertainty?: NonNullable<Job['uncertainty']>
}

/** A sound job: a steel disc on the axis unless another part is given, one setup called op10. */
export function jobWith(parts: JobParts = {}): Job {
  const setups = parts.setups ?? [parts.setup ?? {}]
  return {
    format: 'evenswing-job',
    version: 4,
    title: 'test',
    displayUnits: 'mm',
    lathe: { ...LATHE, ...parts.lathe },
    plate: { ...PLATE, ...parts.plate },
    stock: [],
    part: parts.part ?? partOf([disc('body', { x: 0, y: 0 }, 120, 20)]),
    setups: setups.map((s, i) => ({ ...SETUP, id: `op${10 * (i + 1)}`, ...s })),
    ...(parts.uncertainty ? { uncertainty: parts.uncertainty } : {}),
  }
}

/** A part of 20 bodies and a setup of 30 pieces: what one analysis must manage within a frame. */
export function largeJob(): Job {
  const bodies = Array.from({ length: 20 }, (_, i): Prism => {
    const at = { x: -76 + 38 * (i % 5), y: -57 + 38 * Math.floor(i / 5) }
    return block(`b${i}`, at, [38, 38, 10 + (i % 4)], { holes: [circleRing(at, 12 + (i % 3))] })
  })
  const hardware = Array.from({ length: 30 }, (_, i): Hardware => {
    const angle = (i / 30) * 2 * Math.PI
    const at = { x: 132 * Math.cos(angle), y: 132 * Math.sin(angle) }
    return piece(`h${i}`, 0.1 + 0.01 * i, at, { footprint: { rect: [22, 18] }, height: 15 })
  })
  return jobWith({
    part: partOf(bodies, [bore('A', { x: 0, y: 0 }, 30), bore('B', { x: 60, y: 30 }, 20)]),
    plate: { diameter: 320 },
    setup: {
      centre: { bore: 'A' },
      hardware,
      cuts: [boreCut('A')],
      turn: 17,
    },
  })
}

/** Freezes a value and everything in it: a write then throws, as modules are strict. */
export function deepFreeze<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value)
    Object.values(value).forEach(deepFreeze)
  }
  return value
}
