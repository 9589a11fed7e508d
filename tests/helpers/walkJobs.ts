/** Jobs that between them have every field, to be walked over. Invented. */
import { polar } from '../../src-core/geometry/angles.ts'
import { circleRing } from '../../src-core/geometry/edges.ts'
import { jobSchema, type Fixture, type Hardware, type Job, type Setup } from '../../src-core/job/schema.ts'
import { BOLTED, FOUR_CLAMPS, heldBlock, stackOf, strapClamp } from './heldJobs.ts'
import { block, bore, disc, partOf, piece, shelfExample, shippedJob, EXAMPLES } from './jobs.ts'
import { castingInBlock } from './shelfJobs.ts'
import { twinJob } from './twinJobs.ts'
import { sampleOf } from './schemaFields.ts'

const tightened = { ...BOLTED, torque: 45 }
const { stud } = tightened

/** With an arc. */
const ODD = [
  { x: -10, y: -10 },
  { x: 10, y: -10, bulge: 0.3 },
  { x: 10, y: 10 },
  { x: -10, y: 10 },
]

const working = { tool: 'HSS', speed: 20, feed: 0.1, interrupted: false, depth: 0.5 } as const
const bar = { diameter: 8, overhang: 60 }
const dial = { on: 'radius', division: 0.05, unit: 'mm' } as const
const CUTS: NonNullable<Setup['cuts']> = [
  { id: 'k1', kind: 'drill', bore: 'A', diameter: 10, tool: 'HSS', speed: 20, feed: 0.1, interrupted: false },
  { id: 'k2', kind: 'bore', bore: 'A', ...working, name: 'bore', bar, dial },
  { id: 'k3', kind: 'ream', bore: 'A', ...working },
  { id: 'k4', kind: 'face', from: 0, to: 14, z: [29, 30], skin: 0.2, ...working },
  { id: 'k5', kind: 'recess', start: 30, diameter: 34, z: [26, 30], skin: 0.2, bar, ...working },
]

/** One of every kind of hardware, with all that may be said of it; what holds does. */
const EVERY_KIND: readonly Hardware[] = [
  {
    ...FOUR_CLAMPS[0]!,
    ...tightened,
    strap: { ...FOUR_CLAMPS[0]!.strap, steel: '42CrMo4+QT' },
    heel: { kind: 'block', size: [30, 30], height: 42, from: 45 },
    mass: 1.4,
    name: 'strap',
    order: 1,
  },
  ...FOUR_CLAMPS.slice(1).map((c) => ({ ...c, strap: { ...c.strap, steel: '42CrMo4+QT' } })),
  { ...stackOf('w1', 3, 165), ...tightened, stud: { ...stud, length: 95 }, order: 2, facing: 0 },
  {
    id: 'b1',
    kind: 'bolt',
    throughPart: { x: 32, y: 32 },
    ...tightened,
    order: 3,
    fixed: false,
  },
  {
    id: 's1',
    kind: 'stop',
    at: { x: 70, y: 35 },
    facing: 180,
    size: [40, 24, 24],
    boltFrom: 20,
    ...tightened,
    order: 4,
    fixed: false,
  },
  { id: 'd1', kind: 'dowel', at: { hole: 'P' }, diameter: 12, length: 30, fixed: false },
  piece(
    'k1',
    0.15,
    { slot: 'S2', radius: 165 },
    {
      kind: 'bracket',
      footprint: { rect: [20, 50] },
      facing: 90,
      massCentre: { x: 0, y: 0, z: 8 },
      held: [{ at: { x: 0, y: 0 }, ...tightened, stud }],
    },
  ),
  piece(
    'p1',
    0.05,
    { x: 32, y: 46 },
    { kind: 'packing', footprint: { rect: [24, 10] }, height: 12, facing: 0 },
  ),
  piece('k2', 0.3, { slot: 'S4', radius: 165 }, { kind: 'counterweight', held: [tightened] }),
]

