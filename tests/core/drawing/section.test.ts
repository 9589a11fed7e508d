import { describe, expect, it } from 'vitest'
import { hatching, ringSegments } from '../../../src-core/drawing/views/hatching.ts'
import { meshSection, partSection, plateSection, showsTee } from '../../../src-core/drawing/views/section.ts'
import { standing } from '../../../src-core/drawing/views/standing.ts'
import { polygonArea } from '../../../src-core/geometry/polygon.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { bearingBlock } from '../../helpers/shelfJobs.ts'
import { boreCut, block, bore, disc, jobWith, partOf } from '../../helpers/jobs.ts'

const AXIS = { x: 0, y: 0 }

describe('a section on the upright plane through the axis', () => {
  it('cuts the plate with its bore, its through slots and its holes on the plane left out', () => {
    const plate = jobWith().plate
    // Slots at 90° and 270° from 55 to 135 with round ends of radius 7, the hole of 13 mm at y = 70 within one.
    const cut = 300 - 38 - 2 * (80 + 14)
    expect(polygonArea(plateSection(plate))).toBeCloseTo(28 * cut, 6)
    const tee = { ...plate, holes: [], slots: plate.slots.map((s) => ({ ...s, kind: 'tee' as const })) }
    // No deeper than 0.8 of 28 mm; of that 1.05 parts in 1.8 are the neck, the rest 1.7 times as wide.
    const neck = (22.4 * 1.05) / 1.8
    const slots = 2 * (94 * neck + (80 + 1.7 * 14) * (22.4 - neck))
    expect(polygonArea(plateSection(tee))).toBeCloseTo(28 * (300 - 38) - slots, 4)
    expect([showsTee(plate), showsTee(tee)]).toEqual([false, true])
  })

  it('joins bodies that touch, and leaves out pockets, bores already cut and the one that is cut now', () => {
    const part = partOf(
      [
        disc('web', AXIS, 120, 20),
        disc('boss', AXIS, 60, 30, { base: 20 }),
        block('pocket', { x: 0, y: 40 }, [10, 10, 5], { effect: 'removes', base: 15 }),
      ],
      [bore('A', AXIS, 20), bore('B', { x: 0, y: -45 }, 10)],
    )
    const job = jobWith({ part, setups: [{ cuts: [boreCut('A')] }, { cuts: [boreCut('B')] }] })
    const solid = 20 * 120 + 30 * 60 - 5 * 10
    const first = partSection(mountSetup(job, 'op10')).solid
    // Parted by the bore in the middle.
    expect(first).toHaveLength(2)
    expect(polygonArea(first)).toBeCloseTo(solid - 50 * 20, 4)
    expect(polygonArea(partSection(mountSetup(job, 'op20')).solid)).toBeCloseTo(solid - 50 * 20 - 20 * 10, 4)
  })

  it('does not count overlapping bodies twice', () => {
    const part = partOf([disc('a', AXIS, 100, 20), disc('b', AXIS, 60, 30)])
    expect(polygonArea(partSection(mountSetup(jobWith({ part }), 'op10')).solid)).toBeCloseTo(
      20 * 100 + 10 * 60,
      4,
    )
  })

  it('cuts a body that lies across on its own outline, and draws what stands beside the plane on its slopes', () => {
    const wedge = {
      ...block('wedge', AXIS, [1, 1, 1]),
      across: 90,
      base: -30,
      thickness: 12,
      outline: [
        { x: -20, y: 0 },
        { x: 40, y: 0 },
        { x: 40, y: 45 },
      ],
    }
    // Drawn x goes to the left: the plane is 20 of 60 along the slope, 15 high.
    const cut = partSection(mountSetup(jobWith({ part: partOf([wedge]) }), 'op10')).solid
    expect(cut).toHaveLength(1)
    expect(polygonArea(cut)).toBeCloseTo(12 * 15, 3)
    const webs = standing(mountSetup(bearingBlock(), 'op10')).beyond.filter(
      (s) => s.outlines && s.role === 'fixture',
    )
    expect(webs).toHaveLength(1)
    expect(webs[0]!.x).toBeCloseTo(73.5, 9)
    expect(polygonArea([...webs[0]!.outlines!])).toBeCloseTo((84 * 109) / 2, 6)
  })

  it('cuts a mesh', () => {
    // A tetrahedron with corners at 0 and 30 along each axis, its right angle at the back.
    const mesh = {
      vertices: [-10, 0, 0, 30, 0, 0, -10, 30, 0, -10, 0, 30],
      triangles: [0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3],
    }
    const part = partOf([{ id: 'm', effect: 'adds', base: 0, density: null, mesh }])
    const segments = meshSection(mountSetup(jobWith({ part, setup: { packing: 5 } }), 'op10'))
    // At x = 0 a quarter of the way: a triangle with legs 22.5, its right angle at z = 5, y = 0.
    expect(segments).toHaveLength(3)
    const total = segments.reduce((sum, s) => sum + Math.hypot(s.b.x - s.a.x, s.b.y - s.a.y), 0)
    expect(total).toBeCloseTo(22.5 * (2 + Math.SQRT2), 4)
    expect(Math.min(...segments.map((s) => s.a.x))).toBeCloseTo(5, 6)
  })
})

describe('hatching', () => {
  const square = (x: number, y: number, size: number) => [
    { x, y },
    { x: x + size, y },
    { x: x + size, y: y + size },
    { x, y: y + size },
  ]
  const strokes = (outline: ReturnType<typeof ringSegments>, sense: 1 | -1) =>
    hatching(outline, sense).flatMap((path) => {
      const ends = path.steps.map((s) => (s.to === 'close' ? expect.fail('open lines only') : s))
      return Array.from({ length: ends.length / 2 }, (_, i) => ({ a: ends[2 * i]!, b: ends[2 * i + 1]! }))
    })

  it('fills an outline with lines at 45°, as long as its area over their spacing', () => {
    for (const sense of [1, -1] as const) {
      const lines = strokes(ringSegments([square(3, 5, 100)]), sense)
      const length = lines.reduce((sum, { a, b }) => sum + Math.hypot(b.x - a.x, b.y - a.y), 0)
      expect(length / ((100 * 100) / 2.4)).toBeCloseTo(1, 1)
      for (const { a, b } of lines) expect((b.y - a.y) / (b.x - a.x)).toBeCloseTo(sense, 9)
    }
  })

  it('leaves holes open', () => {
    const lines = strokes(ringSegments([square(0, 0, 40), square(10, 10, 20)]), 1)
    const inHole = lines.filter(({ a, b }) => {
      const x = (a.x + b.x) / 2
      const y = (a.y + b.y) / 2
      return x > 10.01 && x < 29.99 && y > 10.01 && y < 29.99
    })
    expect(inHole).toEqual([])
    expect(lines.length).toBeGreaterThan(10)
  })

  it('is nothing for no outline', () => {
    expect(hatching([], 1)).toEqual([])
  })
})
