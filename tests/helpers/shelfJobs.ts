/** Parts that do not lie flat: a bearing block on an angle plate, a round casting in a vee. Invented. */
import { circleRing, rectRing } from '../../src-core/geometry/edges.ts'
import type { AnglePlate, Hardware, Job, Prism, Setup, Vee } from '../../src-core/job/schema.ts'
import { block, bore, boreCut, disc, jobWith, partOf, steps } from './jobs.ts'

const bolted = {
  stud: { thread: 'M12', class: '8.8', length: 'suit' },
  nut: { acrossFlats: 18, height: 10.8 },
  washer: { diameter: 24, thickness: 2.5 },
  torque: 60,
  lubricated: false,
} as const

/** A faceplate of 400 mm with eight slots, on a lathe of 250 mm centre height. */
const machine = {
  lathe: {
    swingOverBed: 500,
    swingOverCrossSlide: 300,
    gap: { swing: 700, width: 200, open: true },
    speeds: steps(30, 45, 70, 110, 155, 240, 360),
    maxSpindleSpeed: 1400,
    loadLimit: 120,
    noseOverhang: 110,
    barReach: 240,
    startTime: 2,
    brakeTime: 2,
    nose: { kind: 'cam-lock', locked: false } as const,
    behindPlate: { depth: 60 },
  },
  plate: {
    diameter: 400,
    thickness: 32,
    bore: 50,
    mass: 26,
    surface: 'turned' as const,
    slots: Array.from({ length: 8 }, (_, i) => ({
      id: `S${i + 1}`,
      angle: 45 * i,
      from: 60,
      to: 190,
      width: 14,
      kind: 'through' as const,
    })),
    holes: [],
  },
}

/** mm from the bore of the bearing block to its base. */
export const CENTRE_HEIGHT = 63.5

/** Base with two bolt slots that lies across, web, boss; bored parallel to its base. */
export const BEARING_BLOCK: readonly Prism[] = [
  {
    id: 'base',
    effect: 'adds',
    across: 90,
    base: -CENTRE_HEIGHT,
    thickness: 20,
    outline: rectRing({ x: 0, y: 40 }, 150, 80, 0),
    holes: [-56, 56].map((x) => rectRing({ x, y: 40 }, 13, 26, 0)),
  },
  {
    ...block('web', { x: 0, y: 0 }, [1, 1, 60], { base: 10 }),
    outline: [
      { x: -30, y: -43.5 },
      { x: 30, y: -43.5 },
      { x: 28, y: -Math.sqrt(40 ** 2 - 28 ** 2), bulge: -Math.tan(Math.asin(28 / 40) / 2) },
      { x: -28, y: -Math.sqrt(40 ** 2 - 28 ** 2) },
    ],
  },
  disc('boss', { x: 0, y: 0 }, 80, 80, { holes: [circleRing({ x: 0, y: 0 }, 38)] }),
]

/** Of 175 by 100 by 125, under the axis; bolted through its foot, with slots for studs in its shelf. */
export const ANGLE_PLATE: AnglePlate = {
  id: 'A1',
  kind: 'anglePlate',
  at: { x: 0, y: -CENTRE_HEIGHT },
  facing: 90,
  size: [175, 100, 125],
  thickness: 16,
  webs: { count: 2, thickness: 14 },
  density: 7200,
  slots: [-56, 56].map((x, i) => ({ id: `G${i + 1}`, x, y: 65, angle: 90, length: 70, width: 13 })),
  holes: [],
  bolts: [
    { at: { x: -66.5, y: 0 }, ...bolted },
    { at: { x: -26.5, y: 90 * 0 + 0 }, ...bolted },
  ],
  fixed: true,
}

/** Bolts through the base into the shelf's slots; places seen against the shelf's normal. */
const throughBase = (id: string, x: number): Hardware => ({
  id,
  kind: 'bolt',
  throughPart: { x, y: 40 },
  ...bolted,
  fixed: true,
})

export function bearingBlock(more: readonly Hardware[] = [], setup: Partial<Setup> = {}): Job {
  return jobWith({
    ...machine,
    part: partOf(BEARING_BLOCK, [bore('A', { x: 0, y: 0 }, 42, { start: 38, tolerance: { class: 'H7' } })], {
      name: 'bearing block',
      material: 'grey cast iron',
      density: 7200,
      surface: 'turned',
    }),
    setup: {
      centre: { bore: 'A' },
      seat: { on: 'A1', standOff: 14 },
      packing: 0,
      hardware: [ANGLE_PLATE, throughBase('b1', -56), throughBase('b2', 56), ...more],
      cuts: [boreCut('A')],
      speed: 110,
      ...setup,
    },
  })
}

/** mm: a round casting's diameter, and how far its bore lies off its middle. */
export const CASTING = { diameter: 80, off: 12 }

/** A right-angled vee with lands that a strap's stud goes into. */
export const VEE: Vee = {
  id: 'V1',
  kind: 'vee',
  at: { x: 0, y: 0 },
  facing: 90,
  size: [150, 70, 90],
  angle: 90,
  opening: 80,
  foot: { length: 50, thickness: 20 },
  density: 7200,
  holes: [-58, 58].map((x, i) => ({ id: `H${i + 1}`, x, y: 45, diameter: 12, thread: 'M12' })),
  bolts: [{ at: { x: -95, y: 0 }, ...bolted }],
  fixed: true,
}
/** From the middle of a round in the vee to its lands. */
const overLands = CASTING.diameter / 2 / Math.sin(Math.PI / 4) - VEE.opening / 2

export function castingInVee(more: readonly Hardware[] = [], setup: Partial<Setup> = {}): Job {
  return jobWith({
    ...machine,
    part: partOf(
      [disc('body', { x: 0, y: 0 }, CASTING.diameter, 100)],
      [bore('A', { x: 0, y: CASTING.off }, 30, { start: 0 })],
      { name: 'casting', material: 'grey cast iron', density: 7200, surface: 'rough' },
    ),
    setup: {
      centre: { bore: 'A' },
      seat: { on: 'V1', standOff: 10, diameter: CASTING.diameter },
      packing: 0,
      hardware: [{ ...VEE, at: { x: 0, y: -CASTING.off - overLands } }, ...more],
      cuts: [boreCut('A')],
      speed: 110,
      ...setup,
    },
  })
}
