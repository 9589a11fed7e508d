import { describe, expect, it } from 'vitest'
import { mountSetup } from '../../../src-core/mounting/mount.ts'
import { datumEdges, datumPoints } from '../../../src-core/mounting/partDatums.ts'
import { block, bore, disc, jobWith, partOf } from '../../helpers/jobs.ts'

const AXIS = { x: 0, y: 0 }

describe('a block turned 30° about a bore', () => {
  const part = partOf(
    [block('b', { x: 20, y: 0 }, [120, 60, 20])],
    [bore('A', AXIS, 20), bore('B', { x: 60, y: 10 }, 12)],
  )
  const setup = { centre: { bore: 'A' }, turn: 30, packing: 0 }
  const mounted = mountSetup(jobWith({ part, setup }), 'op10')

  it('is found by its longest edge and the longest across it, square from the axis', () => {
    const [first, second] = datumEdges(mounted)
    // By hand: the long sides lie 30 off the axis at 30°, the short ones 40 and 80 at 120°.
    expect(first!.angle).toBeCloseTo(30, 9)
    expect(first!.distance).toBeCloseTo(30, 9)
    expect(second!.angle).toBeCloseTo(120, 9)
    expect([40, 80].some((d) => Math.abs(second!.distance - d) < 1e-9)).toBe(true)
    for (const { a, b, foot } of [first!, second!])
      expect(foot.x * (b.x - a.x) + foot.y * (b.y - a.y)).toBeCloseTo(0, 6)
  })

  it('gives no name that a slot, hole or piece has already', () => {
    const plate = {
      holes: [
        { id: 'P1', x: 100, y: 0, diameter: 12 },
        { id: 'E2', x: -100, y: 0, diameter: 12 },
      ],
    }
    const drilled = mountSetup(jobWith({ part, setup, plate }), 'op10')
    expect(datumPoints(drilled).map((p) => p.id)).toEqual(['B', 'P2'])
    expect(datumEdges(drilled).map((e) => e.id)).toEqual(['E1', 'E3'])
  })

  it('has bores before corners, each where it stands on the plate', () => {
    const [first, second] = datumPoints(mounted)
    expect([first!.id, second!.id]).toEqual(['B', 'P1'])
    const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)]
    expect(first!.at.x).toBeCloseTo(60 * c - 10 * s, 9)
    expect(first!.at.y).toBeCloseTo(60 * s + 10 * c, 9)
    const corners = [
      [-40, -30],
      [80, -30],
      [80, 30],
      [-40, 30],
    ].map(([x, y]) => ({ x: x! * c - y! * s, y: x! * s + y! * c }))
    const off = corners.map((p) => Math.hypot(p.x - second!.at.x, p.y - second!.at.y))
    expect(Math.min(...off)).toBeLessThan(1e-9)
  })
})

it('a disc has no edge to lay a straight edge to', () => {
  const mounted = mountSetup(jobWith({ part: partOf([disc('d', AXIS, 80, 20)]) }), 'op10')
  expect(datumEdges(mounted)).toEqual([])
  expect(datumPoints(mounted)).toEqual([])
})
