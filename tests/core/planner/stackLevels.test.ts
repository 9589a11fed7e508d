import { expect, test } from 'vitest'
import type { StockItem } from '../../../src-core/job/schema.ts'
import { StackLevels } from '../../../src-core/planner/stackLevels.ts'
import { expectNear } from '../../helpers/near.ts'

const item = (id: string, mass: number, count: number, diameter: number, height: number): StockItem => ({
  id,
  mass,
  count,
  footprint: { circle: diameter },
  height,
})

const STOCK = [
  item('a', 0.2, 3, 40, 15),
  item('b', 0.5, 2, 60, 25),
  item('c', 0.9, 1, 50, 60),
  item('d', 1, 0, 50, 10),
]

/** Every combination of counts, by plain counting. */
function allCounts(limit: number): string[] {
  const found: string[] = []
  for (let a = 0; a <= 3; a++)
    for (let b = 0; b <= 2; b++)
      for (let c = 0; c <= 1; c++)
        if (a + b + c > 0 && a * 15 + b * 25 + c * 60 <= limit) found.push(`${a},${b},${c},0`)
  return found.sort()
}

test.each([30, 75, 120, 1000])('every multiset once, within count and %d mm', (limit) => {
  const levels = new StackLevels(STOCK, limit, 0.15)
  const found: string[] = []
  for (let n = 1; n <= 8; n++)
    for (const s of levels.level(n)) {
      expect(s.pieces).toBe(n)
      expect(s.counts.reduce((sum, c) => sum + c, 0)).toBe(n)
      const mass = STOCK.reduce((m, t, i) => m + t.mass * s.counts[i]!, 0.15) * 1000
      expectNear(s.mass, mass, { rel: 1e-12 })
      expectNear(
        s.height,
        STOCK.reduce((h, t, i) => h + t.height * s.counts[i]!, 0),
        { rel: 1e-12 },
      )
      found.push(s.counts.join(','))
    }
  expect(found.sort()).toEqual(allCounts(limit))
  const heaviest = Math.max(0, ...levels.stacks.map((s) => s.mass))
  expect(levels.heaviest()).toBeGreaterThanOrEqual(heaviest - 1e-9)
})

test('a stack stands on the footprint that covers the others, else on a hull of both', () => {
  const stock: StockItem[] = [
    item('disc', 0.2, 2, 40, 15),
    { ...item('bar', 0.3, 2, 1, 15), footprint: { rect: [100, 30] } },
    { ...item('slab', 0.3, 2, 1, 15), footprint: { rect: [120, 60] } },
  ]
  const levels = new StackLevels(stock, 120, 0)
  const shapeOf = (...counts: number[]) => {
    const stack = levels
      .level(counts.reduce((s, c) => s + c, 0))
      .find((s) => s.counts.join() === counts.join())!
    return levels.shapes[stack.shape]!
  }
  expect(shapeOf(1, 0, 1).stock).toBe(2)
  expect(shapeOf(0, 1, 1).stock).toBe(2)
  expect(shapeOf(2, 0, 0).stock).toBe(0)
  const mixed = shapeOf(1, 1, 0)
  expect(mixed.stock).toBe(-1)
  const { shape } = mixed
  expect(shape.kind).toBe('outline')
  if (shape.kind !== 'outline') return
  expect(Math.max(...shape.points.map((p) => p.x))).toBeCloseTo(50, 9)
  const top = Math.max(...shape.points.map((p) => p.y))
  expect(top).toBeGreaterThanOrEqual(20)
  // Its disc is drawn as 64 sides about it: 20 / cos(π/64) = 20.024.
  expect(top).toBeLessThan(20.03)
  expect(shapeOf(1, 1, 1).stock).toBe(2)
})

test('a piece whose centre is off its bolt shifts the stack in proportion, the bolt set with it', () => {
  const stock: StockItem[] = [
    {
      ...item('wedge', 0.45, 1, 1, 10),
      footprint: {
        outline: [
          { x: 0, y: 0 },
          { x: 30, y: 0 },
          { x: 0, y: 30 },
        ],
      },
    },
  ]
  const [stack] = new StackLevels(stock, 100, 0.15).level(1)
  expectNear(stack!.centre.x, 10 * 0.75, { rel: 1e-12 })
  expectNear(stack!.centre.y, 10 * 0.75, { rel: 1e-12 })
})

test('a list that grows past its bound says that it is not whole', () => {
  const stock = Array.from({ length: 30 }, (_, i) => item(`w${i}`, 0.1 + i / 100, 20, 30, 1))
  const levels = new StackLevels(stock, 120, 0)
  for (let n = 1; n <= 6; n++) levels.level(n)
  expect(levels.complete).toBe(false)
  expect(levels.stacks.length).toBeLessThanOrEqual(60_000)
})
