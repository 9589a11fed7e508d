/** Free radii against an independent polygon library that keeps arcs. */
import { TOLERANCE } from '../../../src-core/geometry/tolerance.ts'
import Flatten from '@flatten-js/core'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { polar } from '../../../src-core/geometry/angles.ts'
import { ringEdges } from '../../../src-core/geometry/edges.ts'
import type { Ring } from '../../../src-core/geometry/types.ts'
import type { Footprint, Hardware, Job } from '../../../src-core/job/schema.ts'
import { FreeRadii, listStations } from '../../../src-core/planner/free.ts'
import { footprintShape } from '../../../src-core/planner/shape.ts'
import { footprintRing } from '../../../src-core/mounting/station.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { degrees, mm, moved, point, starRing } from '../../helpers/arbitraries.ts'
import { block, bore, disc, jobWith, partOf, piece } from '../../helpers/jobs.ts'

/** The library's polygon of a ring, arcs as arcs. */
function flattenPolygon(ring: Ring): Flatten.Polygon {
  const polygon = new Flatten.Polygon()
  const shapes = ringEdges(ring).map((e) => {
    const a = new Flatten.Point(e.a.x, e.a.y)
    const b = new Flatten.Point(e.b.x, e.b.y)
    if (!e.arc) return new Flatten.Segment(a, b)
    const { centre, radius, start, sweep } = e.arc
    return new Flatten.Arc(new Flatten.Point(centre.x, centre.y), radius, start, start + sweep, sweep > 0)
  })
  polygon.addFace(shapes)
  return polygon
}

/** mm between two outlines: 0 where they cross or one holds the other. */
function between(a: Ring, b: Ring): number {
  const pa = flattenPolygon(a)
  const pb = flattenPolygon(b)
  if (pa.contains(new Flatten.Point(b[0]!.x, b[0]!.y)) || pb.contains(new Flatten.Point(a[0]!.x, a[0]!.y)))
    return 0
  return pa.distanceTo(pb)[0]
}

const footprint: fc.Arbitrary<Footprint> = fc.oneof(
  mm(10, 70).map((circle) => ({ circle })),
  fc.tuple(mm(10, 80), mm(10, 60)).map(([a, b]) => ({ rect: [a, b] as [number, number] })),
  starRing({ from: 8, to: 35, most: 8 }).map((outline) => ({ outline })),
)

const freeIn = (job: Job, shape: Footprint, height: number) => {
  const free = new FreeRadii(mountSetup(job, 'op10'))
  return listStations(job.plate).map((station) => ({
    station,
    intervals: free.find({
      station,
      shape: footprintShape(shape),
      z0: 0,
      z1: height,
      without: [],
      overPart: false,
      rim: job.plate.diameter / 2,
    }),
  }))
}

describe('a stack in a slot beside one body and one clamp', () => {
  const body = fc
    .tuple(starRing({ from: 20, to: 70, most: 9 }), point(60))
    .map(([ring, by]) => moved(ring, by.x, by.y))
  const clamp = fc.tuple(point(110), degrees, mm(30, 90))
  test('what is called free is free, and what is clear by a little is called free', () => {
    let seen = { free: 0, blocked: 0 }
    fc.assert(
      fc.property(body, clamp, footprint, degrees, (outline, [at, facing, length], shape, angle) => {
        const held: Hardware = piece('c1', 0.5, at, {
          kind: 'press',
          footprint: { rect: [length, 28] },
          facing,
          base: 0,
          height: 40,
        })
        const job = jobWith({
          part: partOf([block('b', { x: 0, y: 0 }, [1, 1, 30], { outline })]),
          plate: { slots: [{ id: 'S', angle, from: 45, to: 140, width: 14, kind: 'through' }], holes: [] },
          lathe: { barReach: 500 },
          setup: { packing: 10, hardware: [held] },
        })
        const [{ intervals }] = freeIn(job, shape, 25) as [ReturnType<typeof freeIn>[number]]
        const clampRing = footprintRing(held.footprint, at, facing)
        for (let radius = 45; radius <= 140; radius += 4.75) {
          const bolt = polar(radius, angle)
          const ring = footprintRing(shape, bolt, angle)
          const out = Math.max(...ringEdges(ring).map((e) => reachOf(e)))
          const clear = Math.min(
            150 - out,
            between(ring, outline),
            between(ring, clampRing),
            between(footprintRing({ circle: 14 }, bolt, 0), outline),
          )
          const free = intervals.some((i) => i.lo <= radius && radius <= i.hi)
          if (free) seen = { ...seen, free: seen.free + 1 }
          else seen = { ...seen, blocked: seen.blocked + 1 }
          if (free) expect(clear, `radius ${radius}`).toBeGreaterThan(0)
          if (clear > 3 * TOLERANCE.inside) expect(free, `radius ${radius}, clear by ${clear}`).toBe(true)
        }
      }),
      { numRuns: 60 },
    )
    expect(Math.min(seen.free, seen.blocked)).toBeGreaterThan(200)
  })
})

/** Farthest point of an edge from the axis, by going along it. */
function reachOf(e: ReturnType<typeof ringEdges>[number]): number {
  let most = Math.max(Math.hypot(e.a.x, e.a.y), Math.hypot(e.b.x, e.b.y))
  for (let i = 1; e.arc && i < 200; i++) {
    const a = e.arc.start + (e.arc.sweep * i) / 200
    most = Math.max(
      most,
      Math.hypot(e.arc.centre.x + e.arc.radius * Math.cos(a), e.arc.centre.y + e.arc.radius * Math.sin(a)),
    )
  }
  return most
}

