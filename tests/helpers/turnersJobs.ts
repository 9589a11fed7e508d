/**
 * Three heavy jobs as they come to a faceplate, with what a turner would expect of each beside it. Shops, parts and figures are
 * invented; expectations are worked by hand from sizes and handbook densities.
 */
import { circleRing } from '../../src-core/geometry/edges.ts'
import type { Point } from '../../src-core/geometry/types.ts'
import type { Cut, Hardware, Job } from '../../src-core/job/schema.ts'
import { block, bore, boreCut, disc, jobWith, partOf, piece } from './jobs.ts'
import { hole, LARGE, O, strap, through } from './turnersShop.ts'

/** A forged web, one end bored; its twin lies across opposite with its middle as far out, so no weight is wanted. */
export function crankWeb(withTwin = true): Job {
  // The web's own centre of mass: 17.144 kg at 102 mm, less a rough hole of 1.332 kg on the axis and two bolt holes of
  // 0.179 kg at 60 and 200 mm.
  const out = (17.144 * 102 - 0.179 * (60 + 200)) / (17.144 - 1.332 - 2 * 0.179)
  const bolts: Point[] = [
    { x: 60, y: 0 },
    { x: 200, y: 0 },
  ]
  const twin: Hardware = {
    id: 'twin',
    kind: 'twin',
    at: { x: -out, y: -out },
    facing: 90,
    raised: 0,
    bolts: bolts.map((at) => ({ at, stud: { thread: 'M20', class: '8.8', length: 'suit' }, torque: 250 })),
    fixed: true,
  }
  const sides = [1, -1] as const
  const straps = [45, 110].flatMap((x, i) =>
    sides.map((s, k) =>
      strap(`c${2 * i + k + 1}`, `H${2 * i + k + 1}`, -90 * s, [130, 50, 40], 42, 'M20', 160),
    ),
  )
  const holes = [45, 110].flatMap((x, i) =>
    sides.map((s, k) => hole(`H${2 * i + k + 1}`, { x, y: 88 * s }, 21)),
  )
  const twinHoles = bolts.map(({ x }, i) => hole(`T${i + 1}`, { x: -out, y: x - out }, 21))
  return jobWith({
    lathe: LARGE,
    plate: {
      name: '630 mm plate',
      diameter: 630,
      thickness: 45,
      bore: 70,
      mass: 92,
      ratedSpeed: 400,
      slots: [],
      holes: [...holes, ...twinHoles],
      residual: { amount: 20_000, angle: 40 },
    },
    part: partOf(
      [
        block('web', { x: 102, y: 0 }, [280, 130, 60], {
          holes: [circleRing(O, 60), ...bolts.map((p) => circleRing(p, 22))],
        }),
      ],
      [bore('A', O, 70, { start: 60 })],
      { name: 'crank web' },
    ),
    setup: {
      centre: { bore: 'A' },
      packing: 20,
      speed: 80,
      cuts: [boreCut('A', { speed: 18, feed: 0.2, depth: 1.5 })],
      hardware: withTwin ? [...straps, twin] : straps,
    },
  })
}

