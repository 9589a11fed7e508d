/**
 * Random sound jobs of parts that do not lie flat: a block with base, web and boss on an angle plate, a round in a vee.
 * Most of them lie as they should and are held; some are off by a hair, some by more. Invented.
 */
import fc from 'fast-check'
import { polar, wholeTurn } from '../../src-core/geometry/angles.ts'
import { circleRing, rectRing } from '../../src-core/geometry/edges.ts'
import type { Point, Ring } from '../../src-core/geometry/types.ts'
import { middleOverLands } from '../../src-core/mounting/inVee.ts'
import type {
  AnglePlate,
  Clamp,
  Hardware,
  Job,
  Prism,
  Setup,
  Vee,
  Weight,
} from '../../src-core/job/schema.ts'
import { degrees, mm, point } from './arbitraries.ts'
import { BOLTED } from './heldJobs.ts'
import { bore, boreCut, disc, drillCut, jobWith, partOf } from './jobs.ts'
import { SHELF_MACHINE } from './shelfJobs.ts'

/** What stands in a part where its bore is, seen along the shelf (x) and over its face (y), from the bore. */
interface Frame {
  readonly origin: Point
  /** Direction of the shelf's normal in the part's frame. */
  readonly facing: number
}

const inPart = ({ origin, facing }: Frame, { x, y }: Point): Point => {
  const [u, n] = [polar(1, facing + 90), polar(1, facing)]
  return { x: origin.x + x * u.x + y * n.x, y: origin.y + x * u.y + y * n.y }
}
const boxInPart = (frame: Frame, x0: number, y0: number, x1: number, y1: number): Ring =>
  [
    { x: x0, y: y0 },
    { x: x1, y: y0 },
    { x: x1, y: y1 },
    { x: x0, y: y1 },
  ].map((p) => inPart(frame, p))

/** Of what a body that lies across is measured from: the part's own origin along the shelf, and over it. */
const fromOrigin = ({ origin, facing }: Frame): Point => {
  const [u, n] = [polar(1, facing + 90), polar(1, facing)]
  return { x: origin.x * u.x + origin.y * u.y, y: origin.x * n.x + origin.y * n.y }
}

/** Mostly none; now and then a hair, now and then so much that nothing lies. */
const miss = fc.oneof(
  { weight: 12, arbitrary: fc.constant(0) },
  { weight: 1, arbitrary: mm(-0.02, 0.02) },
  { weight: 1, arbitrary: mm(-4, 4) },
)
const tightened = fc
  .record({
    torque: fc.oneof({ weight: 12, arbitrary: mm(25, 60) }, { weight: 1, arbitrary: fc.constant(null) }),
    lubricated: fc.boolean(),
  })
  .map((t) => ({ ...BOLTED, ...t }))
const facing = fc.oneof(
  { weight: 8, arbitrary: fc.integer({ min: 0, max: 11 }).map((n) => 30 * n) },
  { weight: 1, arbitrary: degrees },
)

const common = fc.record({
  facing,
  turn: degrees,
  origin: point(30),
  miss,
  aside: miss,
  standOff: mm(0, 25),
  units: fc.constantFrom('mm' as const, 'in' as const),
  speed: fc.constantFrom(null, 45, 110, 240),
  drilled: fc.integer({ min: 0, max: 5 }).map((n) => n === 0),
  depth: mm(0.2, 2),
  friction: fc.constantFrom(null, 0.08, 0.15),
  weights: fc.array(
    fc.record({
      slot: fc.constantFrom(2, 3, 5, 6),
      radius: mm(120, 165),
      count: fc.integer({ min: 1, max: 2 }),
    }),
    { maxLength: 2 },
  ),
  mass: fc.boolean(),
  bolt: tightened,
  held: tightened,
})
type Common = typeof common extends fc.Arbitrary<infer T> ? T : never

/** Weights stand on the far side of the shelf, in the slots of a plate that are counted from where it faces. */
const weightsOf = ({ weights, facing, held }: Common): Weight[] =>
  weights
    .filter((w, i) => weights.findIndex((v) => v.slot === w.slot) === i)
    .map((w, i) => ({
      id: `w${i + 1}`,
      kind: 'weight',
      at: { slot: `S${((w.slot - 4 + Math.round(wholeTurn(facing) / 30) + 24) % 12) + 1}`, radius: w.radius },
      stack: [{ stock: 'W1', count: w.count }],
      ...held,
      fixed: false,
    }))

