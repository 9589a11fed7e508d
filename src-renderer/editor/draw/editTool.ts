/** Vertices, edges and bulges of what is drawn already: grab and drag. */
import type { Point, Ring } from '../../../src-core/geometry/types.ts'
import { isPrism, type Job } from '../../../src-core/job/schema.ts'
import { setRing } from '../edits/bodies.ts'
import { DRAG_START_PX, hasDragged, type PointerInput } from '../port.ts'
import { roundTo, freeStep } from '../snap.ts'
import type { DrawPort, DrawTool } from './drawPort.ts'
import { deleteVertex, moveEdge, moveVertex, setBulge, splitEdge, translate } from './rings.ts'
import { bulgeFor, findRing, gripAt, ringRefs, shareAlong, type Grip } from './grips.ts'
import { sameRing, type RingRef } from './snapping.ts'
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
  readonly prompt = 'Drag a point, an edge or its middle; double-click an edge for a new point'
  readonly last = null
  readonly #port: DrawPort
  #state: State = { name: 'idle' }
  #over: Grip | null = null
  #lastDown: { at: Point; time: number } | null = null

  constructor(port: DrawPort) {
    this.#port = port
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
    const { chosen, vertex } = this.#port
    if ((name === 'Delete' || name === 'Backspace') && chosen && vertex !== null) {
      const ring = this.#ring(chosen)
      if (!ring || ring.length <= 2) return true
      this.#port.begin('Delete a vertex')
      this.#port.replace(setRing(this.#port.job, chosen.body, chosen.ring, deleteVertex(ring, vertex)))
      this.#port.commit()
      this.#port.choose(chosen, null)
      return true
    }
    const step = /^(Shift\+)?Arrow(Left|Right|Up|Down)$/.exec(name)
    if (step && chosen) {
      this.#nudge(chosen, vertex, step[2]!, step[1] ? 0.1 : 1)
      return true
    }
    if (name === '.' || name === ',') return this.#step(name === '.' ? 1 : -1)
    if (name === 'PageDown' || name === 'PageUp') return this.#stepRing(name === 'PageDown' ? 1 : -1)
    if (name === 'Escape' && chosen) {
      this.#port.choose(vertex === null ? null : chosen, null)
      return true
    }
    return false
  }
  /** With a vertex chosen a typed point is where it goes. */
  typed(entry: Typed): string | null {
    const { chosen, vertex } = this.#port
    if (entry.kind === 'refused') return entry.reason
    if (entry.kind !== 'point' || !chosen || vertex === null)
      return 'Choose a vertex first, then type where it goes.'
    const ring = this.#ring(chosen)
    if (!ring) return 'That ring is gone.'
    this.#port.begin('Move a vertex')
    this.#port.replace(
      setRing(this.#port.job, chosen.body, chosen.ring, moveVertex(ring, vertex, entry.point)),
    )
    this.#port.commit()
    return null
  }

  #nudge(ref: RingRef, vertex: number | null, way: string, by: number): void {
    const ring = this.#ring(ref)
    if (!ring) return
    const move = {
      x: way === 'Left' ? -by : way === 'Right' ? by : 0,
      y: way === 'Down' ? -by : way === 'Up' ? by : 0,
    }
    const at = vertex === null ? null : ring[vertex]
    const next =
      at && vertex !== null
        ? moveVertex(ring, vertex, { x: roundTo(at.x + move.x, 1e-4), y: roundTo(at.y + move.y, 1e-4) })
        : translate(ring, move)
    this.#port.begin(at ? 'Move a vertex' : 'Move a ring')
    this.#port.replace(setRing(this.#port.job, ref.body, ref.ring, next))
    this.#port.commit()
  }
  /** Round through the vertices of the chosen ring. */
  #step(by: number): boolean {
    const { chosen, vertex } = this.#port
    const ring = chosen && this.#ring(chosen)
    if (!chosen || !ring) return this.#stepRing(by)
    this.#port.choose(
      chosen,
      vertex === null ? (by > 0 ? 0 : ring.length - 1) : (vertex + by + ring.length) % ring.length,
    )
    return true
  }
  #stepRing(by: number): boolean {
    const { chosen, job } = this.#port
    const all = job.part.bodies.filter(isPrism).flatMap(ringRefs)
    const now = all.findIndex((r) => sameRing(r, chosen))
    const next = all[now < 0 ? 0 : (now + by + all.length) % all.length]
    if (next) this.#port.choose(next, null)
    return next !== undefined
  }

  #start(grip: Grip | null, from: PointerInput, now: PointerInput): void {
    const ring = grip && this.#ring(grip.ref)
    if (!grip || !ring) {
      this.#port.pan(now.screen.x - from.screen.x, now.screen.y - from.screen.y)
      this.#state = { name: 'panning', last: now }
      return
    }
    this.#port.choose(grip.ref, grip.kind === 'vertex' ? grip.index : null)
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
    const step = input.alt ? 0.01 : freeStep(input.pxPerMm)
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
        put(translate(ring, by))
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
    this.#port.choose(grip?.ref ?? null, grip?.kind === 'vertex' ? grip.index : null)
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