/** The block of four straps with all of that, on a plate with tee slots, plain and tapped holes. */
export function everyKind(): Job {
  const lathe = {
    brakeTime: 2,
    startTime: 2,
    nose: { kind: 'screwed', locked: true } as const,
    mass: 700,
    boltedDown: false,
    carriage: {
      profile: [
        { behind: 130, radius: 215 },
        { behind: 300, radius: 230 },
      ],
      parkedAt: 300,
    },
    saddleReach: { gapIn: 20, gapOut: 10 },
    tailstock: { barrel: 60, reach: 90 },
    behindPlate: { depth: 60, radius: 240 },
    speeds: {
      steps: [45, 70, 110, 180, 280, 440].map((rpm) => ({ rpm, backGear: rpm < 100 })),
      stepless: [40, 460] as const,
    },
    swingOverBed: 600,
    swingOverCrossSlide: 500,
    gap: { swing: 700, width: 200, open: true },
  }
  const job = heldBlock({ hardware: EVERY_KIND, lathe })
  const holes = [circleRing({ x: 32, y: 32 }, 13), circleRing({ x: -32, y: 32 }, 12.1)]
  const slot = {
    id: 'S5',
    angle: 26.565,
    from: 60,
    to: 110,
    width: 14,
    kind: 'tee',
    teeWidth: 23,
    lip: 12,
  } as const
  return {
    ...job,
    plate: {
      ...job.plate,
      surface: 'turned',
      diameter: 420,
      slots: [...job.plate.slots.map((s) => ({ ...s, to: 195 })), slot],
      holes: [
        { id: 'P', x: -32, y: 32, diameter: 12 },
        { id: 'B', x: 32, y: 32, diameter: 13 },
        { id: 'T', x: 60, y: -60, diameter: 10.2, thread: 'M12' },
      ],
      residual: { amount: 40, angle: 30 },
      runOut: { face: 0.02, radial: 0.03 },
    },
    part: partOf(
      [block('body', { x: 0, y: 0 }, [100, 100, 30], { holes, density: 7850 })],
      [bore('A', { x: 0, y: 0 }, 30, { start: 0, depth: 25, tolerance: { class: 'H7' }, skin: 0.3 })],
      { surface: 'turned', weighedMass: 2.3 },
    ),
    stock: [
      { ...job.stock[0]!, hole: 13 },
      { ...job.stock[0]!, id: 'W2', footprint: { outline: ODD } },
    ],
    setups: job.setups.map((s) => ({
      ...s,
      frictionState: 'oiled' as const,
      cuts: CUTS,
    })),
    uncertainty: {
      computedMass: 0.03,
      weighedMass: 0.005,
      centreOfMass: 0.5,
      placing: 1,
      plateResidual: 0.1,
      nutFactor: 0.2,
      preloadScatter: 0.25,
    },
  }
}

/** Clamps of which little is known, packing of its own, a mesh, arcs, odd footprints. */
export function oddKinds(): Job {
  const job = everyKind()
  const pad = (id: string, x: number, y: number): Hardware =>
    piece(id, 0.05, { x, y }, { kind: 'packing', footprint: { rect: [24, 24] }, height: 12 })
  const press: Hardware = piece(
    'x1',
    0.4,
    { slot: 'S4', radius: 68 },
    {
      kind: 'press',
      facing: 90,
      base: 42,
      footprint: { rect: [70, 28] },
      press: {
        thread: 'M12',
        class: '8.8',
        torque: 45,
        boltToWork: 30,
        boltToHeel: 45,
        nose: { x: 0, y: -40 },
      },
    },
  )
  const odd: Hardware = piece(
    'o1',
    0.1,
    { x: 95, y: 95 },
    {
      kind: 'other',
      footprint: {
        outline: ODD,
      },
    },
  )
  const straps = [1, 2, 3].map((n) => strapClamp(`c${n}`, n as 1 | 2 | 3, { packing: null }))
  const tetra = {
    vertices: [-35, -35, 0, -23, -35, 0, -35, -23, 0, -35, -35, 12],
    triangles: [0, 2, 1, 0, 1, 3, 1, 2, 3, 2, 0, 3],
  }
  return {
    ...job,
    part: {
      ...job.part,
      weighedMass: null,
      bores: job.part.bores.map((b) => ({ ...b, tolerance: { limits: [29.9, 30.1] as const } })),
      bodies: [
        block('body', { x: 0, y: 0 }, [100, 100, 30]),
        disc('pocket', { x: 0, y: 26 }, 12, 5, { base: 25, effect: 'removes' }),
        { id: 'mesh', effect: 'adds', base: 30, mesh: tetra },
      ],
    },
    setups: job.setups.map((s) => ({
      ...s,
      centre: { x: 0, y: 0 },
      hardware: [
        ...straps,
        press,
        odd,
        pad('p1', 38, 38),
        pad('p2', -38, 38),
        pad('p3', -38, -38),
        pad('p4', 38, -38),
      ],
    })),
  }
}

