/** Random sound jobs: every optional field present or absent, numbers of every size a job may hold. */
import fc from 'fast-check'
import type { Cut, Hardware, Job, Lathe, Prism, StockItem } from '../../src-core/job/schema.ts'
import { degrees, mm, moved, point, starRing } from './arbitraries.ts'
import { bore, boreCut, drillCut, jobWith, partOf, steps } from './jobs.ts'
import { randomShelfJob } from './randomShelfJob.ts'

const text = fc.string({ unit: 'grapheme', maxLength: 30 })
const id = (prefix: string, i: number) => `${prefix}${i}`
/** Any double from 1e-6 to 1000, not on a grid: what conversion from inches leaves. */
const amount = fc.double({ min: 1e-6, max: 1000, noNaN: true })
const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined })
const orNull = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: null })

/** Leaves out what is undefined, as a file does. */
export const given = <T extends object>(value: T): T =>
  Object.fromEntries(Object.entries(value).filter(([, v]) => v !== undefined)) as T

const footprint = fc.oneof(
  mm(5, 90).map((circle) => ({ circle })),
  fc.tuple(mm(5, 90), mm(5, 90)).map(([a, b]) => ({ rect: [a, b] as const })),
  starRing({ from: 10, to: 40, most: 8 }).map((outline) => ({ outline })),
)

const clamp = fc
  .record({
    thread: maybe(orNull(fc.constantFrom('M8', 'M12', '1/2-13'))),
    class: maybe(fc.constantFrom('8.8', 'Gr 5')),
    torque: maybe(amount),
    boltToWork: maybe(amount),
    boltToHeel: maybe(orNull(amount)),
    nose: maybe(point(200)),
  })
  .map(given)

const hardware = (i: number): fc.Arbitrary<Hardware> =>
  fc
    .record({
      id: fc.constant(id('h', i)),
      name: maybe(text),
      kind: fc.constantFrom('press', 'packing', 'bracket', 'counterweight', 'other'),
      mass: amount,
      at: fc.oneof(
        mm(55, 135).map((radius) => ({ slot: 'S2', radius })),
        fc.constant({ hole: 'H1' }),
        point(140),
      ),
      footprint,
      facing: maybe(degrees),
      base: mm(-5, 80),
      height: amount,
      fixed: fc.boolean(),
      massCentre: maybe(orNull(fc.record({ x: mm(-20, 20), y: mm(-20, 20), z: amount }))),
      press: maybe(orNull(clamp)),
    })
    .map(given) as fc.Arbitrary<Hardware>

const body = (i: number): fc.Arbitrary<Prism> =>
  fc
    .record({
      id: fc.constant(id('b', i)),
      name: maybe(text),
      effect: fc.constant('adds' as const),
      outline: fc.tuple(starRing({ from: 20 }), point(60)).map(([ring, by]) => moved(ring, by.x, by.y)),
      holes: fc.constant([]),
      base: mm(0, 40),
      thickness: amount,
      density: maybe(orNull(mm(500, 20_000))),
    })
    .map(given) as fc.Arbitrary<Prism>

const stock = (i: number): fc.Arbitrary<StockItem> =>
  fc
    .record({
      id: fc.constant(id('W', i)),
      name: maybe(text),
      mass: amount,
      count: fc.nat(9),
      footprint,
      height: amount,
    })
    .map(given) as fc.Arbitrary<StockItem>

const heights = maybe(fc.tuple(mm(0, 10), mm(11, 30)))
const bar = maybe(orNull(fc.record({ diameter: amount, overhang: amount })))
const dial = maybe(
  orNull(
    fc.record({
      on: fc.constantFrom('radius', 'diameter'),
      division: mm(0.005, 0.2),
      unit: fc.constantFrom('mm', 'thou'),
    }),
  ),
)
const edge = { tool: 'carbide', speed: 60, feed: 0.2, depth: 1.5 } as const
const oneCut = (i: number): fc.Arbitrary<Cut> =>
  fc
    .record({
      z: heights,
      bar,
      dial,
      skin: maybe(amount),
      interrupted: fc.boolean(),
      name: maybe(text),
      kind: fc.nat(5),
    })
    .map(({ z, bar, dial, skin, interrupted, name, kind }): Cut => {
      const own = { id: id('cut', i), ...edge, interrupted, ...given({ name }) }
      const about = { ...own, ...given({ z, skin }) }
      if (kind === 0) return boreCut('A', { ...own, ...given({ bar, dial }) })
      if (kind === 1) return drillCut('A', 11, { id: own.id, interrupted })
      if (kind === 2) return { ...own, kind: 'ream', bore: 'A' }
      if (kind === 3) return { ...about, kind: 'face', from: 10, to: 0 }
      if (kind === 4) return { ...about, kind: 'turn', start: 60, diameter: 50 }
      return { ...about, ...given({ bar }), kind: 'recess', start: 0, diameter: 30 }
    })
const cuts = fc
  .integer({ min: 0, max: 3 })
  .chain((n) => fc.tuple(...Array.from({ length: n }, (_, i) => oneCut(i))))