const setupOf = (
  c: Common,
  hardware: readonly Hardware[],
  seat: Setup['seat'],
  diameter: number,
): Partial<Setup> => ({
  centre: { bore: 'A' },
  turn: c.turn,
  seat,
  packing: 0,
  hardware: [...hardware, ...weightsOf(c)],
  cuts: [...(c.drilled ? [drillCut('A', diameter - 1)] : []), boreCut('A', { depth: c.depth })],
  speed: c.speed,
  frictionCoefficient: c.friction,
})

const STOCK: Job['stock'] = [
  { id: 'W1', name: 'disc', mass: 1.1, count: 9, footprint: { circle: 70 }, height: 37, hole: 13 },
]
const jobOf = (c: Common, part: Job['part'], setup: Partial<Setup>): Job => ({
  ...jobWith({ ...SHELF_MACHINE, part, setup }),
  displayUnits: c.units,
  stock: STOCK,
})

const onAngle = fc
  .record({
    c: common,
    /** From base to bore; of the base across, high and out; of web and boss. */
    over: mm(28, 36),
    base: fc.tuple(mm(120, 136), mm(12, 18), mm(60, 90)),
    web: fc.tuple(mm(24, 40), mm(20, 50)),
    boss: fc.tuple(mm(44, 54), mm(40, 90)),
    bored: mm(20, 40),
    across: fc.boolean(),
    straps: fc.boolean(),
    plate: fc.record({
      more: mm(20, 60),
      foot: mm(92, 104),
      out: mm(0, 30),
      thickness: mm(16, 22),
      webs: fc.constantFrom(0, 2, 2, 2, 2),
    }),
    second: fc.boolean(),
  })
  .map(({ c, over, base, web, boss, bored, across, straps, plate, second }): Job => {
    const [most, high, deep] = base
    const strapped = straps || !across
    const wide = strapped ? most - 26 : most
    const height = boss[0] / 2 + high + over
    const frame: Frame = { origin: c.origin, facing: wholeTurn(c.facing - c.turn) }
    const hole = wide / 2 - 18
    const middle = deep / 2
    const from = fromOrigin(frame)
    const foot: Prism = across
      ? {
          id: 'base',
          effect: 'adds',
          across: frame.facing,
          base: from.y - height,
          thickness: high,
          outline: rectRing({ x: from.x, y: middle }, wide, deep, 0),
          holes: strapped ? [] : [-hole, hole].map((x) => rectRing({ x: from.x + x, y: middle }, 13, 26, 0)),
        }
      : {
          ...disc('base', c.origin, 10, deep),
          outline: boxInPart(frame, -wide / 2, -height, wide / 2, high - height),
        }
    const reach = Math.sqrt((boss[0] / 2) ** 2 - Math.min(web[0] / 2, boss[0] / 2 - 2) ** 2) - 1
    const half = Math.min(web[0] / 2, boss[0] / 2 - 2)
    const rib: Prism = {
      ...disc('web', c.origin, 10, Math.min(web[1], boss[1] - 2, deep - 2), { base: 1 }),
      outline: boxInPart(frame, -half, high - height, half, -reach),
    }
    const ring = disc('boss', c.origin, boss[0], boss[1], { holes: [circleRing(c.origin, bored - 4)] })
    const station = polar(-(height + c.miss), c.facing)
    const bolts = footBolts(height, -(plate.thickness + 26), 0, c.bolt)
    const sides = Math.max(...bolts.map((b) => b.at.y)) + 26
    const along = Math.max(wide + plate.more + (strapped ? 112 : 0), 2 * sides)
    const at = { x: station.x, y: station.y }
    const slotAt = strapped ? wide / 2 + 20 : hole
    const out = c.standOff + deep + plate.out + 10
    const shelf: AnglePlate = {
      id: 'A1',
      kind: 'anglePlate',
      at,
      facing: c.facing,
      size: [along, plate.foot, out],
      thickness: plate.thickness,
      webs: { count: plate.webs, thickness: 12 },
      density: 7200,
      ...(c.mass ? { mass: 7 } : {}),
      slots: [-slotAt, slotAt].map((x, i) => ({
        id: `G${i + 1}`,
        x: x + (i === 0 ? c.aside : 0),
        y: c.standOff + middle,
        angle: 90,
        length: 34,
        width: 14,
      })),
      holes: [],
      bolts,
      fixed: true,
    }
    const holding: Hardware[] = strapped
      ? [-1, 1].map((side, i): Clamp => ({
          id: `c${i + 1}`,
          kind: 'clamp',
          at: { on: 'A1', along: side * slotAt, out: c.standOff + middle },
          facing: side < 0 ? 0 : 180,
          strap: {
            length: 74,
            width: 32,
            thickness: 22,
            boltFrom: 30,
            opening: 14,
            slotted: 0,
            steel: '42CrMo4+QT',
          },
          ...c.held,
          heel: { kind: 'block', size: [24, 30], height: 'suit' },
          fixed: true,
        }))
      : [-hole, hole].map((x, i): Hardware => ({
          id: `b${i + 1}`,
          kind: 'bolt',
          throughPart: { x: from.x + x, y: middle },
          ...c.held,
          fixed: true,
        }))
    const part = partOf([foot, rib, ring], [bore('A', c.origin, bored, { start: bored - 4 })], {
      name: 'block',
      material: 'grey cast iron',
      density: 7200,
      surface: 'turned',
    })
    const set = setupOf(c, [shelf, ...holding], { on: 'A1', standOff: c.standOff }, bored)
    const job = jobOf(c, part, set)
    return second ? { ...job, setups: [...job.setups, { ...job.setups[0]!, id: 'op20', speed: null }] } : job
  })

