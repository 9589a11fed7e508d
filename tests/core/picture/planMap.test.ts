import fc from 'fast-check'
import { lusolve } from 'mathjs'
import { describe, expect, it } from 'vitest'
import type { Point } from '../../../src-core/geometry/types.ts'
import { applyTo } from '../../../src-core/geometry/affine.ts'
import { project } from '../../../src-core/picture/matrix.ts'
import { carried, moveTies, turnTies } from '../../../src-core/picture/moving.ts'
import { planMap, tieFault, type Ties } from '../../../src-core/picture/planMap.ts'

const tie = (u: number, v: number, x: number, y: number) => ({ u, v, x, y })
function mapOf(ties: Ties) {
  const made = planMap(ties)
  if (!made.ok) throw new Error(made.reason)
  return made.map
}
const toPlan = (ties: Ties, u: number, v: number) => project(mapOf(ties).toPlan, { x: u, y: v })

/** The eight unknowns by elimination, a row for each coordinate (Hartley & Zisserman, section 4.1, with h33 = 1). */
function solved(ties: Ties): (p: Point) => Point {
  const rows = ties.flatMap(({ u, v, x, y }) => [
    [u, v, 1, 0, 0, 0, -u * x, -v * x],
    [0, 0, 0, u, v, 1, -u * y, -v * y],
  ])
  const h = (
    lusolve(
      rows,
      ties.flatMap(({ x, y }) => [x, y]),
    ) as number[][]
  ).map((r) => r[0]!)
  return (p) => {
    const w = h[6]! * p.x + h[7]! * p.y + 1
    return { x: (h[0]! * p.x + h[1]! * p.y + h[2]!) / w, y: (h[3]! * p.x + h[4]! * p.y + h[5]!) / w }
  }
}

const KEYSTONE: Ties = [tie(120, 610, 0, 0), tie(905, 560, 80, 0), tie(760, 130, 80, 50), tie(230, 90, 0, 50)]

describe('two ties', () => {
  it('scale and place a picture that lies straight: 100 pixels are 25 mm, down is less y', () => {
    const ties: Ties = [tie(100, 300, 10, 20), tie(200, 300, 35, 20)]
    expect(toPlan(ties, 100, 300)).toEqual({ x: 10, y: 20 })
    expect(toPlan(ties, 200, 300)).toEqual({ x: 35, y: 20 })
    expect(toPlan(ties, 100, 340)).toEqual({ x: 10, y: 10 })
  })

  it('turn it: a line across the picture laid upward turns everything a quarter counter-clockwise', () => {
    const ties: Ties = [tie(0, 0, 0, 0), tie(10, 0, 0, 10)]
    const p = toPlan(ties, 0, 10)
    expect(p.x).toBeCloseTo(10, 12)
    expect(p.y).toBeCloseTo(0, 12)
  })

  it('keep shapes: any distance is scaled alike, and the turn is never mirrored', () => {
    const c = fc.double({ min: -5000, max: 5000, noNaN: true })
    fc.assert(
      fc.property(c, c, c, c, c, c, c, c, (u1, v1, u2, v2, x1, y1, x2, y2) => {
        const ties: Ties = [tie(u1, v1, x1, y1), tie(u2, v2, x2, y2)]
        fc.pre(Math.hypot(u2 - u1, v2 - v1) > 2 && Math.hypot(x2 - x1, y2 - y1) > 2)
        const k = Math.hypot(x2 - x1, y2 - y1) / Math.hypot(u2 - u1, v2 - v1)
        const [o, right, down] = [toPlan(ties, 0, 0), toPlan(ties, 100, 0), toPlan(ties, 0, 100)]
        expect(Math.hypot(right.x - o.x, right.y - o.y) / (100 * k)).toBeCloseTo(1, 6)
        const cross = (right.x - o.x) * (down.y - o.y) - (right.y - o.y) * (down.x - o.x)
        expect(cross / (100 * k) ** 2).toBeCloseTo(-1, 6)
        const end = toPlan(ties, u2, v2)
        expect(Math.hypot(end.x - x2, end.y - y2)).toBeLessThan(1e-6)
      }),
    )
  })
})