/** An iron body with its inside cored, on its own flange; the port is bored 30 mm off its middle. */
export function pumpBody(): Job {
  const bolts = [45, 135, 225, 315].map((a): Point => ({
    x: 90 * Math.cos((a * Math.PI) / 180),
    y: 90 * Math.sin((a * Math.PI) / 180),
  }))
  return jobWith({
    lathe: {
      ...LARGE,
      swingOverBed: 500,
      swingOverCrossSlide: 300,
      gap: null,
      barReach: 180,
      carriage: { profile: [{ behind: 180, radius: 60 }] },
      nose: { kind: 'cam-lock', locked: false },
      mass: 1400,
    },
    plate: {
      name: '400 mm plate',
      diameter: 400,
      thickness: 32,
      bore: 60,
      mass: 24,
      ratedSpeed: 800,
      slots: [{ id: 'S1', angle: 180, from: 90, to: 180, width: 18, kind: 'through' }],
      holes: bolts.map((p, i) => hole(`H${i + 1}`, { x: p.x + 30, y: p.y }, 13)),
      residual: { amount: 3000, angle: 0 },
    },
    part: partOf(
      [
        disc('flange', O, 220, 24, { holes: bolts.map((p) => circleRing(p, 13.5)) }),
        disc('body', O, 140, 110, { base: 24 }),
        disc('core', O, 100, 110, { base: 24, effect: 'removes' }),
      ],
      [bore('P', { x: -30, y: 0 }, 50)],
      { name: 'pump body', material: 'grey cast iron', density: 7200 },
    ),
    setup: {
      centre: { bore: 'P' },
      packing: 0,
      speed: 80,
      cuts: [
        {
          id: 'd',
          kind: 'drill',
          bore: 'P',
          diameter: 20,
          tool: 'HSS',
          speed: 20,
          feed: 0.2,
          interrupted: false,
        },
        boreCut('P', { speed: 20, feed: 0.15, depth: 2 }),
      ],
      hardware: [
        ...bolts.map((p, i) => through(`b${i + 1}`, p, 'M12', 70)),
        piece(
          'w',
          2.4,
          { slot: 'S1', radius: 152 },
          {
            footprint: { circle: 90 },
            height: 48,
            held: [{ stud: { thread: 'M16', class: '8.8', length: 'suit' }, torque: 120 }],
          },
        ),
      ],
    },
  })
}

/** An iron disc on a metre plate, its bore 60 mm off its middle: turned outside first, then bored. */
export function sheave(): Job {
  const eye = { x: 60, y: 0 }
  const bolts = [0, 90, 180, 270].map((a): Point => ({
    x: 200 * Math.cos((a * Math.PI) / 180),
    y: 200 * Math.sin((a * Math.PI) / 180),
  }))
  const studs = bolts.map((p, i) => through(`b${i + 1}`, p, 'M24', 400))
  /** Two pads of packing beside each bolt. */
  const pads = (off: number): Hardware[] =>
    [-15, 15, 75, 105, 165, 195, 255, 285].map((a, i) => {
      const at = { x: 200 * Math.cos((a * Math.PI) / 180) - off, y: 200 * Math.sin((a * Math.PI) / 180) }
      return piece(`p${i + 1}`, 1.1, at, { kind: 'packing', footprint: { circle: 66 }, height: 40 })
    })
  const turnCut: Cut = {
    id: 'rim',
    kind: 'turn',
    start: 566,
    diameter: 560,
    z: null,
    tool: 'HSS',
    speed: 18,
    feed: 0.4,
    interrupted: false,
    depth: 3,
    skin: 3,
  }
  return jobWith({
    lathe: {
      ...LARGE,
      swingOverBed: 1250,
      swingOverCrossSlide: 900,
      gap: null,
      speeds: { steps: [], stepless: [6, 60] },
      barReach: 300,
      loadLimit: 3000,
      carriage: { profile: [{ behind: 300, radius: 120 }] },
      mass: 9500,
    },
    plate: {
      name: 'metre plate',
      diameter: 1000,
      thickness: 60,
      bore: 120,
      mass: 320,
      ratedSpeed: 120,
      slots: [],
      holes: [
        ...bolts.map((p, i) => hole(`H${i + 1}`, p, 25)),
        ...bolts.map((p, i) => hole(`E${i + 1}`, { x: p.x - 60, y: p.y }, 25)),
      ],
      residual: { amount: 100_000, angle: 0 },
    },
    part: partOf(
      [disc('disc', O, 566, 90, { holes: [circleRing(eye, 150), ...bolts.map((p) => circleRing(p, 26))] })],
      [bore('E', eye, 160, { start: 150 })],
      { name: 'eccentric sheave', material: 'grey cast iron', density: 7200 },
    ),
    setups: [
      {
        title: 'Turn outside',
        packing: 40,
        hardware: [...studs, ...pads(0)],
        centre: O,
        speed: 10,
        cuts: [turnCut],
      },
      {
        title: 'Bore',
        packing: 40,
        hardware: [...studs, ...pads(60)],
        centre: { bore: 'E' },
        speed: 36,
        cuts: [boreCut('E', { speed: 18, feed: 0.3, depth: 2.5 })],
      },
    ],
  })
}
