/** Vertices, edges and bulges of what is drawn already: grab and drag. */
import type { Point, Ring } from '../../../src-core/geometry/types.ts'
import type { Job } from '../../../src-core/job/schema.ts'
import { setRing } from '../edits/bodies.ts'
import { DRAG_START_PX, hasDragged, type PointerInput } from '../port.ts'
import { roundTo } from '../snap.ts'
import { Chosen } from './chosen.ts'
import type { DrawPort, DrawTool } from './drawPort.ts'
import { moveRings } from '../edits/bodyCopies.ts'
import { moveEdge, moveVertex, setBulge, splitEdge, translate } from './rings.ts'
import { bulgeFor, findRing, gripAt, shareAlong, type Grip } from './grips.ts'
import type { RingRef } from './snapping.ts'
import type { Typed } from './typedPoint.ts'

type State =
  | { readonly name: 'idle' }
  | { readonly name: 'pressed'; readonly grip: Grip | null; readonly input: PointerInput }
  | {
      readonly name: 'dragging'
      readonly grip: Grip
      readonly from: Point
      readonly ring: Ring
      readonly job: Job
    }
  | { readonly name: 'panning'; readonly last: PointerInput }

export class EditTool implements DrawTool {
  readonly name = 'edit'
  readonly said = ''
  readonly #port: DrawPort
  readonly #chosen: Chosen
  #state: State = { name: 'idle' }
  #over: Grip | null = null
  #lastDown: { at: Point; time: number } | null = null

  constructor(port: DrawPort) {
    this.#port = port
    this.#chosen = new Chosen(port)
  }

  get prompt(): string {
    return this.#chosen.prompt
  }
  get last(): Point | null {
    return this.#chosen.last
  }

  get cursor(): string {
    if (this.#state.name === 'panning') return 'grabbing'
    return this.#over === null ? 'default' : this.#over.kind === 'ring' ? 'move' : 'pointer'
  }

  down(input: PointerInput): void {
    this.cancel()
    const grip = this.#grip(input)
    this.#state = { name: 'pressed', grip, input }
  }
  move(input: PointerInput): void {
    const state = this.#state
    switch (state.name) {
      case 'idle':
        this.#over = this.#grip(input)
        return
      case 'pressed':
        if (!hasDragged(state.input, input)) return
        return this.#start(state.grip, state.input, input)
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
    this.#port.preview(null)
    if (state.name === 'dragging') this.#port.commit()
    if (state.name === 'pressed') this.#click(state.grip, input)
  }
  cancel(): void {
    if (this.#state.name === 'dragging') this.#port.cancel()
    this.#state = { name: 'idle' }
    this.#port.preview(null)
  }
  key(name: string): boolean {
    return this.#chosen.key(name)
  }
  typed(entry: Typed): string | null {
    return this.#chosen.typed(entry)
  }

  #start(grip: Grip | null, from: PointerInput, now: PointerInput): void {
    const ring = grip && this.#ring(grip.ref)
    if (!grip || !ring) {
      this.#port.pan(now.screen.x - from.screen.x, now.screen.y - from.screen.y)
      this.#state = { name: 'panning', last: now }
      return
    }
    this.#choose(grip)
    const what = {
      vertex: 'Move a vertex',
      bulge: 'Bend an edge',
      edge: 'Move an edge',
      ring: 'Move a ring',
    }[grip.kind]
    this.#port.begin(what)
    const state = {
      name: 'dragging',
      grip,
      from: this.#port.toPart(from.world),
      ring,
      job: this.#port.job,
    } as const
    this.#state = state
    this.#drag(state, now)
  }

  #drag(state: Extract<State, { name: 'dragging' }>, input: PointerInput): void {
    const { grip, ring, from, job } = state
    const raw = this.#port.toPart(input.world)
    const step = input.alt ? 0.01 : this.#port.step(input.pxPerMm)
    const by = { x: roundTo(raw.x - from.x, step), y: roundTo(raw.y - from.y, step) }
    const show = (at: Point, text: string, snapped: boolean) =>
      this.#port.preview({ path: [], closed: false, at, text, snapped })
    const put = (next: Ring) => this.#port.replace(setRing(job, grip.ref.body, grip.ref.ring, next))
    const { length } = this.#port
    switch (grip.kind) {
      case 'vertex': {
        const n = ring.length
        const snapped = this.#port.snap(input, ring[(grip.index + n - 1) % n]!, {
          ref: grip.ref,
          vertex: grip.index,
        })
        put(moveVertex(ring, grip.index, snapped.point))
        return show(
          snapped.point,
          [snapped.text, `${length(snapped.point.x)}, ${length(snapped.point.y)}`].filter(Boolean).join('  '),
          snapped.text !== '',
        )
      }
      case 'bulge': {
        const a = ring[grip.index]!
        const b = ring[(grip.index + 1) % ring.length]!
        const bulge = bulgeFor(a, b, raw, input.pxPerMm, input.alt)
        put(setBulge(ring, grip.index, bulge))
        const half = bulge === 0 ? 'straight' : Math.abs(Math.abs(bulge) - 1) < 1e-9 ? 'half turn' : ''
        const radius =
          bulge === 0
            ? ''
            : `R ${length((Math.hypot(b.x - a.x, b.y - a.y) * (1 + bulge * bulge)) / (4 * Math.abs(bulge)))}`
        return show(raw, [half, radius].filter(Boolean).join('  '), half !== '')
      }
      case 'edge':
        put(moveEdge(ring, grip.index, by))
        return show(raw, `x ${length(by.x)}, y ${length(by.y)}`, false)
      case 'ring':
        this.#port.replace(moveRings(job, grip.ref, (r) => translate(r, by)))
        return show(raw, `x ${length(by.x)}, y ${length(by.y)}`, false)
    }
  }

  #click(grip: Grip | null, input: PointerInput): void {
    const at = input.screen
    const again =
      this.#lastDown &&
      Math.hypot(at.x - this.#lastDown.at.x, at.y - this.#lastDown.at.y) < DRAG_START_PX &&
      input.time - this.#lastDown.time < 450
    this.#lastDown = again ? null : { at, time: input.time }
    if (again && grip && (grip.kind === 'edge' || grip.kind === 'bulge'))
      return this.#split(grip.ref, grip.index, input)
    this.#choose(grip)
  }
  #choose(grip: Grip | null): void {
    if (!grip || grip.kind === 'ring') this.#port.choose(grip?.ref ?? null, null)
    else if (grip.kind === 'vertex') this.#port.choose(grip.ref, grip.index)
    else this.#port.choose(grip.ref, null, grip.index)
  }

  #split(ref: RingRef, index: number, input: PointerInput): void {
    const ring = this.#ring(ref)
    if (!ring) return
    const share = shareAlong(ring, index, this.#port.toPart(input.world))
    this.#port.begin('Add a vertex')
    this.#port.replace(setRing(this.#port.job, ref.body, ref.ring, splitEdge(ring, index, share)))
    this.#port.commit()
    this.#port.choose(ref, index + 1)
  }

  #ring(ref: RingRef): Ring | null {
    return findRing(this.#port.job.part, ref)
  }

  #grip(input: PointerInput): Grip | null {
    const { job, chosen } = this.#port
    return gripAt(job.part, chosen, this.#port.toPart(input.world), input.pxPerMm, input.touch)
  }
}