/** Through slots at 30° to either side of the one behind the shelf, and through that one. @param beside mm from the axis along it. */
const footBolts = (height: number, x: number, beside: number, bolt: Common['bolt']) => {
  const y = (height - x) * Math.tan(Math.PI / 6)
  const places = [
    { x, y: y - beside },
    { x, y: -y - beside },
    { x: x - 28, y: -beside },
  ]
  return places.map((at) => ({ at, ...bolt }))
}

const inVee = fc
  .record({
    c: common,
    diameter: mm(50, 90),
    long: mm(70, 120),
    off: fc.tuple(mm(0, 12), degrees),
    bored: mm(16, 30),
    angle: fc.constantFrom(60, 90, 90, 120),
  })
  .map(({ c, diameter, long, off, bored, angle }): Job => {
    const [by, way] = off
    const middle = polar(by, way)
    const opening = Math.round(diameter * Math.cos((angle * Math.PI) / 360) + 8)
    const lands = { x: opening / 2 + 17 }
    const depth = opening / 2 / Math.tan((angle * Math.PI) / 360)
    const over = middleOverLands({ opening, angle } as Vee, diameter)
    const under = polar(over + c.miss, c.facing + 180)
    const aside = polar(c.aside, c.facing + 90)
    const station = { x: middle.x + under.x, y: middle.y + under.y }
    const [n, u] = [polar(1, c.facing), polar(1, c.facing + 90)]
    const deep = Math.ceil(depth) + 16
    const out = c.standOff + long
    const toe = lands.x + 6
    const item: Vee = {
      id: 'V1',
      kind: 'vee',
      at: { x: station.x + aside.x, y: station.y + aside.y },
      facing: c.facing,
      size: [2 * lands.x + 150, deep, out - 5],
      angle,
      opening,
      foot: { length: 60, thickness: 18 },
      density: 7200,
      ...(c.mass ? { mass: 14 } : {}),
      holes: [-1, 1].map((side, i) => ({
        id: `H${i + 1}`,
        x: side * lands.x,
        y: c.standOff + long * (0.3 + 0.4 * i),
        diameter: 12,
        thread: 'M12',
      })),
      bolts: footBolts(
        -(station.x * n.x + station.y * n.y),
        -(deep + 16),
        station.x * u.x + station.y * u.y,
        c.bolt,
      ),
      fixed: true,
    }
    const straps = [0, 1].map((i): Clamp => ({
      id: `c${i + 1}`,
      kind: 'clamp',
      at: { on: 'V1', hole: `H${i + 1}` },
      facing: i === 0 ? 0 : 180,
      strap: {
        length: toe + 75,
        width: 26,
        thickness: 30,
        boltFrom: toe,
        opening: 14,
        slotted: 0,
        steel: '42CrMo4+QT',
      },
      ...c.held,
      heel: { kind: 'block', size: [25, 26], height: 'suit' },
      fixed: true,
    }))
    const turned = polar(by, way - c.turn)
    const centre = { x: c.origin.x + turned.x, y: c.origin.y + turned.y }
    const part = partOf(
      [disc('body', centre, diameter, long, { holes: [circleRing(c.origin, bored - 4)] })],
      [bore('A', c.origin, bored, { start: bored - 4 })],
      {
        name: 'round',
        material: 'grey cast iron',
        density: 7200,
        surface: 'turned',
      },
    )
    return jobOf(c, part, setupOf(c, [item, ...straps], { on: 'V1', standOff: c.standOff, diameter }, bored))
  })

export const randomShelfJob: fc.Arbitrary<Job> = fc
  .oneof({ weight: 2, arbitrary: onAngle }, { weight: 1, arbitrary: inVee })
  // As a file has it: records with a prototype, no minus nought.
  .map((job) => JSON.parse(JSON.stringify(job)) as Job)
