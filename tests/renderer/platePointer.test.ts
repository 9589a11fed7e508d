import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { PlatePointer } from '../../src-renderer/panels/plate/platePointer.ts'
import type { PointerInput, Tool } from '../../src-renderer/editor/port.ts'

let frames: Map<number, FrameRequestCallback>
beforeEach(() => {
  frames = new Map()
  let id = 0
  vi.stubGlobal('requestAnimationFrame', (run: FrameRequestCallback) => {
    frames.set(++id, run)
    return id
  })
  vi.stubGlobal('cancelAnimationFrame', (n: number) => frames.delete(n))
})
afterEach(() => vi.unstubAllGlobals())

const nextFrame = () => {
  const due = [...frames.values()]
  frames.clear()
  due.forEach((run) => run(0))
}

function bench() {
  const said: string[] = []
  const note = (what: string) => (input: PointerInput) => void said.push(`${what} ${input.screen.x}`)
  const tool: Tool = {
    name: 'trial',
    cursor: 'default',
    down: note('down'),
    move: note('move'),
    up: note('up'),
    cancel: () => void said.push('cancel'),
  }
  const pointer = new PlatePointer({
    view: { scale: 1, at: { x: 0, y: 0 }, turn: 0, width: 100, height: 100 },
    tool,
    setCamera: () => undefined,
    setCursor: () => undefined,
    settle: () => void said.push('settle'),
  })
  const element = {
    getBoundingClientRect: () => ({ left: 0, top: 0 }),
    focus: () => undefined,
    setPointerCapture: () => undefined,
  } as unknown as HTMLElement
  const event = (clientX: number, buttons = 1) =>
    ({
      clientX,
      clientY: 0,
      buttons,
      button: 0,
      pointerId: 1,
      pointerType: 'mouse',
      timeStamp: 0,
      currentTarget: element,
    }) as unknown as PointerEvent & { currentTarget: HTMLElement }
  return { said, pointer, event }
}

test('however often the pointer moves, the tool is moved once a frame, to the last place', () => {
  const { said, pointer, event } = bench()
  for (const x of [1, 2, 3]) pointer.move(event(x))
  expect(said).toEqual([])
  nextFrame()
  expect(said).toEqual(['move 3', 'settle'])
  nextFrame()
  expect(said).toEqual(['move 3', 'settle'])
})

test('a press and a release find the tool where the pointer was', () => {
  const { said, pointer, event } = bench()
  pointer.move(event(4, 0))
  pointer.down(event(5))
  pointer.move(event(6))
  pointer.up(event(7))
  nextFrame()
  expect(said).toEqual(['move 4', 'down 5', 'move 6', 'up 7'])
})

test('a move still to be made is forgotten when the pointer is taken away or leaves', () => {
  const { said, pointer, event } = bench()
  pointer.move(event(8))
  pointer.lost(event(8))
  pointer.move(event(9, 0))
  pointer.left(event(9, 0))
  nextFrame()
  expect(said).toEqual(['cancel'])
})
