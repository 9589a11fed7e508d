/**
 * Three more jobs as they come to a faceplate, with what a turner would expect of each beside it. Shops, parts and figures are
 * invented; expectations are worked by hand from sizes and handbook densities.
 */
import { polar } from '../../src-core/geometry/angles.ts'
import { circleRing } from '../../src-core/geometry/edges.ts'
import type { Job, ThroughBolt } from '../../src-core/job/schema.ts'
import { block, bore, boreCut, jobWith, partOf, steps } from './jobs.ts'
import { hole, LARGE, O, strap, through } from './turnersShop.ts'

const inches = (v: number) => v * 25.4

/** A steel foot of 6 by 4 by 1 inches with a bore 1½ inches off its middle. */
export function inchBracket(): Job {
  const at = [
    { x: inches(2.25), y: inches(1.25) },
    { x: inches(2.25), y: inches(-1.25) },
    { x: inches(-2.25), y: inches(1.25) },
    { x: inches(-2.25), y: inches(-1.25) },
  ]
  const centre = { x: inches(1.5), y: 0 }
  const job = jobWith({
    lathe: {
      name: '15 inch lathe',
      swingOverBed: inches(15),
      swingOverCrossSlide: inches(9),
      gap: null,
      speeds: steps(40, 60, 90, 135, 200, 300),
      maxSpindleSpeed: 1500,
      noseOverhang: inches(4),
      loadLimit: 90,
      barReach: inches(6),
      startTime: 2,
      brakeTime: 2,
      nose: { kind: 'cam-lock', locked: false },
      mass: 950,
      boltedDown: false,
      tailstock: { barrel: inches(2.25), reach: inches(5) },
      carriage: { profile: [{ behind: inches(6), radius: inches(2) }] },
    },
    plate: {
      name: '14 inch plate',
      diameter: inches(14),
      thickness: inches(1.25),
      bore: inches(2),
      mass: 17,
      ratedSpeed: 800,
      slots: [
        { id: 'S1', angle: 0, from: inches(2.5), to: inches(6), width: inches(0.625), kind: 'through' },
      ],
      holes: at.map((p, i) => hole(`H${i + 1}`, { x: p.x - centre.x, y: p.y }, inches(17 / 32))),
      residual: { amount: 2000, angle: 90 },
    },
    part: partOf(
      [
        block('foot', O, [inches(6), inches(4), inches(1)], {
          holes: at.map((p) => circleRing(p, inches(17 / 32))),
        }),
      ],
      [bore('A', centre, inches(1.25))],
      { name: 'bracket' },
    ),
    setup: {
      centre: { bore: 'A' },
      packing: 0,
      speed: 90,
      cuts: [
        {
          id: 'd',
          kind: 'drill',
          bore: 'A',
          diameter: inches(0.75),
          tool: 'HSS',
          speed: 24,
          feed: 0.2,
          interrupted: false,
        },
        boreCut('A', { speed: 24, feed: 0.15, depth: 1.5 }),
      ],
      hardware: at.map((p, i): ThroughBolt => ({
        ...through(`b${i + 1}`, p, 'M12', 60),
        stud: { thread: '1/2-13', class: 'Gr 5', length: 'suit' },
      })),
    },
  })
  return { ...job, displayUnits: 'in' }
}

