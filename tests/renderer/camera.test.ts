import { describe, expect, test } from 'vitest'
import fc from 'fast-check'
import { fit, panBy, toScreen, toWorld, zoomAt, type View } from '../../src-renderer/editor/camera.ts'
import { roundTo, snapAngle, snapPoint } from '../../src-renderer/editor/snap.ts'

const coordinate = fc.double({ min: -500, max: 500, noNaN: true })
const point = fc.record({ x: coordinate, y: coordinate })
const view: fc.Arbitrary<View> = fc.record({
  scale: fc.double({ min: 0.2, max: 50, noNaN: true }),
  at: point,
  turn: fc.double({ min: -360, max: 360, noNaN: true }),
  width: fc.integer({ min: 100, max: 2000 }),
  height: fc.integer({ min: 100, max: 2000 }),
})

describe('camera', () => {
  test('y is up: a point above the middle is drawn above it', () => {
    const v: View = { scale: 2, at: { x: 0, y: 0 }, turn: 0, width: 100, height: 100 }
    expect(toScreen(v, { x: 10, y: 5 })).toEqual({ x: 70, y: 40 })
  })
  test('a quarter turn counter-clockwise takes right to up', () => {
    const v: View = { scale: 1, at: { x: 0, y: 0 }, turn: 90, width: 100, height: 100 }
    const p = toScreen(v, { x: 10, y: 0 })
    expect(p.x).toBeCloseTo(50)
    expect(p.y).toBeCloseTo(40)
  })
  test('to the screen and back', () => {
    fc.assert(
      fc.property(view, point, (v, p) => {
        const back = toWorld(v, toScreen(v, p))
        expect(Math.hypot(back.x - p.x, back.y - p.y)).toBeLessThan(1e-6)
      }),
    )
  })
  test('zooming keeps what is under the pointer', () => {
    fc.assert(
      fc.property(view, point, fc.double({ min: 0.2, max: 5, noNaN: true }), (v, p, factor) => {
        const screen = toScreen(v, p)
        const after = toScreen({ ...v, ...zoomAt(v, screen, factor) }, p)
        expect(Math.hypot(after.x - screen.x, after.y - screen.y)).toBeLessThan(1e-6)
      }),
    )
  })
  test('panning moves every point by the same pixels', () => {
    fc.assert(
      fc.property(view, point, (v, p) => {
        const before = toScreen(v, p)
        const after = toScreen({ ...v, ...panBy(v, 13, -7) }, p)
        expect(after.x - before.x).toBeCloseTo(13, 6)
        expect(after.y - before.y).toBeCloseTo(-7, 6)
      }),
    )
  })
  test('fit shows the whole extent', () => {
    const size = { width: 640, height: 480 }
    const extent = { x0: -170, y0: -200, x1: 170, y1: 160 }
    const v = { ...fit(extent, size, 10), ...size }
    for (const [x, y] of [
      [-170, -200],
      [170, 160],
    ] as const) {
      const p = toScreen(v, { x, y })
      expect(p.x).toBeGreaterThanOrEqual(9.999)
      expect(p.x).toBeLessThanOrEqual(630.001)
      expect(p.y).toBeGreaterThanOrEqual(9.999)
      expect(p.y).toBeLessThanOrEqual(470.001)
    }
  })
})

describe('snapping', () => {
  const targets = [
    { at: { x: 0, y: 0 }, text: 'a', rank: 1 },
    { at: { x: 4, y: 0 }, text: 'b', rank: 0 },
  ]
  test('the radius is pixels: close in millimetres is not close when zoomed in', () => {
    expect(snapPoint({ x: 1, y: 0 }, targets, 1).target?.text).toBe('a')
    expect(snapPoint({ x: 1, y: 0 }, targets, 20).target).toBeNull()
  })
  test('nearest wins, and of two as near the lower rank', () => {
    expect(snapPoint({ x: 3.5, y: 0 }, targets, 2).target?.text).toBe('b')
    expect(snapPoint({ x: 2, y: 0 }, targets, 2).target?.text).toBe('b')
    expect(snapPoint({ x: 2, y: 0 }, [...targets].reverse(), 2).target?.text).toBe('b')
  })
  test('the snapped point is the target itself', () => {
    expect(snapPoint({ x: 0.3, y: 0.2 }, targets, 2).point).toEqual({ x: 0, y: 0 })
  })
  test('angles catch on fifteens and stay within a turn', () => {
    expect(snapAngle(44)).toEqual({ angle: 45, snapped: true })
    expect(snapAngle(-91)).toEqual({ angle: 270, snapped: true })
    expect(snapAngle(37.3)).toEqual({ angle: 37.5, snapped: false })
    expect(snapAngle(359.5).angle).toBe(0)
  })
  test('rounding leaves no binary tail', () => {
    expect(roundTo(0.30000000000000004, 0.1)).toBe(0.3)
    expect(roundTo(117.26, 0.5)).toBe(117.5)
  })
})