describe('four ties', () => {
  it('agree with the eight linear equations solved by elimination', () => {
    const other = solved(KEYSTONE)
    for (const [u, v] of [
      [120, 610],
      [905, 560],
      [500, 300],
      [0, 0],
      [1000, 700],
    ] as const) {
      const p = toPlan(KEYSTONE, u, v)
      const q = other({ x: u, y: v })
      expect(p.x).toBeCloseTo(q.x, 8)
      expect(p.y).toBeCloseTo(q.y, 8)
    }
  })

  it('meet where the diagonals cross: the middle of the rectangle', () => {
    // Diagonals of the quadrilateral in the picture, crossed by hand.
    const [a, b, c, d] = KEYSTONE as unknown as { u: number; v: number }[] as [
      { u: number; v: number }, { u: number; v: number }, { u: number; v: number }, { u: number; v: number },
    ] // prettier-ignore
    const [r, s] = [
      { u: c.u - a.u, v: c.v - a.v },
      { u: d.u - b.u, v: d.v - b.v },
    ]
    const t = ((b.u - a.u) * s.v - (b.v - a.v) * s.u) / (r.u * s.v - r.v * s.u)
    const p = toPlan(KEYSTONE, a.u + t * r.u, a.v + t * r.v)
    expect(p.x).toBeCloseTo(40, 9)
    expect(p.y).toBeCloseTo(25, 9)
  })

  it('go there and back', () => {
    const map = mapOf(KEYSTONE)
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1000, noNaN: true }),
        fc.double({ min: 0, max: 700, noNaN: true }),
        (x, y) => {
          const back = project(map.toPixel, project(map.toPlan, { x, y }))
          expect(Math.hypot(back.x - x, back.y - y)).toBeLessThan(1e-6)
        },
      ),
    )
  })

  it('that come from a similarity give that similarity', () => {
    const two: Ties = [tie(50, 80, 5, -3), tie(350, 120, 60, 22)]
    const at = (u: number, v: number) => ({ u, v, ...toPlan(two, u, v) })
    const four: Ties = [at(0, 600), at(800, 600), at(800, 0), at(0, 0)]
    const [p, q] = [toPlan(two, 333, 77), toPlan(four, 333, 77)]
    expect(q.x).toBeCloseTo(p.x, 9)
    expect(q.y).toBeCloseTo(p.y, 9)
  })
})

describe('ties that place nothing', () => {
  const [a, b, c, d] = KEYSTONE as [Ties[number], Ties[number], Ties[number], Ties[number]]
  it.each<[string, Ties, RegExp]>([
    ['one pixel twice', [tie(5, 5, 0, 0), tie(5, 5, 10, 0)], /1 and 2 are the same point of the picture/],
    ['one plan point twice', [tie(5, 5, 7, 7), tie(50, 5, 7, 7)], /1 and 2 are the same point of the part/],
    [
      'corners crossed in the picture',
      [a, { ...c, x: b.x, y: b.y }, { ...b, x: c.x, y: c.y }, d],
      /in order in the picture/,
    ],
    [
      'corners crossed on the part',
      [a, { ...b, x: 80, y: 50 }, { ...c, x: 80, y: 0 }, d],
      /in order on the part/,
    ],
    [
      'three in line in the picture',
      [a, { ...b, u: 440, v: 370 }, { ...c, u: 760, v: 130 }, d],
      /in one line in the picture/,
    ],
    ['three in line on the part', [a, b, { ...c, x: 40, y: 25 }, d], /in one line on the part/],
    [
      'mirrored',
      [
        { ...a, x: 80 },
        { ...b, x: 0 },
        { ...c, x: 0 },
        { ...d, x: 80 },
      ],
      /mirror/,
    ],
  ])('%s', (_, ties, reason) => {
    expect(tieFault(ties)).toMatch(reason)
    expect(planMap(ties)).toMatchObject({ ok: false })
  })
})

describe('a photograph moved by its ties', () => {
  it('turned and scaled about a point that stays', () => {
    const about = { x: 80, y: 0 }
    const turned = turnTies(KEYSTONE, about, 90, 2)!
    expect(turned[1]).toMatchObject({ u: 905, v: 560, x: 80, y: 0 })
    expect(turned[0]!.x).toBeCloseTo(80, 9)
    expect(turned[0]!.y).toBeCloseTo(-160, 9)
    // Every pixel moves with them.
    const before = toPlan(KEYSTONE, 500, 300)
    const p = toPlan(turned, 500, 300)
    expect(p.x).toBeCloseTo(80 - 2 * before.y, 8)
    expect(p.y).toBeCloseTo(2 * (before.x - 80), 8)
  })
  it('is the same picture carried along, as long as its shape is kept', () => {
    const from = moveTies(KEYSTONE, { x: 13, y: -8 })!
    const to = turnTies(from, { x: 5, y: 9 }, 33, 1.7)!
    const along = carried(from, to)!
    for (const [u, v] of [
      [300, 200],
      [700, 500],
    ] as const) {
      const p = applyTo(along, toPlan(from, u, v))
      const q = toPlan(to, u, v)
      expect(p.x).toBeCloseTo(q.x, 8)
      expect(p.y).toBeCloseTo(q.y, 8)
    }
    const wider = to.map((t, i) => (i === 2 ? { ...t, x: t.x + 0.01 } : t)) as unknown as Ties
    expect(carried(from, wider)).toBeNull()
    const marked = to.map((t, i) => (i === 2 ? { ...t, u: t.u + 1 } : t)) as unknown as Ties
    expect(carried(from, marked)).toBeNull()
    expect(carried(from, [to[0], to[1]])).toBeNull()
  })
  it('never out of the range of a job', () => {
    expect(moveTies(KEYSTONE, { x: 3, y: -4 })![0]).toMatchObject({ x: 3, y: -4 })
    expect(moveTies(KEYSTONE, { x: 99_990, y: 0 })).toBeNull()
  })
})