/** A flame-cut lever: its middle eye goes, its end eye swings further than any gap of this lathe. */
export function lever(): Job {
  const straps = (around: number) =>
    [-70, 70].flatMap((x, i) =>
      ([1, -1] as const).map((s, k) =>
        strap(`c${2 * i + k + 1}`, `H${around}${i}${k}`, -90 * s, [140, 50, 40], 42, 'M16', 90),
      ),
    )
  const holes = [0].flatMap((n) =>
    [-70, 70].flatMap((x, i) =>
      ([1, -1] as const).map((s, k) => hole(`H${n}${i}${k}`, { x, y: 80 * s }, 18)),
    ),
  )
  return jobWith({
    lathe: {
      ...LARGE,
      swingOverBed: 660,
      swingOverCrossSlide: 420,
      gap: { swing: 900, width: 220, open: true },
      barReach: 220,
      carriage: { profile: [{ behind: 220, radius: 80 }] },
      saddleReach: { gapIn: 40, gapOut: 190 },
      nose: { kind: 'taper', locked: false },
      mass: 2600,
    },
    plate: {
      name: '500 mm plate',
      diameter: 500,
      thickness: 40,
      bore: 70,
      mass: 48,
      ratedSpeed: 500,
      slots: [],
      holes,
      residual: { amount: 8000, angle: 0 },
    },
    part: partOf([block('lever', O, [860, 120, 40])], [bore('M', O, 60), bore('E', { x: 380, y: 0 }, 50)], {
      name: 'lever',
      surface: 'rough',
    }),
    setups: [
      {
        title: 'Middle eye',
        centre: { bore: 'M' },
        packing: 16,
        speed: 38,
        hardware: straps(0),
        cuts: [
          {
            id: 'd',
            kind: 'drill',
            bore: 'M',
            diameter: 25,
            tool: 'HSS',
            speed: 18,
            feed: 0.2,
            interrupted: false,
          },
          boreCut('M', { speed: 16, feed: 0.2, depth: 2 }),
        ],
      },
      {
        title: 'End eye',
        centre: { bore: 'E' },
        packing: 16,
        speed: 12,
        hardware: [],
        cuts: [
          {
            id: 'd',
            kind: 'drill',
            bore: 'E',
            diameter: 25,
            tool: 'HSS',
            speed: 18,
            feed: 0.2,
            interrupted: false,
          },
          boreCut('E', { speed: 16, feed: 0.2, depth: 2 }),
        ],
      },
    ],
  })
}

/** A small gunmetal half strap on a sub-plate, on a screwed nose: light work that no heavy side shows of. */
export function gunmetalStrap(): Job {
  const corners = [45, 135, 225, 315].map((a) => polar(78, a))
  const bolted = { stud: { thread: 'M10', class: '8.8', length: 'suit' }, torque: 35 } as const
  const at = [
    { x: -45, y: 0 },
    { x: 45, y: 0 },
  ]
  return jobWith({
    lathe: {
      name: 'bench lathe, 100 mm centre height',
      swingOverBed: 250,
      swingOverCrossSlide: 140,
      gap: null,
      speeds: steps(50, 85, 145, 250, 430),
      maxSpindleSpeed: 1200,
      noseOverhang: 60,
      loadLimit: 25,
      barReach: 90,
      startTime: 1,
      brakeTime: 1.5,
      nose: { kind: 'screwed', locked: false },
      mass: 140,
      boltedDown: true,
      tailstock: { barrel: 36, reach: 80 },
      carriage: { profile: [{ behind: 90, radius: 30 }] },
    },
    plate: {
      name: '230 mm plate',
      diameter: 230,
      thickness: 20,
      bore: 30,
      mass: 5.6,
      ratedSpeed: 900,
      slots: [],
      holes: corners.map((p, i) => hole(`H${i + 1}`, p, 10.5)),
      residual: { amount: 300, angle: 0 },
    },
    part: partOf(
      [block('strap', O, [110, 40, 20], { holes: at.map((p) => circleRing(p, 9)) })],
      [bore('A', { x: 20, y: 0 }, 18)],
      { name: 'half strap', material: 'gunmetal', density: 8800 },
    ),
    setup: {
      centre: { bore: 'A' },
      packing: 0,
      speed: 145,
      cuts: [
        {
          id: 'd',
          kind: 'drill',
          bore: 'A',
          diameter: 12,
          tool: 'HSS',
          speed: 25,
          feed: 0.12,
          interrupted: false,
        },
        boreCut('A', { speed: 25, feed: 0.08, depth: 0.8 }),
      ],
      seat: { on: 'F1' },
      hardware: [
        {
          id: 'F1',
          kind: 'fixture',
          form: 'subPlate',
          at: { x: 0, y: 0 },
          facing: 0,
          footprint: { circle: 190 },
          bore: 28,
          thickness: 16,
          holes: at.map((p, i) => ({ ...hole(`T${i + 1}`, { x: p.x - 20, y: 0 }, 8), thread: 'M8' })),
          bolts: corners.map((p) => ({ at: p, ...bolted })),
          fixed: true,
        },
        ...at.map((p, i) => through(`b${i + 1}`, p, 'M8', 20)),
      ],
    },
  })
}
