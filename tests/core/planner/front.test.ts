import { expect, test } from 'vitest'
import type { Choice } from '../../../src-core/planner/choose.ts'
import { Front, bestFirst, type Answer } from '../../../src-core/planner/front.ts'

const answer = (pieces: number, stations: number, moves: number, residual: number): Answer => ({
  model: null as never,
  choice: { entries: [], radii: [], residual, mass: pieces * 100 } satisfies Choice,
  pieces,
  stations,
  moves,
  turn: null,
})
const residuals = (list: readonly Answer[]) => list.map((a) => a.choice.residual)

test('what is reached counts only answers that ask for no more of anything', () => {
  const front = new Front(1000)
  front.offer(answer(3, 2, 1, 100))
  expect(front.reached(3, 2, 1)).toBe(100)
  expect(front.reached(2, 2, 1)).toBe(1000)
  expect(front.reached(3, 1, 1)).toBe(1000)
  expect(front.reached(3, 2, 0)).toBe(1000)
})

test('an answer that is beaten goes, one that asks for less of anything stays', () => {
  const front = new Front(1000)
  for (const a of [answer(3, 2, 0, 500), answer(2, 2, 0, 400), answer(2, 1, 0, 600), answer(1, 1, 1, 450)])
    front.offer(a)
  front.offer(answer(4, 3, 2, 400))
  front.offer(answer(1, 1, 0, 1000))
  expect(residuals(front.answers).sort((a, b) => a - b)).toEqual([400, 450, 600])
})

test('least residual first; of those as good as nothing the fewest pieces', () => {
  const list = bestFirst([answer(1, 1, 0, 300), answer(3, 2, 0, 0.2), answer(2, 2, 1, 0.7)], 8)
  expect(list.map((a) => a.pieces)).toEqual([2, 3, 1])
})

test('a longer list is cut where two differ least, never at its best', () => {
  const list = [answer(4, 2, 0, 10), answer(3, 2, 0, 11), answer(2, 2, 0, 200), answer(1, 1, 0, 900)]
  expect(residuals(bestFirst(list, 3))).toEqual([10, 200, 900])
  expect(residuals(bestFirst(list, 1))).toEqual([10])
})

test('more pieces for hardly less residual are not listed, unless nothing leaves less', () => {
  const list = [answer(5, 2, 0, 100), answer(4, 2, 0, 495), answer(3, 2, 0, 500)]
  expect(residuals(bestFirst(list, 8))).toEqual([100, 500])
  expect(residuals(bestFirst([answer(4, 2, 0, 495), answer(3, 2, 0, 500)], 8))).toEqual([495, 500])
})
