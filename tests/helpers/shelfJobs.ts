/** Parts that do not lie flat: a bearing block on an angle plate, a round casting in a vee. Invented. */
import { circleRing, rectRing } from '../../src-core/geometry/edges.ts'
import type { AnglePlate, Clamp, Hardware, Job, Prism, Setup, Vee } from '../../src-core/job/schema.ts'
import { BOLTED } from './heldJobs.ts'
import { block, bore, boreCut, disc, jobWith, partOf, steps } from './jobs.ts'

/** A faceplate of 400 mm with twelve slots, on a lathe of 250 mm centre height. */
export const SHELF_MACHINE = {
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
    slots: Array.from({ length: 12 }, (_, i) => ({
      id: `S${i + 1}`,
      angle: 30 * i,
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
    { x: -35, y: 56.9 },
    { x: -35, y: -56.9 },
    { x: -45, y: 0 },
    { x: -80, y: 0 },
  ].map((at) => ({ at, ...BOLTED })),
  fixed: true,
}

/** Bolts through the base into the shelf's slots; places seen against the shelf's normal. */
const throughBase = (id: string, x: number): Hardware => ({
  id,
  kind: 'bolt',
  throughPart: { x, y: 40 },
  ...BOLTED,
  fixed: true,
})

export function bearingBlock(more: readonly Hardware[] = [], setup: Partial<Setup> = {}): Job {
  return jobWith({
    ...SHELF_MACHINE,
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

/** mm: a round casting's diameter, and how far its cored bore lies off its middle, toward the vee. */
export const CASTING = { diameter: 80, off: 12, core: 24 }

/** A right-angled vee with wide lands for the heels of straps. */
export const VEE: Vee = {
  id: 'V1',
  kind: 'vee',
  at: { x: 0, y: 0 },
  facing: 90,
  size: [240, 50, 110],
  angle: 90,
  opening: 62,
  foot: { length: 50, thickness: 20 },
  density: 7200,
  holes: [
    { id: 'H1', x: -48, y: 34, diameter: 12, thread: 'M12' },
    { id: 'H2', x: 48, y: 80, diameter: 12, thread: 'M12' },
  ],
  bolts: [
    { x: -80, y: 54 },
    { x: -80, y: -54 },
    { x: -80, y: 0 },
  ].map((at) => ({ at, ...BOLTED })),
  fixed: true,
}

/** Its toe across the crown of the round. */
export const overCrown = (id: string, hole: string, facing: number, more: Partial<Clamp> = {}): Clamp => ({
  id,
  kind: 'clamp',
  at: { on: 'V1', hole },
  facing,
  strap: {
    length: 130,
    width: 40,
    thickness: 25,
    boltFrom: 54,
    opening: 14,
    slotted: 0,
    steel: '42CrMo4+QT',
  },
  ...BOLTED,
  torque: 45,
  heel: { kind: 'block', size: [25, 30], height: 'suit' },
  fixed: true,
  ...more,
})

/** From the middle of a round in the vee to its lands. */
const overLands = CASTING.diameter / 2 / Math.sin(Math.PI / 4) - VEE.opening / 2

export function castingInVee(more: readonly Hardware[] = [], setup: Partial<Setup> = {}): Job {
  return jobWith({
    ...SHELF_MACHINE,
    part: partOf(
      [
        disc('body', { x: 0, y: 0 }, CASTING.diameter, 100, {
          holes: [circleRing({ x: 0, y: -CASTING.off }, CASTING.core)],
        }),
      ],
      [bore('A', { x: 0, y: -CASTING.off }, 30, { start: CASTING.core })],
      { name: 'casting', material: 'grey cast iron', density: 7200, surface: 'rough' },
    ),
    setup: {
      centre: { bore: 'A' },
      seat: { on: 'V1', standOff: 12, diameter: CASTING.diameter },
      packing: 0,
      hardware: [
        { ...VEE, at: { x: 0, y: CASTING.off - overLands } },
        overCrown('c1', 'H1', 0),
        overCrown('c2', 'H2', 180),
        ...more,
      ],
      cuts: [boreCut('A')],
      speed: 110,
      ...setup,
    },
  })
}

/** A block without a foot, for the shelf of an angle plate. */
export const VEE_BLOCK: Vee = {
  ...VEE,
  at: { on: 'A1', along: 0, out: 16 },
  // Not read: a block looks as its shelf does.
  facing: 0,
  size: [100, 50, 90],
  foot: { length: 0, thickness: 20 },
  holes: [],
  bolts: [],
}

/** Stands on the shelf beside the block, its toe across the crown of the round. @param side of the spindle it stands on. */
export const fromShelf = (id: string, side: 1 | -1, out: number, more: Partial<Clamp> = {}): Clamp => ({
  id,
  kind: 'clamp',
  at: { on: 'A1', along: side * BESIDE, out },
  facing: side > 0 ? 180 : 0,
  strap: {
    length: BESIDE + 6 + 60 + 16,
    width: 40,
    thickness: 30,
    boltFrom: BESIDE + 6,
    opening: 14,
    slotted: 0,
    steel: '42CrMo4+QT',
  },
  ...BOLTED,
  torque: 60,
  heel: { kind: 'block', size: [32, 50], height: 'suit' },
  fixed: true,
  ...more,
})

/** mm along the shelf from the block's middle to the studs beside it. */
const BESIDE = 60

/** From the middle of the round in the block to the shelf below it, mm. */
export const OVER_SHELF = overLands + VEE_BLOCK.size[1]

/** The casting in a loose block on an angle plate of 280 by 70 by 125; two straps that stand on the shelf press both. */
export function castingInBlock(more: readonly Hardware[] = [], setup: Partial<Setup> = {}): Job {
  const shelf: AnglePlate = {
    ...ANGLE_PLATE,
    at: { x: 0, y: CASTING.off - OVER_SHELF },
    size: [280, 70, 125],
    slots: [-1, 1].map((side, i) => ({
      id: `G${i + 1}`,
      x: side * BESIDE,
      y: 65,
      angle: 90,
      length: 90,
      width: 13,
    })),
    bolts: [
      { x: -48, y: 64.5 },
      { x: -48, y: -64.5 },
      { x: -60, y: 0 },
    ].map((at) => ({ at, ...BOLTED })),
  }
  const job = castingInVee()
  return {
    ...job,
    setups: job.setups.map((s) => ({
      ...s,
      hardware: [shelf, VEE_BLOCK, fromShelf('c1', 1, 34), fromShelf('c2', -1, 92), ...more],
      cuts: [boreCut('A', { depth: 0.7 })],
      ...setup,
    })),
  }
}