/** A ring of 250 by 60 on the plate, with a tapped hole on each diagonal for the clamps of the part on it. */
const SUB_PLATE: Fixture = {
  id: 'F1',
  kind: 'fixture',
  form: 'subPlate',
  at: { x: 0, y: 0 },
  facing: 0,
  footprint: { circle: 250 },
  bore: 60,
  thickness: 20,
  density: 7850,
  mass: 7,
  holes: [1, 2, 3, 4].map((i) => ({ id: `H${i}`, ...onDiagonal(i, 68), diameter: 12, thread: 'M12' })),
  bolts: [1, 2, 3, 4].map((i) => ({ ...tightened, at: polar(110, 90 * i), sunk: 0 })),
  fixed: true,
}

function onDiagonal(i: number, radius: number) {
  return polar(radius, 90 * i - 45)
}

/** The block of four straps on a sub-plate. */
export function onSubPlate(): Job {
  const straps = [1, 2, 3, 4].map((i) =>
    strapClamp(`c${i}`, 1, { at: { on: 'F1', hole: `H${i}` }, facing: (i * 90 + 135) % 360 }),
  )
  return heldBlock({ hardware: [SUB_PLATE, ...straps], setup: { turn: 45, seat: { on: 'F1' } } })
}

/** One dot. */
const PNG = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=='

/** What only describes a job, from a sample of its schema. */
export function described(job: Job): Job {
  const sample = jobSchema.parse(sampleOf(jobSchema, 0)) as Job
  const setup = sample.setups[0]!
  const picture = {
    ...sample.part.photograph!.picture,
    type: 'image/png' as const,
    width: 1,
    height: 1,
    data: PNG,
  }
  return {
    ...job,
    partNumber: sample.partNumber!,
    documentNumber: sample.documentNumber!,
    revisions: sample.revisions!,
    notes: sample.notes!,
    clampingKit: sample.clampingKit,
    titleBlock: sample.titleBlock!,
    runs: sample.runs!.map((r) => ({ ...r, photograph: picture })),
    stock: job.stock.map((s) => ({ ...s, name: 'disc' })),
    part: {
      ...job.part,
      photograph: { ...sample.part.photograph!, picture },
      bodies: job.part.bodies.map((b) => ({ ...b, name: 'body' })),
      bores: job.part.bores.map((b) => ({ ...b, name: 'bore' })),
    },
    setups: job.setups.map((s) => ({ ...s, sheet: setup.sheet })),
  }
}

/** The bearing block, with a piece bolted to a hole of its shelf by where that is. */
function onAnglePlate(): Job {
  const job = shelfExample('bearing-block')
  const at = { on: 'A1', along: 0, out: 112 }
  const plate = piece('o1', 0.02, at, {
    kind: 'bracket',
    footprint: { rect: [20, 14] },
    height: 10,
    held: [tightened],
  })
  const hole = { id: 'H1', x: 0, y: 112, diameter: 10.2, thread: 'M12' }
  return {
    ...job,
    setups: job.setups.map((s) => ({
      ...s,
      hardware: [
        ...s.hardware.map((h) => (h.kind === 'anglePlate' ? { ...h, mass: 5.2, holes: [hole] } : h)),
        plate,
      ],
    })),
  }
}

export const walkedJobs = (): readonly (readonly [string, Job])[] => [
  ...EXAMPLES.map((name) => [name, shippedJob(name)] as const),
  ['every kind of hardware', described(everyKind())],
  ['odd kinds', oddKinds()],
  ['on a sub-plate', onSubPlate()],
  ['with a twin', twinJob()],
  ['on an angle plate', onAnglePlate()],
  ['in a vee', shelfExample('round-casting')],
  ['in a loose block', castingInBlock()],
]
