/** What lies behind is dashed, decided by height: checked point by point on random stacks, apart from the code that draws. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { analyse } from '../../../src-core/analysis/analyse.ts'
import { plainPrimitives } from '../../../src-core/drawing/model/plain.ts'
import { subPaths } from '../../../src-core/drawing/model/subPaths.ts'
import { setupSheet } from '../../../src-core/drawing/sheet/setupSheet.ts'
import { frontLines } from '../../../src-core/drawing/views/frontLines.ts'
import type { LayerName, PlainPrimitive } from '../../../src-core/drawing/model/model.ts'
import { makeEdge } from '../../../src-core/geometry/edges.ts'
import { nearestOnEdge } from '../../../src-core/geometry/nearest.ts'
import type { Point } from '../../../src-core/geometry/types.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { disc, jobWith, partOf, piece } from '../../helpers/jobs.ts'

interface Round {
  readonly x: number
  readonly y: number
  readonly radius: number
  readonly base: number
  readonly top: number
}

const round = fc
  .record({
    x: fc.double({ min: -70, max: 70, noNaN: true }),
    y: fc.double({ min: -70, max: 70, noNaN: true }),
    radius: fc.double({ min: 8, max: 40, noNaN: true }),
    base: fc.integer({ min: 0, max: 60 }),
    height: fc.integer({ min: 5, max: 60 }),
  })
  .map(({ height, ...r }): Round => ({ ...r, top: r.base + height }))

const jobOf = (part: Round, stack: readonly Round[]): Job =>
  jobWith({
    part: partOf([disc('body', part, 2 * part.radius, part.top - part.base, { base: part.base })]),
    plate: { slots: [], holes: [], bore: 0 },
    setup: {
      centre: { x: 0, y: 0 },
      turn: 0,
      packing: 0,
      hardware: stack.map((r, i) =>
        piece(`h${i}`, 1, r, { footprint: { circle: 2 * r.radius }, base: r.base, height: r.top - r.base }),
      ),
    },
  })

function drawn(job: Job): readonly PlainPrimitive[] {
  const mounted = mountSetup(job, 'op10')
  const area = { x0: -1e4, y0: -1e4, x1: 1e4, y1: 1e4 }
  const view = { job, mounted, analysis: analyse(job, 'op10'), choices: {} }
  return frontLines({ ...view, scale: 1, origin: { x: 0, y: 0 }, area }).primitives
}

function layersAt(primitives: readonly PlainPrimitive[], p: Point): Set<LayerName> {
  const near = (q: Point) => Math.hypot(q.x - p.x, q.y - p.y) < 1e-3
  return new Set(
    primitives.flatMap((d) => {
      if (d.kind !== 'path' || d.fill !== 'none') return []
      const on = subPaths(d.steps).some(({ vertices, closed }) =>
        vertices.some((v, i) => {
          const next = vertices[i + 1] ?? (closed ? vertices[0] : undefined)
          return next !== undefined && near(nearestOnEdge(makeEdge(v, next, v.bulge ?? 0), p))
        }),
      )
      return on ? [d.layer] : []
    }),
  )
}

describe('the view from the tailstock', () => {
  it('draws each outline where nothing stands in front of it, and dashes it where something does', () => {
    let behind = 0
    fc.assert(
      fc.property(round, fc.array(round, { minLength: 1, maxLength: 7 }), (part, stack) => {
        const lines = drawn(jobOf(part, stack))
        const all = [{ ...part, layer: 'outline' }, ...stack.map((r) => ({ ...r, layer: 'outline-thin' }))]
        all.forEach((own) => {
          for (let k = 0; k < 24; k++) {
            const a = (k / 24) * 2 * Math.PI + 0.1
            const p = { x: own.x + own.radius * Math.cos(a), y: own.y + own.radius * Math.sin(a) }
            const others = all.filter((o) => o !== own)
            const gap = (o: Round) => Math.hypot(p.x - o.x, p.y - o.y) - o.radius
            // Too near to another outline to tell, or on it.
            if (others.some((o) => Math.abs(gap(o)) < 0.01)) continue
            const isBehind = others.some((o) => gap(o) < 0 && o.top > own.top)
            if (isBehind) behind++
            const layers = layersAt(lines, p)
            expect([layers.has(own.layer as LayerName), layers.has('hidden')]).toEqual([!isBehind, isBehind])
          }
        })
      }),
      { numRuns: 60, seed: 20260301 },
    )
    expect(behind).toBeGreaterThan(500)
  })

  it('does not draw a weight behind the part in front of it', () => {
    const part = { x: 0, y: 0, radius: 60, base: 40, top: 60 }
    const weight = { x: 20, y: 0, radius: 20, base: 0, top: 30 }
    const layers = layersAt(drawn(jobOf(part, [weight])), { x: 20, y: 20 })
    expect([...layers]).toEqual(['hidden'])
  })
})

describe('a solid in the section', () => {
  const stack = [
    { x: 0, y: 90, radius: 15, base: 0, top: 30 },
    { x: 60, y: 0, radius: 20, base: 0, top: 30 },
    { x: -60, y: 0, radius: 25, base: 0, top: 40 },
  ]
  const job = jobOf({ x: 0, y: 0, radius: 30, base: 0, top: 20 }, stack)
  const [sheet] = setupSheet(job, 'op10', analyse(job, 'op10'), { sheet: 'A3' })
  const boxes = (layer: LayerName, height: number) =>
    plainPrimitives(sheet!).filter((p) => {
      if (p.kind !== 'path' || p.layer !== layer || p.steps.length !== 5) return false
      const xs = p.steps.flatMap((s) => (s.to === 'close' ? [] : [s.x]))
      const ys = p.steps.flatMap((s) => (s.to === 'close' ? [] : [s.y]))
      const scale = 0.5
      const size = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)]
      return Math.abs(size[1]! - height * scale) < 1e-6 && size[0]! > 5
    }).length

  it('is cut where the plane meets it, whole beyond it, and a phantom before it', () => {
    expect(boxes('outline-thin', 30)).toBeGreaterThanOrEqual(1)
    expect(boxes('outline-thin', 40)).toBe(1)
    expect(boxes('phantom', 50)).toBe(1)
    expect(boxes('outline-thin', 50)).toBe(0)
  })
})