const several = <T>(make: (i: number) => fc.Arbitrary<T>, least: number, most: number): fc.Arbitrary<T[]> =>
  fc
    .integer({ min: least, max: most })
    .chain((n) => (n === 0 ? fc.constant([]) : fc.tuple(...Array.from({ length: n }, (_, i) => make(i)))))

/** What else may be known of a lathe. */
const machine = fc
  .record({
    nose: maybe(
      fc.record({
        kind: fc.constantFrom('screwed' as const, 'cam-lock' as const, 'flanged' as const, 'taper' as const),
        locked: fc.boolean(),
      }),
    ),
    mass: maybe(amount),
    boltedDown: maybe(fc.boolean()),
    startTime: maybe(amount),
    brakeTime: maybe(amount),
    carriage: maybe(
      fc
        .record({
          profile: fc.array(fc.record({ behind: mm(0, 200), radius: mm(0, 160) }), {
            minLength: 1,
            maxLength: 4,
          }),
          parkedAt: maybe(mm(0, 400)),
        })
        .map(given),
    ),
    saddleReach: maybe(fc.record({ gapIn: maybe(mm(0, 200)), gapOut: maybe(mm(0, 200)) }).map(given)),
    tailstock: maybe(fc.record({ barrel: mm(10, 90), reach: mm(0, 200) })),
    behindPlate: maybe(fc.record({ depth: mm(0, 60), radius: maybe(mm(50, 200)) }).map(given)),
  })
  .map(given)

/** Nothing of a carriage stands nearer than the bar reaches. */
function machineWith(lathe: Partial<Lathe>, reach: number | null): Partial<Lathe> {
  const { carriage } = lathe
  if (!carriage) return lathe
  const profile = carriage.profile.map((row) => ({ ...row, behind: row.behind + (reach ?? 0) }))
  return { ...lathe, carriage: { ...carriage, profile } }
}

/** All that stands flat. */
const randomFlatJob: fc.Arbitrary<Job> = fc
  .record({
    title: text,
    partNumber: maybe(text),
    documentNumber: maybe(text),
    revisions: several(() => fc.record({ mark: text, date: text, text }), 0, 3),
    notes: maybe(text),
    displayUnits: fc.constantFrom('mm' as const, 'in' as const),
    bodies: several(body, 1, 3),
    bores: fc.tuple(point(30), mm(5, 60), orNull(amount)),
    hardware: several(hardware, 0, 4),
    stock: several(stock, 0, 3),
    weighed: orNull(amount),
    turn: degrees,
    packing: mm(0, 60),
    speed: orNull(fc.constantFrom(45, 110, 123.456)),
    gap: fc.boolean(),
    barReach: orNull(amount),
    machine,
    runOut: maybe(fc.record({ face: maybe(mm(0, 1)), radial: maybe(mm(0, 1)) }).map(given)),
    criterion: fc.record({
      kind: fc.constantFrom('weightShare', 'machineShare', 'force', 'grade'),
      value: amount,
    }),
    uncertainty: maybe(
      fc.record({ placing: maybe(mm(0, 5)), computedMass: maybe(fc.constant(0.05)) }).map(given),
    ),
    centred: fc.boolean(),
    cuts: maybe(cuts),
    stepless: orNull(fc.constant([20, 400] as const)),
    tolerance: maybe(fc.constantFrom({ class: 'H7' }, { limits: [24.9, 25.1] as const })),
    skin: maybe(amount),
  })
  .map((r) => {
    const setup = {
      hardware: r.hardware,
      turn: r.turn,
      packing: r.packing,
      speed: r.speed,
      criterion: r.criterion as Job['setups'][number]['criterion'],
      centre: r.centred ? { bore: 'A' } : { x: 3.25, y: -1 },
      cuts: r.cuts ?? (r.centred ? [boreCut('A')] : null),
    }
    const [at, diameter, depth] = r.bores
    const job = jobWith({
      part: partOf(
        r.bodies,
        [bore('A', at, diameter, given({ depth, tolerance: r.tolerance, skin: r.skin }))],
        { weighedMass: r.weighed },
      ),
      lathe: {
        barReach: r.barReach,
        speeds: { ...steps(45, 110, 440), stepless: r.stepless },
        ...(r.gap ? {} : { gap: null }),
        ...machineWith(r.machine, r.barReach),
      },
      plate: r.runOut ? { runOut: r.runOut } : {},
      setups: [setup, { ...setup, turn: 0 - r.turn }],
    })
    // A clone, for fast-check's records have no prototype.
    return structuredClone(
      given({
        ...job,
        title: r.title,
        partNumber: r.partNumber,
        documentNumber: r.documentNumber,
        revisions: r.revisions,
        notes: r.notes,
        displayUnits: r.displayUnits,
        stock: r.stock,
        uncertainty: r.uncertainty,
      }),
    ) as Job
  })

export const randomJob: fc.Arbitrary<Job> = fc.oneof(
  { weight: 4, arbitrary: randomFlatJob },
  { weight: 1, arbitrary: randomShelfJob },
)
