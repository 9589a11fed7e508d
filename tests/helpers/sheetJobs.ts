/** Random set-ups of the kinds a shop has, for looking at their sheets: sound or not, but never absurd. */
import fc from 'fast-check'
import { SHEETS, type SheetName } from '../../src-core/drawing/sheet/sheetSizes.ts'
import type { SheetOptions } from '../../src-core/drawing/sheet/setupSheet.ts'
import { circleRing } from '../../src-core/geometry/edges.ts'
import type { Hardware, Job, Plate } from '../../src-core/job/schema.ts'
import { degrees, mm, moved, starRing } from './arbitraries.ts'
import { bore, boreCut, jobWith, partOf, steps } from './jobs.ts'

export interface SheetCase {
  readonly job: Job
  readonly options: SheetOptions
}

const whole = (min: number, max: number) => fc.integer({ min, max })
const words = fc.constantFrom(
  'strap clamp M12',
  'ground parallel 16 mm',
  'steel disc 60',
  'an angle bracket that has a rather long name, with a web',
  '',
)

const plate = fc
  .record({
    diameter: fc.constantFrom(160, 200, 250, 300, 420, 600),
    slots: whole(0, 12),
    first: fc.constantFrom(0, 30, 90, 200.5),
    holes: whole(0, 3),
  })
  .map(({ diameter, slots, first, holes }): Partial<Plate> => ({
    diameter,
    bore: diameter / 8,
    slots: Array.from({ length: slots }, (_, i) => ({
      id: `S${i + 1}`,
      angle: first + (360 / slots) * i,
      from: diameter * 0.18,
      to: diameter * 0.45,
      width: 14,
      kind: i % 3 === 2 ? ('tee' as const) : ('through' as const),
    })),
    holes: Array.from({ length: holes }, (_, i) => ({
      id: `H${i + 1}`,
      x: diameter * 0.3 * Math.cos(i * 2 + 0.5),
      y: diameter * 0.3 * Math.sin(i * 2 + 0.5),
      diameter: 13,
    })),
  }))

const piece = (i: number) =>
  fc
    .record({
      kind: fc.constantFrom('press', 'packing', 'bracket', 'counterweight', 'other'),
      name: words,
      slot: whole(0, 11),
      along: mm(0.2, 0.45),
      angle: degrees,
      free: fc.boolean(),
      size: mm(20, 70),
      round: fc.boolean(),
      base: mm(0, 40),
      height: mm(8, 60),
      torque: fc.option(mm(10, 80), { nil: null }),
    })
    .map((r) => (plate: Partial<Plate>): Hardware => {
      const slot = plate.slots![r.slot % Math.max(1, plate.slots!.length)]
      const radius = r.along * plate.diameter!
      const angle = (r.angle * Math.PI) / 180
      return {
        id: `h${i}`,
        name: r.name,
        kind: r.kind,
        mass: 0.05 + r.size / 100,
        at:
          r.free || !slot
            ? { x: radius * Math.cos(angle), y: radius * Math.sin(angle) }
            : { slot: slot.id, radius },
        footprint: r.round ? { circle: r.size } : { rect: [r.size, r.size / 3] },
        facing: r.angle,
        base: r.base,
        height: r.height,
        fixed: true,
        ...(r.kind === 'press' ? { press: { thread: 'M12', class: '8.8', torque: r.torque } } : {}),
      }
    })

const pieces = whole(0, 14).chain((n) => fc.tuple(...Array.from({ length: n }, (_, i) => piece(i))))

export const sheetCase: fc.Arbitrary<SheetCase> = fc
  .record({
    plate,
    pieces,
    body: fc.record({ ring: starRing({ from: 30, to: 110 }), x: mm(-40, 60), y: mm(-40, 40) }),
    boss: mm(20, 45),
    second: fc.option(fc.record({ x: mm(-70, 70), y: mm(-70, 70), diameter: mm(8, 40) }), { nil: null }),
    turn: degrees,
    packing: fc.constantFrom(0, 3, 12, 40),
    depth: mm(4, 90),
    gap: fc.boolean(),
    swing: mm(0.95, 1.6),
    barReach: fc.option(mm(20, 200), { nil: null }),
    speeds: whole(1, 18),
    units: fc.constantFrom('mm', 'in'),
    sheet: fc.constantFrom(...(Object.keys(SHEETS) as SheetName[]), 'auto'),
    turned: fc.boolean(),
  })
  .map((r): SheetCase => {
    const diameter = r.plate.diameter!
    const outline = moved(r.body.ring, r.body.x, r.body.y)
    const bodies = [
      { id: 'web', effect: 'adds' as const, outline, holes: [], base: 0, thickness: r.depth },
      {
        id: 'boss',
        effect: 'adds' as const,
        outline: circleRing({ x: 0, y: 0 }, 2 * r.boss),
        holes: [],
        base: r.depth,
        thickness: 15,
      },
    ]
    const bores = [bore('A', { x: 0, y: 0 }, r.boss)]
    if (r.second) bores.push(bore('B', r.second, r.second.diameter))
    const setup = {
      title: 'Bore it',
      centre: { bore: 'A' },
      turn: r.turn,
      packing: r.packing,
      hardware: r.pieces.map((make) => make(r.plate)),
      cuts: [boreCut('A')],
    }
    const turned = { ...setup, centre: { bore: r.second ? 'B' : 'A' }, turn: r.turn + 90, hardware: [] }
    const job = jobWith({
      part: partOf(bodies, bores, { name: 'Random casting' }),
      plate: r.plate,
      lathe: {
        swingOverBed: diameter * r.swing,
        swingOverCrossSlide: diameter * 0.55,
        gap: { swing: diameter * 1.4, width: 130, open: r.gap },
        barReach: r.barReach,
        speeds: steps(...Array.from({ length: r.speeds }, (_, i) => 30 + 41 * i)),
      },
      setups: r.turned ? [setup, turned] : [setup],
    })
    return {
      job: { ...job, displayUnits: r.units, title: 'Random set-up', partNumber: 'EV-1000' },
      options: { sheet: r.sheet, date: '2026-01-31', by: 'Test' },
    }
  })

/** The same set-ups each time. */
export const sheetCases = (count: number): SheetCase[] =>
  fc.sample(sheetCase, { seed: 20260131, numRuns: count })