describe('worked by hand', () => {
  const slot = { id: 'S', angle: 30, from: 55, to: 135, width: 14, kind: 'through' as const }
  const job = (more: Parameters<typeof jobWith>[0]) =>
    jobWith({ plate: { slots: [slot], holes: [] }, ...more })
  const only = (j: Job, shape: Footprint, height: number) => freeIn(j, shape, height)[0]!.intervals

  test('a round part on the axis, the rim and the slot ends', () => {
    // Part radius 60 + weight radius 25 = 85; rim 150 − 25 = 125.
    const [range, ...more] = only(job({}), { circle: 50 }, 20)
    expect(more).toEqual([])
    expect(range!.lo).toBeGreaterThanOrEqual(85)
    expect(range!.lo).toBeLessThanOrEqual(85 + TOLERANCE.inside)
    expect(range!.hi).toBeCloseTo(125 - TOLERANCE.inside, 9)
    const [small] = only(job({}), { circle: 10 }, 20)
    expect(small!.hi).toBe(135)
  })

  test('lower than the packing it may stand under the part, but no bolt or bar is let through', () => {
    expect(only(job({}), { circle: 50 }, 12)).toEqual([{ lo: 55, hi: 125 - TOLERANCE.inside }])
    const bored = job({
      part: partOf([disc('b', { x: 0, y: 0 }, 120, 20)], [bore('A', { x: 0, y: 0 }, 80)]),
      setup: { centre: { bore: 'A' } },
    })
    expect(only(bored, { circle: 50 }, 12)).toEqual([{ lo: 55, hi: 125 - TOLERANCE.inside }])
  })

  test('the boring bar comes down to the back of the bore', () => {
    const ring = job({
      part: partOf([disc('b', { x: 0, y: 0 }, 60, 20, { base: 60 })], [bore('A', { x: 0, y: 0 }, 100)]),
      setup: { centre: { bore: 'A' }, packing: 0 },
    })
    // Taller than the back of the part at 60: radius 50 of the bore + 25.
    expect(only(ring, { circle: 50 }, 61)[0]!.lo).toBeCloseTo(75, 1)
    expect(only(ring, { circle: 50 }, 59)[0]!.lo).toBe(55)
  })

  test('the cross-slide takes in what stands beyond the reach', () => {
    const j = job({ lathe: { barReach: 10, swingOverCrossSlide: 240 } })
    // Without a bore the tip goes to the seat at 12: what is taller than 22 meets the cross-slide's 120.
    expect(only(j, { circle: 20 }, 22)[0]!.hi).toBe(135)
    expect(only(j, { circle: 20 }, 23)[0]!.hi).toBeCloseTo(110 - TOLERANCE.inside, 9)
    const unknown = job({ lathe: { barReach: null, swingOverCrossSlide: 240 } })
    expect(only(unknown, { circle: 20 }, 23)[0]!.hi).toBe(135)
  })

  test('the gap counts where it is open, and only within its width', () => {
    const gap = { swing: 470, width: 30, open: true }
    const plate = { slots: [slot], holes: [], diameter: 320 }
    const j = (open: boolean) => jobWith({ plate, lathe: { swingOverBed: 260, gap: { ...gap, open } } })
    expect(only(j(true), { circle: 40 }, 29)[0]!.hi).toBe(135)
    expect(only(j(true), { circle: 40 }, 31)[0]!.hi).toBeCloseTo(110 - TOLERANCE.inside, 9)
    expect(only(j(false), { circle: 40 }, 29)[0]!.hi).toBeCloseTo(110 - TOLERANCE.inside, 9)
  })

  test('an open gap narrower than the plate limits what stands within its width', () => {
    const lathe = (open: boolean) => ({ swingOverBed: 400, gap: { swing: 250, width: 30, open } })
    expect(only(job({ lathe: lathe(true) }), { circle: 40 }, 20)[0]!.hi).toBeCloseTo(
      105 - TOLERANCE.inside,
      9,
    )
    expect(only(job({ lathe: lathe(false) }), { circle: 40 }, 20)[0]!.hi).toBeCloseTo(
      130 - TOLERANCE.inside,
      9,
    )
  })

  test('below a clamp that stands off the plate its bolt and the heel to come block, the air beside does not', () => {
    const under = (facing: number, height: number) => {
      const more = { kind: 'press', footprint: { rect: [90, 28] as const }, base: 30, facing } as const
      const clamp = piece('c1', 0.6, { slot: 'S', radius: 110 }, more)
      const part = partOf([disc('b', { x: 0, y: 0 }, 60, 20)])
      return only(job({ part, setup: { hardware: [clamp] } }), { circle: 20 }, height)
    }
    const inward = under(30 + 180, 25)
    expect(inward).toHaveLength(1)
    expect(inward[0]!.hi).toBeCloseTo(110 - 7 - 10 - TOLERANCE.inside, 1)
    const outward = under(30, 25)
    // Its tail ends at 110 − 45, too near to the slot's end for a disc of 20.
    expect(outward).toHaveLength(1)
    expect(outward[0]!.lo).toBeCloseTo(110 + 7 + 10 + TOLERANCE.inside, 1)
    expect(under(30 + 180, 31).every((r) => r.hi < 110 - 45)).toBe(true)
  })

  test('a hole is free or it is not', () => {
    const plate = { slots: [], holes: [{ id: 'H', x: 0, y: 90, diameter: 13 }] }
    const [hole] = freeIn(jobWith({ plate }), { circle: 50 }, 20)
    expect(hole!.intervals).toEqual([{ lo: 90, hi: 90 }])
    expect(freeIn(jobWith({ plate }), { circle: 62 }, 20)[0]!.intervals).toEqual([])
  })
})
