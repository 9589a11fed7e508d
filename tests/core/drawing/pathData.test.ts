import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { PathStep } from '../../../src-core/drawing/model/model.ts'
import { pathData } from '../../../src-core/drawing/writers/pathData.ts'
import { subPaths } from '../../../src-core/drawing/model/subPaths.ts'
import type { Point } from '../../../src-core/geometry/types.ts'

const SHEET = 300

interface Piece {
  readonly from: Point
  readonly to: Point
  readonly radius: number
  readonly sweep: number
}

/** The arc pieces of a path of one move and arcs, y up again. */
function arcs(data: string): Piece[] {
  const [start, ...rest] = data.split(/(?=[MA])/)
  const up = (x: string | undefined, y: string | undefined): Point => ({ x: Number(x), y: SHEET - Number(y) })
  let from = up(...(start!.slice(1).split(' ') as [string, string]))
  return rest.map((part) => {
    const [rx, ry, tilt, large, sweep, x, y] = part.slice(1).split(' ')
    expect([ry, tilt, large]).toEqual([rx, '0', '0'])
    const piece = { from, to: up(x, y), radius: Number(rx), sweep: Number(sweep) }
    from = piece.to
    return piece
  })
}

/** Middle of a minor arc: SVG's sweep flag 1 is clockwise with y up. */
function middle({ from, to, radius, sweep }: Piece): Point {
  const half = Math.hypot(to.x - from.x, to.y - from.y) / 2
  const rise = radius - Math.sqrt(Math.max(0, radius * radius - half * half))
  const left = sweep === 1 ? 1 : -1
  return {
    x: (from.x + to.x) / 2 - (left * rise * (to.y - from.y)) / (2 * half),
    y: (from.y + to.y) / 2 + (left * rise * (to.x - from.x)) / (2 * half),
  }
}

const coordinate = fc.double({ min: 10, max: 290, noNaN: true })
const bulge = fc.oneof(
  fc.double({ min: 0.02, max: 8, noNaN: true }),
  fc.constantFrom(1, 0.999, 1.001, Math.tan(Math.PI / 8)),
)

describe('pathData', () => {
  it('keeps an arc on its circle within 2 µm, whatever the turn', () => {
    fc.assert(
      fc.property(
        coordinate,
        coordinate,
        coordinate,
        coordinate,
        bulge,
        fc.boolean(),
        (x, y, u, v, size, ccw) => {
          const chord = Math.hypot(u - x, v - y)
          fc.pre(chord > 5)
          const b = ccw ? size : -size
          const steps: PathStep[] = [
            { to: 'move', x, y },
            { to: 'arc', x: u, y: v, bulge: b },
          ]
          const pieces = arcs(pathData(steps, SHEET))
          // The apex is a bulge of half-chords off the chord, to the right of the direction for a positive bulge.
          const apex = { x: (x + u) / 2 + (b * (v - y)) / 2, y: (y + v) / 2 - (b * (u - x)) / 2 }
          const radius = (chord * (1 + b * b)) / (4 * Math.abs(b))
          const toCentre = { x: (x + u) / 2 - apex.x, y: (y + v) / 2 - apex.y }
          const rise = Math.hypot(toCentre.x, toCentre.y)
          const centre = {
            x: apex.x + (toCentre.x * radius) / rise,
            y: apex.y + (toCentre.y * radius) / rise,
          }
          for (const piece of pieces) {
            for (const p of [piece.from, middle(piece), piece.to]) {
              expect(Math.abs(Math.hypot(p.x - centre.x, p.y - centre.y) - radius)).toBeLessThan(0.002)
            }
          }
          const turn = pieces.reduce((sum, { from, to, sweep }) => {
            const step = 2 * Math.asin(Math.min(1, Math.hypot(to.x - from.x, to.y - from.y) / (2 * radius)))
            return sum + (sweep === 1 ? -step : step)
          }, 0)
          expect(turn).toBeCloseTo(4 * Math.atan(b), 3)
        },
      ),
    )
  })

  it('writes a closed ring whose last edge is an arc, and no line for the close', () => {
    const steps: PathStep[] = [
      { to: 'move', x: 0, y: 0 },
      { to: 'line', x: 10, y: 0 },
      { to: 'arc', x: 0, y: 0, bulge: Math.tan(Math.PI / 8) },
      { to: 'close' },
    ]
    expect(pathData(steps, 100)).toBe('M0 100L10 100A7.0711 7.0711 0 0 0 0 100Z')
  })

  it('writes an arc too flat to see as a line', () => {
    const steps: PathStep[] = [
      { to: 'move', x: 0, y: 0 },
      { to: 'arc', x: 10, y: 0, bulge: 1e-8 },
    ]
    expect(pathData(steps, 0)).toBe('M0 0L10 0')
  })

  it('refuses a coordinate or a bulge that is not finite', () => {
    const move: PathStep = { to: 'move', x: 0, y: 0 }
    expect(() => pathData([move, { to: 'line', x: Number.NaN, y: 0 }], 0)).toThrow(RangeError)
    expect(() => pathData([move, { to: 'arc', x: 1, y: 0, bulge: Number.NaN }], 0)).toThrow(RangeError)
    expect(() => pathData([move, { to: 'arc', x: 1, y: 0, bulge: Infinity }], 0)).toThrow(RangeError)
  })
})

describe('subPaths', () => {
  it('is empty for no steps and for a lone move', () => {
    expect(subPaths([])).toEqual([])
    expect(subPaths([{ to: 'move', x: 1, y: 1 }])).toEqual([])
  })

  it('refuses to draw before the first move', () => {
    expect(() => subPaths([{ to: 'line', x: 1, y: 1 }])).toThrow(RangeError)
  })

  it('goes on from the start of the run that was closed', () => {
    const steps: PathStep[] = [
      { to: 'move', x: 1, y: 1 },
      { to: 'arc', x: 2, y: 1, bulge: 0.5 },
      { to: 'line', x: 2, y: 2 },
      { to: 'close' },
      { to: 'line', x: 0, y: 0 },
    ]
    expect(subPaths(steps)).toEqual([
      {
        closed: true,
        vertices: [
          { x: 1, y: 1, bulge: 0.5 },
          { x: 2, y: 1 },
          { x: 2, y: 2 },
        ],
      },
      {
        closed: false,
        vertices: [
          { x: 1, y: 1 },
          { x: 0, y: 0 },
        ],
      },
    ])
  })
})
