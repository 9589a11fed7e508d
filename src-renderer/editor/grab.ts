/** Press, drag, let go: the one machine behind every tool that takes hold of things. */
import type { Job } from '../../src-core/job/schema.ts'
import { hasDragged, type PointerInput, type ToolPort } from './port.ts'

/** A drag under way: what it makes of the job at each place of the pointer, always from where it began, so nothing drifts. */
export interface Drag<Shown> {
  /** Names the step of undo. */
  readonly label: string
  at(input: PointerInput): { readonly job: Job; readonly shown: Shown }
}

/** What a tool takes hold of, and what becomes of it. */
export interface Hold<Thing, Shown> {
  /** What lies under the pointer. */
  find(input: PointerInput): Thing | null
  /** The pointer is over it, or over nothing, and holds nothing. */
  hover(thing: Thing | null): void
  /** Pressed and let go in one place. */
  click(thing: Thing | null, input: PointerInput): void
  /** The drag that takes hold of it; null where it stays and the picture is moved instead. */
  drag(thing: Thing, from: PointerInput): Drag<Shown> | null
  /** What a drag shows besides the job; null when it ends. */
  show(shown: Shown | null): void
}

type GrabPort = Pick<ToolPort, 'pan' | 'begin' | 'replace' | 'commit' | 'cancel'>

type State<Thing, Shown> =
  | { readonly name: 'idle' }
  | { readonly name: 'pressed'; readonly thing: Thing | null; readonly input: PointerInput }
  | { readonly name: 'dragging'; readonly drag: Drag<Shown> }
  | { readonly name: 'panning'; readonly last: PointerInput }

/** Every state answers every event. A drag is one step of undo, or none where it is called off. Tools extend it. */
export class Grab<Thing, Shown> {
  readonly #port: GrabPort
  readonly #hold: Hold<Thing, Shown>
  #state: State<Thing, Shown> = { name: 'idle' }

  constructor(port: GrabPort, hold: Hold<Thing, Shown>) {
    this.#port = port
    this.#hold = hold
  }

  /** What moves with the pointer. */
  get moves(): 'thing' | 'picture' | null {
    const { name } = this.#state
    return name === 'dragging' ? 'thing' : name === 'panning' ? 'picture' : null
  }

  down(input: PointerInput): void {
    this.cancel()
    this.#state = { name: 'pressed', thing: this.#hold.find(input), input }
  }

  move(input: PointerInput): void {
    const state = this.#state
    switch (state.name) {
      case 'idle':
        return this.#hold.hover(this.#hold.find(input))
      case 'pressed':
        if (hasDragged(state.input, input)) this.#start(state.thing, state.input, input)
        return
      case 'panning':
        return this.#pan(state.last, input)
      case 'dragging':
        return this.#drag(state.drag, input)
    }
  }

  up(input: PointerInput): void {
    const state = this.#state
    this.#state = { name: 'idle' }
    this.#hold.show(null)
    if (state.name === 'dragging') this.#port.commit()
    if (state.name === 'pressed') this.#hold.click(state.thing, input)
    // A finger that is lifted points at nothing.
    if (!input.touch) this.#hold.hover(this.#hold.find(input))
  }

  cancel(): void {
    if (this.#state.name === 'dragging') this.#port.cancel()
    this.#state = { name: 'idle' }
    this.#hold.show(null)
  }

  #start(thing: Thing | null, from: PointerInput, now: PointerInput): void {
    const drag = thing === null ? null : this.#hold.drag(thing, from)
    if (!drag) return this.#pan(from, now)
    this.#port.begin(drag.label)
    this.#state = { name: 'dragging', drag }
    this.#drag(drag, now)
  }

  #pan(from: PointerInput, to: PointerInput): void {
    this.#port.pan(to.screen.x - from.screen.x, to.screen.y - from.screen.y)
    this.#state = { name: 'panning', last: to }
  }

  #drag(drag: Drag<Shown>, input: PointerInput): void {
    const { job, shown } = drag.at(input)
    this.#port.replace(job)
    this.#hold.show(shown)
  }
}
