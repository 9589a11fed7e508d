import { expect, test } from 'vitest'
import type { StockItem } from '../../../src-core/job/schema.ts'
import { StackSpace, type StackNode } from '../../../src-core/planner/stackSpace.ts'
import { expectNear } from '../../helpers/near.ts'
import { randomFrom } from '../../helpers/planTrials.ts'

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

/** All whole stacks of so many pieces. */
function* wholeStacks(space: StackSpace, pieces: number): Generator<StackNode> {
  const root = space.root(pieces)
  const open = root ? [root] : []
  for (let node = open.pop(); node; node = open.pop()) {
    if (node.left === 0) yield node
    else open.push(...space.below(node))
  }
}

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
  const space = new StackSpace(STOCK, limit)
  const found: string[] = []
  for (let n = 1; n <= 8; n++)
    for (const s of wholeStacks(space, n)) {
      expect(s.counts.reduce((sum, c) => sum + c, 0)).toBe(n)
      const sum = (of: (t: StockItem) => number) => STOCK.reduce((all, t, i) => all + of(t) * s.counts[i]!, 0)
      expectNear(s.mass, sum((t) => t.mass) * 1000, { rel: 1e-12 })
      expectNear(
        s.height,
        sum((t) => t.height),
        { rel: 1e-12 },
      )
      expect(space.heaviest()).toBeGreaterThanOrEqual(s.mass - 1e-9)
      found.push(s.counts.join(','))
    }
  expect(found.sort()).toEqual(allCounts(limit))
})

test('a node bounds every whole stack below it', () => {
  const random = randomFrom(3)
  for (let run = 0; run < 60; run++) {
    const stock = Array.from({ length: 4 }, (_, i): StockItem => ({
      ...item(`w${i}`, 0.05 + random(), Math.floor(random() * 4), 40, 5 + 30 * random()),
      footprint: {
        outline: [
          { x: -10 * random(), y: -5 },
          { x: 30, y: -20 * random() },
          { x: 0, y: 30 },
        ],
      },
    }))
    const space = new StackSpace(stock, 90)
    const check = (node: StackNode): StackNode[] => {
      if (node.left === 0) return [node]
      const whole = space.below(node).flatMap(check)
      for (const s of whole) {
        expect(s.mass).toBeGreaterThanOrEqual(node.mass0 - 1e-9)
        expect(s.mass).toBeLessThanOrEqual(node.mass1 + 1e-9)
        expect(s.height).toBeGreaterThanOrEqual(node.height0 - 1e-9)
        expect(s.height).toBeLessThanOrEqual(node.height1 + 1e-9)
        for (const axis of ['x', 'y'] as const) {
          expect(s.moment[axis]).toBeGreaterThanOrEqual(node.moment0[axis] - 1e-6)
          expect(s.moment[axis]).toBeLessThanOrEqual(node.moment1[axis] + 1e-6)
        }
      }
      return whole
    }
    for (let n = 1; n <= 5; n++) {
      const root = space.root(n)
      if (root) check(root)
    }
  }
})

test('a stack stands on the footprint that covers the others, else on a hull of both', () => {
  const stock: StockItem[] = [
    item('disc', 0.2, 2, 40, 15),
    { ...item('bar', 0.3, 2, 1, 15), footprint: { rect: [100, 30] } },
    { ...item('slab', 0.3, 2, 1, 15), footprint: { rect: [120, 60] } },
  ]
  const space = new StackSpace(stock, 120)
  const shapeOf = (...counts: number[]) => {
    const pieces = counts.reduce((s, c) => s + c, 0)
    const stack = [...wholeStacks(space, pieces)].find((s) => s.counts.join() === counts.join())!
    return space.shapes[stack.shape]!
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

test('pieces lie widest undermost, and their centre of mass is as high as that makes it', () => {
  const stock = [item('small', 0.2, 2, 40, 10), item('wide', 0.6, 1, 90, 30)]
  const space = new StackSpace(stock, 120)
  const [stack] = [...wholeStacks(space, 3)]
  expect(space.order(stack!)).toEqual([
    { index: 1, count: 1 },
    { index: 0, count: 2 },
  ])
  // Wide 0.6 kg at 15, small 0.4 kg at 30 + 10.
  expectNear(space.standing(stack!).centre, (0.6 * 15 + 0.4 * 40) / 1, { rel: 1e-12 })
})

test('a piece whose centre is off its bolt carries it along and across', () => {
  const wedge: StockItem = {
    ...item('wedge', 0.45, 1, 1, 10),
    footprint: {
      outline: [
        { x: 0, y: 0 },
        { x: 30, y: 0 },
        { x: 0, y: 30 },
      ],
    },
  }
  const [stack] = [...wholeStacks(new StackSpace([wedge], 100), 1)]
  expectNear(stack!.moment.x, 450 * 10, { rel: 1e-12 })
  expectNear(stack!.moment.y, 450 * 10, { rel: 1e-12 })
})
