/** Select, slide, turn: the tool that is in hand unless another is taken up. */
import { hitTest, HIT_PX, TOUCH_PX } from '../hitTest.ts'
import { hasDragged, type PointerInput, type Tool, type ToolPort } from '../port.ts'
import { sameTarget, type Target } from '../target.ts'
import { movePart, slideNose, slidePiece, turnPart, type Drag } from './drags.ts'

type State =
  | { readonly name: 'idle' }
  | { readonly name: 'pressed'; readonly target: Target | null; readonly input: PointerInput }
  | { readonly name: 'dragging'; readonly target: Target; readonly drag: Drag }
  | { readonly name: 'panning'; readonly last: PointerInput }

export class SelectTool implements Tool {
  readonly name = 'select'
  readonly #port: ToolPort
  #state: State = { name: 'idle' }
  #over: Target | null = null

  constructor(port: ToolPort) {
    this.#port = port
  }

  down(input: PointerInput): void {
    this.cancel()
    this.#state = { name: 'pressed', target: this.#hit(input), input }
  }

  move(input: PointerInput): void {
    const state = this.#state
    switch (state.name) {
      case 'idle':
        return this.#hover(this.#hit(input))
      case 'pressed':
        if (!hasDragged(state.input, input)) return
        return this.#startDrag(state.target, state.input, input)
      case 'panning':
        this.#port.pan(input.screen.x - state.last.screen.x, input.screen.y - state.last.screen.y)
        this.#state = { name: 'panning', last: input }
        return
      case 'dragging':
        return this.#drag(state, input)
    }
  }

  up(input: PointerInput): void {
    const state = this.#state
    this.#state = { name: 'idle' }
    this.#port.guide(null)
    if (state.name === 'pressed') {
      const target = selectable(state.target)
      if (target) this.#port.show(target)
      else this.#port.select(null)
    }
    if (state.name === 'dragging') this.#port.commit()
    if (!input.touch) this.#hover(this.#hit(input))
  }

  cancel(): void {
    if (this.#state.name === 'dragging') this.#port.cancel()
    this.#state = { name: 'idle' }
    this.#port.guide(null)
  }

  get cursor(): string {
    if (this.#state.name === 'dragging' || this.#state.name === 'panning') return 'grabbing'
    return this.#over && this.#over.kind !== 'slot' && this.#over.kind !== 'hole' ? 'grab' : 'default'
  }

  #startDrag(target: Target | null, from: PointerInput, now: PointerInput): void {
    const drag = target && this.#dragOf(target, from)
    if (!target || !drag) {
      this.#port.pan(now.screen.x - from.screen.x, now.screen.y - from.screen.y)
      this.#state = { name: 'panning', last: now }
      return
    }
    this.#port.select(selectable(target))
    this.#port.begin(drag.label)
    const state = { name: 'dragging', target, drag } as const
    this.#state = state
    this.#drag(state, now)
  }

  #drag(state: Extract<State, { name: 'dragging' }>, input: PointerInput): void {
    const { job, guide } = state.drag.at(input)
    this.#port.replace(job)
    this.#port.guide(guide)
  }

  #dragOf(target: Target, from: PointerInput): Drag | null {
    const { mounted } = this.#port
    if (!mounted) return null
    const words = { length: (mm: number) => this.#port.length(mm) }
    switch (target.kind) {
      case 'part':
        return movePart(mounted, from.world, words)
      case 'turn-handle':
        return turnPart(mounted, from.world)
      case 'piece':
        return slidePiece(mounted, target.id, from.world, words)
      case 'nose-handle':
        return slideNose(mounted, target.id, words)
      case 'slot':
      case 'hole':
        return null
    }
  }

  #hit(input: PointerInput): Target | null {
    const { mounted, selection } = this.#port
    return mounted && hitTest(mounted, selection, input.world, input.pxPerMm, input.touch ? TOUCH_PX : HIT_PX)
  }

  #hover(target: Target | null): void {
    if (sameTarget(this.#over, target)) return
    this.#over = target
    this.#port.hover(target)
  }
}

/** A handle belongs to what it turns or holds. */
function selectable(target: Target | null): Target | null {
  if (target?.kind === 'turn-handle') return { kind: 'part' }
  if (target?.kind === 'nose-handle') return { kind: 'piece', id: target.id }
  return target
}
